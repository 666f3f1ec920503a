"""How grave each finding is: what spoils the print stops, what may spoil it warns."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from mockup.checks.finding import Finding, Severity
from mockup.checks.running import check_piece
from mockup.checks.settings import Settings
from tests.checks.bench.case import Case
from tests.checks.bench.sheet import BLACK, CREAM, INK, WHITE, Sheet

STOP, WARN, NOTE = Severity.STOP, Severity.WARN, Severity.NOTE


def ground(reach_in: float) -> Callable[[Sheet], None]:
    """A ground that goes so far beyond the cut on the left, and to the bleed's end elsewhere."""
    return lambda sheet: sheet.flood(CREAM, left=reach_in)


def type_at(from_cut_in: float) -> Callable[[Sheet], None]:
    def draw(sheet: Sheet) -> None:
        sheet.outlined(from_cut_in, 3.5, "Samphire", 18, INK)

    return draw


def type_of(size_pt: float, on: tuple | None = None) -> Callable[[Sheet], None]:
    def draw(sheet: Sheet) -> None:
        if on is not None:
            sheet.flood(on)
        sheet.outlined(2.0, 3.5, "Samphire Hard", size_pt, BLACK if on is None else WHITE)

    return draw


def image_at(ppi: float) -> Callable[[Sheet], None]:
    side = round(2 * ppi)
    return lambda sheet: sheet.image(np.full((side, side, 3), 90, np.uint8), 1.5, 2.5, 2.0, 2.0)


def found(
    draw: Callable[[Sheet], object], folder: Path, settings: Settings, **sheet
) -> list[Finding]:
    case = Case("page", lambda page: draw(page), sheet=sheet)  # type: ignore[arg-type,return-value]
    page = Sheet(**{"width": 5.0, "height": 7.0, **sheet})
    draw(page)
    return check_piece(case.piece(page.save(folder / "page.pdf")), settings)


@pytest.mark.parametrize(
    ("check", "draw", "severity"),
    [
        ("bleed", ground(0.0), STOP),  # paper shows as soon as cutting wanders
        ("bleed", ground(0.05), STOP),  # less than the 1/16 in that cutting wanders
        ("bleed", ground(0.09), WARN),
        ("safe", type_at(-0.02), STOP),  # cut off
        ("safe", type_at(0.03), STOP),  # nearer than cutting wanders
        ("safe", type_at(0.09), WARN),
        ("resolution", image_at(100), STOP),  # GWG2015 4.26: an error under 149
        ("resolution", image_at(200), WARN),  # a warning under 224
        ("small-type", type_of(5.0), WARN),
        ("small-type", type_of(7.0, on=INK), WARN),  # under 8 pt where it is reversed out
        ("shift", type_at(0.01), WARN),
    ],
)
def test_a_finding_is_as_grave_as_its_consequence(
    check: str, draw: Callable[[Sheet], None], severity: Severity, tmp_path: Path
) -> None:
    findings = [f for f in found(draw, tmp_path, Settings()) if f.check == check]
    assert findings, check
    assert max(f.severity for f in findings) is severity


@pytest.mark.parametrize(
    ("check", "draw"),
    [
        ("bleed", ground(0.125)),
        ("safe", type_at(0.2)),
        ("resolution", image_at(300)),
        ("small-type", type_of(7.0)),
        ("shift", type_at(0.2)),
    ],
)
def test_what_is_well_is_not_told(
    check: str, draw: Callable[[Sheet], None], tmp_path: Path
) -> None:
    assert not [f for f in found(draw, tmp_path, Settings()) if f.check == check]


def test_size_stops_and_tells_swapped_sides(tmp_path: Path) -> None:
    findings = found(type_of(18), tmp_path, Settings(), width=7.0, height=5.0)
    (size,) = [f for f in findings if f.check == "size"]
    assert size.severity is STOP
    assert "swapped" in size.message and "turn the art by 90" in size.fix


def test_a_share_cut_is_that_of_the_wander_told(tmp_path: Path) -> None:
    """A wander of 1/16 in is two standard deviations of a normal run.

    Type at one side is cut where the cut goes that way farther than its clearance.
    """
    settings = replace(Settings(), turn_deg=0.0, run=20_000)
    findings = found(type_at(1 / 32), tmp_path, settings)
    (shift,) = [f for f in findings if f.check == "shift"]
    share = float(shift.message.split(" % lose something")[0].split(" ")[-1])
    assert shift.value is not None
    clear_in = shift.value + 1 / 16  # the worst is a whole wander straight at it
    assert 1 / 32 < clear_in < 1 / 32 + 0.02  # a letter begins a little right of its origin
    assert share == pytest.approx(50 * math.erfc(clear_in / (1 / 32) / math.sqrt(2)), abs=1.0)


def test_hidden_guides_and_spot_colours_of_a_die_stop(tmp_path: Path) -> None:
    def guides(sheet: Sheet) -> None:
        sheet.outlined(1.5, 3.5, "Samphire", 18, INK)
        sheet.begin_layer("Die line", state="hidden")
        sheet.line([(0.5, 0.5), (4.5, 0.5), (4.5, 6.5)], 0.5, INK)
        sheet.end_layer()

    findings = [f for f in found(guides, tmp_path, Settings()) if f.check == "left-in"]
    assert [f.severity for f in findings] == [STOP]
    assert "(hidden)" in findings[0].message
