"""What the art asks for and no picture here shows is told once, as a warning."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from mockup.checks.finding import Severity
from mockup.checks.undrawn import check_undrawn
from tests.checks.bench.sheet import CREAM
from tests.checks.contexts import context_of


def test_features_that_are_not_drawn_are_one_warning(tmp_path: Path) -> None:
    context = context_of(lambda sheet: sheet.flood(CREAM), tmp_path)
    assert check_undrawn(context) == []
    asked = replace(context, page=replace(context.page, undrawn=("a blend mode", "animation")))
    (finding,) = check_undrawn(asked)
    assert finding.severity == Severity.WARN
    assert "a blend mode, animation" in finding.message
