"""Page contexts made from bench pages, for tests of single checks."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from mockup.checks.page_context import PageContext
from mockup.checks.settings import Settings
from mockup.reading.page import read_facts
from tests.checks.bench.case import Case
from tests.checks.bench.sheet import Sheet


def context_of(
    draw: Callable[[Sheet], object], folder: Path, settings: Settings | None = None, **case
) -> PageContext:
    """Returns the context of a page drawn here; `case` are a bench case's fields."""
    made = Case("page", draw, **case)
    sheet = Sheet(**{"width": made.size[0], "height": made.size[1], **made.sheet})
    draw(sheet)
    settings = settings or Settings()
    piece = made.piece(sheet.save(folder / "page.pdf"))
    return PageContext(read_facts(piece, settings.safe_in), settings)
