"""Page contexts made from bench pages, for tests of single checks."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from mockup.checks.page_context import PageContext
from mockup.checks.page_reading import read_context
from mockup.checks.settings import Settings
from tests.checks.bench.case import Case
from tests.checks.bench.sheet import Sheet


def context_of(
    draw: Callable[[Sheet], object], folder: Path, settings: Settings | None = None, **case
) -> PageContext:
    """Returns the context of a page drawn here; `case` are a bench case's fields."""
    made = Case("page", draw, **case)
    sheet = Sheet(**{"width": made.size[0], "height": made.size[1], **made.sheet})
    draw(sheet)
    return read_context(made.piece(sheet.save(folder / "page.pdf")), settings or Settings())
