"""Shares of a page out of reach, on pages where the share is drawn."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from mockup.checks.finding import Severity
from mockup.checks.gamut import gamut_findings
from mockup.colour.press import COATED
from mockup.reading.gamut import Gamut, gamut_of_piece
from mockup.suite.suite import Piece
from tests.checks.bench.case import Case
from tests.checks.bench.sheet import Sheet

CYAN, SLATE, BLUE = (1, 0, 0, 0), (0.3, 0.2, 0.2, 0.4), (0, 0, 1)
HALF = (-0.125, -0.125, 5.25, 3.625)


def piece_of(draw: Callable[[Sheet], object], folder: Path, **more: object) -> Piece:
    sheet = Sheet(5, 7)
    draw(sheet)
    case = Case("page", lambda sheet: None, **more)
    return case.piece(sheet.save(folder / "page.pdf"))


def on_coated(piece: Piece) -> Gamut:
    return gamut_of_piece(replace(piece, art=replace(piece.art, press=COATED)))


def test_half_a_card_in_full_cyan_is_beyond_the_screen(tmp_path: Path) -> None:
    found = on_coated(piece_of(lambda sheet: sheet.rect(*HALF, CYAN), tmp_path))
    assert found.screen.share == pytest.approx(0.5, abs=0.01)
    assert found.screen.worst == pytest.approx(9.6, abs=0.4)
    assert found.screen.at is None  # it is everywhere on that half
    assert found.press.share == 0


def test_ink_on_a_round_card_is_counted_within_its_die(tmp_path: Path) -> None:
    page = piece_of(lambda s: s.rect(*HALF, CYAN), tmp_path, die="ellipse")
    assert on_coated(page).screen.share == pytest.approx(0.5, abs=0.01)


def test_rgb_in_ink_that_a_press_has_not(tmp_path: Path) -> None:
    found = gamut_of_piece(piece_of(lambda sheet: sheet.rect(*HALF, BLUE), tmp_path))
    assert found.press.share == pytest.approx(0.5, abs=0.01)
    assert found.press.worst > 10
    assert found.screen.share == 0


def test_a_picture_in_rgb_on_a_page_of_ink_is_told_with_its_place(tmp_path: Path) -> None:
    """What is in ink beside it is not held against a screen's numbers, nor is what lies over it."""

    def draw(sheet: Sheet) -> None:
        sheet.rect(*HALF, CYAN)
        sheet.image(np.full((40, 40, 3), BLUE, np.uint8) * 255, 1, 5, 1, 1)
        sheet.rect(1, 5.5, 1, 0.5, SLATE)

    found = gamut_of_piece(piece_of(draw, tmp_path))
    assert found.press.share == pytest.approx(0.5 / 35, abs=0.002)
    assert found.press.at is not None
    assert 1 < found.press.at.x < 2
    assert 5 < found.press.at.y < 5.5


def test_calm_ink_and_an_empty_page_have_nothing_out_of_reach(tmp_path: Path) -> None:
    found = gamut_of_piece(piece_of(lambda sheet: sheet.flood(SLATE), tmp_path))
    assert found == Gamut()
    assert gamut_of_piece(piece_of(lambda sheet: None, tmp_path)) == Gamut()


def test_it_is_told_as_a_note_above_a_share(tmp_path: Path) -> None:
    found = on_coated(piece_of(lambda sheet: sheet.rect(*HALF, CYAN), tmp_path))
    (told,) = gamut_findings("page", found)
    assert (told.check, told.severity) == ("gamut", Severity.NOTE)
    assert told.message.startswith("50 % of it, up to 10 \u0394E, prints in colours")
    few = on_coated(piece_of(lambda sheet: sheet.rect(1, 1, 0.5, 0.5, CYAN), tmp_path))
    assert 0 < few.screen.share < 0.02
    assert gamut_findings("page", few) == []
