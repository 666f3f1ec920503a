"""Type on its ground as printed: what is pale is told, what is dark, large or a finish is not."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from mockup.checks.finding import Finding, Severity
from mockup.checks.legibility import check_legibility
from mockup.colour.contrast import contrast, luminance
from tests.checks.bench.sheet import Sheet
from tests.checks.contexts import context_of

BLACK, PALE, MIDDLE = (0, 0, 0, 1), (0, 0.05, 0.2, 0.12), (0.2, 0.3, 0.5, 0.3)
WHITE = (0, 0, 0, 0)
SAID = "fiddles in the loft"


def told(draw, folder: Path, **case) -> list[Finding]:
    return check_legibility(context_of(draw, folder, **case))


def type_of(ink, size_pt: float = 9, live: bool = True):
    def draw(sheet: Sheet) -> None:
        place = sheet.live_type if live else sheet.outlined
        place(1, 3, SAID, size_pt, ink)

    return draw


@pytest.mark.parametrize("live", [True, False], ids=["live", "outlined"])
def test_small_pale_type_on_pale_paper_is_told(live: bool, tmp_path: Path) -> None:
    (found,) = told(type_of(PALE, live=live), tmp_path)
    assert (found.check, found.severity) == ("contrast", Severity.WARN)
    assert found.value is not None
    assert 1.15 < found.value < 2.2
    assert found.at is not None
    assert found.at.x == pytest.approx(1, abs=0.05)


@pytest.mark.parametrize("size_pt", [5, 6, 9, 14])
def test_black_type_is_not_told_however_small(size_pt: float, tmp_path: Path) -> None:
    assert told(type_of(BLACK, size_pt), tmp_path) == []


def test_large_pale_type_is_not_told(tmp_path: Path) -> None:
    assert told(type_of(PALE, 24), tmp_path) == []


def test_the_contrast_is_that_of_the_colours_printed(tmp_path: Path) -> None:
    """WCAG's own formula on the printed picture's colours: a patch of the ink beside its type."""

    def draw(sheet: Sheet) -> None:
        sheet.live_type(1, 3, SAID, 9, MIDDLE)
        sheet.rect(1, 4, 1, 1, MIDDLE)

    context = context_of(draw, tmp_path, stock="kraft-100")
    (found,) = check_legibility(context)
    patch, paper = context.page.printed.colours_at(np.array([[1.5, 4.5], [3.5, 6.0]]))
    light = luminance(np.rint([patch, paper]).astype(np.uint8))
    assert found.value == pytest.approx(float(contrast(light[0], light[1])), abs=0.15)


def test_the_same_type_is_told_on_dark_stock_alone(tmp_path: Path) -> None:
    white = told(type_of((0, 0.2, 0.4, 0.7)), tmp_path)
    kraft = told(type_of((0, 0.2, 0.4, 0.7)), tmp_path, stock="kraft-100")
    assert white == []
    assert [found.severity for found in kraft] == [Severity.NOTE]


def test_type_out_of_a_dark_ground_is_read(tmp_path: Path) -> None:
    def draw(sheet: Sheet) -> None:
        sheet.flood(BLACK)
        sheet.live_type(1, 3, SAID, 9, WHITE)

    assert told(draw, tmp_path) == []


def test_over_a_photograph_each_letter_has_its_own_ground(tmp_path: Path) -> None:
    """Pale type over a picture dark on the left: lost on the right half, as a mean would not say."""
    pixels = np.full((60, 60, 4), (20, 10, 0, 0), np.uint8)
    pixels[:, :24] = (0, 0, 0, 255)

    def draw(sheet: Sheet) -> None:
        sheet.image(pixels, 0.9, 2.7, 1.3, 0.5)
        sheet.live_type(1, 3, SAID, 9, (0, 0.02, 0.05, 0.02))

    (found,) = told(draw, tmp_path)
    assert found.severity == Severity.WARN
    dark = np.full((60, 60, 4), (0, 0, 0, 255), np.uint8)

    def safe(sheet: Sheet) -> None:
        sheet.image(dark, 0.9, 2.7, 1.3, 0.5)
        sheet.live_type(1, 3, SAID, 9, (0, 0.02, 0.05, 0.02))

    assert told(safe, tmp_path) == []


def test_foil_is_no_ink(tmp_path: Path) -> None:
    """The spot's stand-in is a magenta; a plain spot of that colour would be judged by it."""
    assert told(type_of("Gold Foil", live=False), tmp_path) == []
