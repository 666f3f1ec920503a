"""Folded cards: read from the file, seen as their flat sheet wherever they are printed."""

from __future__ import annotations

import re
from pathlib import Path

import pikepdf
import pytest

from mockup.artwork.page import read_page
from mockup.checks.running import check_pieces
from mockup.checks.settings import Settings
from mockup.errors import InputError, SuiteError
from mockup.geometry.measure import area
from mockup.ordering.sheets import sheets_of
from mockup.reading.stack import contents
from mockup.record.fingerprint import piece_fingerprint
from mockup.suite.placing import place_piece
from mockup.suite.reading import read_suite
from mockup.suite.suite import Suite
from tests.conftest import make_pdf

HEAD = 'title = "Supper"\n[pieces.menu]\nart = "menu.pdf"\ncard = "A7"\n'
LEFT = 'fold = "left"\ninside = { page = 2 }\n'


def suite_of(folder: Path, more: str, size_in: tuple[float, float] = (10.25, 7.25)) -> Suite:
    make_pdf(folder / "menu.pdf", size_in, pages=2)
    path = folder / "suite.toml"
    path.write_text(HEAD + more, encoding="utf-8")
    return read_suite(path)


def test_a_folded_card_has_an_outside_and_an_inside_of_its_flat_size(tmp_path: Path) -> None:
    (piece,) = suite_of(tmp_path, LEFT).pieces
    assert (piece.die.width_in, piece.die.height_in, piece.shown) == (5, 7, "closed")
    outside, inside = piece.sides
    assert [each.side_name for each in piece.sides] == ["menu", "menu-inside"]
    assert (outside.side, inside.side, inside.art.page) == ("outside", "inside", 2)
    for side in piece.sides:
        assert (side.die.width_in, side.die.height_in) == (10, 7)
        assert side.sides == (side,)


def test_a_fold_without_an_inside_is_printed_on_one_side(tmp_path: Path) -> None:
    (piece,) = suite_of(tmp_path, 'fold = "left"\n').pieces
    assert [each.side for each in piece.sides] == ["outside"]


def test_the_front_is_right_of_the_fold_or_below_it(tmp_path: Path) -> None:
    (piece,) = suite_of(tmp_path, LEFT).pieces
    trim = place_piece(read_page(piece.art), piece).trim
    assert trim == pytest.approx((5.125, 0.125, 10.125, 7.125))
    (piece,) = suite_of(tmp_path, 'fold = "top"\n', (5.25, 14.25)).pieces
    trim = place_piece(read_page(piece.art), piece).trim
    assert trim == pytest.approx((0.125, 7.125, 5.125, 14.125))


def test_a_page_of_one_panel_is_refused_with_both_sizes(tmp_path: Path) -> None:
    (piece,) = suite_of(tmp_path, LEFT, (5.25, 7.25)).pieces
    with pytest.raises(InputError, match=r"5\.25 × 7\.25 in.*folded at the left.*10 × 7 in"):
        place_piece(read_page(piece.art), piece)
    (stop, *_) = check_pieces([piece], Settings())
    assert stop.check == "size" and "flat sheet needs 10 × 7 in" in stop.message
    assert "both panels on one page of 10.25 × 7.25 in" in stop.fix


@pytest.mark.parametrize(
    ("more", "size_in", "said"),
    [
        (LEFT, (5.25, 7.25), "is 5.25 × 7.25 in, one panel alone; A7 folded at the left prints as a "
         "flat sheet of 10 × 7 in; save both panels on one page of 10.25 × 7.25 in with 0.125 in "
         "bleed round it: the back from 0.125 in and the front from 5.125 in of its left, with no "
         "bleed between them"),
        (LEFT, (8, 8), "is 8 × 8 in; A7 folded at the left prints"),
        ('fold = "top"\n', (5, 7), "one page of 5.25 × 14.25 in with 0.125 in bleed round it: the "
         "back, its head at the fold, from 0.125 in and the front from 7.125 in of its top"),
        ('fold = "top"\nbleed = "3 mm"\n', (5, 7), "from 0.118 in and the front from 7.118 in"),
        ('fold = "left"\nbleed = 0\n', (5, 7), "one page of 10 × 7 in: the back from 0 in and the "
         "front from 5 in of its left"),
    ],
)  # fmt: skip
def test_a_page_of_one_panel_is_told_how_to_save_the_flat_sheet(
    tmp_path: Path, more: str, size_in: tuple[float, float], said: str
) -> None:
    (piece,) = suite_of(tmp_path, more, size_in).pieces
    with pytest.raises(InputError, match=re.escape(said)):
        place_piece(read_page(piece.art), piece)


def test_the_inside_is_told_its_own_panels(tmp_path: Path) -> None:
    (piece,) = suite_of(tmp_path, LEFT, (5.25, 7.25)).pieces
    inside = piece.sides[1]
    with pytest.raises(InputError, match=r"the left panel from 0\.125 in and the right one from 5"):
        place_piece(read_page(inside.art), inside)


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ("inside = { page = 2 }", r"pieces\.menu\.inside: only a folded card has that"),
        ('shown = "closed"', r"pieces\.menu\.shown: only a folded card has that"),
        ('fold = "left"\nback = { page = 2 }', r"pieces\.menu\.back: a folded card's back is on"),
        ('fold = "left"\nshown = "standing"', r"pieces\.menu\.shown: only a card with fold = "),
        ('fold = "left"\ndie = "ellipse"', "the left side of die ellipse has nothing straight"),
        ('fold = "left"\ntorn = true', r"pieces\.menu\.torn: a folded card has no torn sides"),
        ('fold = "left"\ntorn = ["left"]', r"pieces\.menu\.torn: a folded card has no torn sides"),
        ('fold = "right"', r"pieces\.menu\.fold: .*left"),
        ('fold = "left"\ninside = "gone.pdf"', r"pieces\.menu\.inside: there is no file"),
        (LEFT + '[pieces.menu-inside]\nart = "menu.pdf"\ncard = "A7"', r"rename it"),
        ('[scene]\nfolded = "standing"', r"scene\.folded"),
    ],
)
def test_what_does_not_go_together_is_told_by_its_key(tmp_path: Path, more: str, said: str) -> None:
    with pytest.raises(SuiteError, match=said):
        suite_of(tmp_path, more)


def test_how_it_lies_is_said_by_the_piece_before_the_scene(tmp_path: Path) -> None:
    scene = '[scene]\nfolded = "inside"\n'
    assert suite_of(tmp_path, LEFT + scene).pieces[0].shown == "inside"
    said = LEFT + 'shown = "half-open"\n' + scene
    assert suite_of(tmp_path, said).pieces[0].shown == "half-open"


def test_the_flat_sheet_is_what_is_printed_and_it_says_its_fold(tmp_path: Path) -> None:
    sheets = sheets_of(suite_of(tmp_path, LEFT))
    assert [sheet.name for sheet in sheets] == ["menu", "menu-inside"]
    for sheet in sheets:
        assert area(sheet.shape) == pytest.approx(70)
        (((crease,)),) = sheet.folds
        assert crease.start.x == crease.end.x == 5


def test_both_panels_weigh_and_lie_on_each_other(tmp_path: Path) -> None:
    envelope = '[envelopes.outer]\nsize = "A7"\nholds = ["menu"]\n'
    folded = suite_of(tmp_path, LEFT + envelope)
    flat = suite_of(tmp_path, envelope, (5.25, 7.25))
    one, two = (contents(suite, suite.envelopes[0]) for suite in (flat, folded))
    assert two.weight_g == pytest.approx(2 * one.weight_g)
    assert two.thickness_in == pytest.approx(2 * one.thickness_in)


def test_a_fold_changes_the_fingerprint_and_how_it_lies_does_not(tmp_path: Path) -> None:
    marks = [
        piece_fingerprint(suite_of(tmp_path, more).pieces[0]).short
        for more in ("", 'fold = "left"\n', 'fold = "left"\nshown = "half-open"\n')
    ]
    assert marks[0] != marks[1] == marks[2]


def type_at(x_in: float) -> str:
    """A line of live type, about an inch long, that begins at a place of the sheet."""
    return f"BT /F 14 Tf {9 + x_in * 72:.1f} 200 Td (Salt marsh) Tj ET"


@pytest.mark.parametrize(
    ("x_in", "told"),
    [(4.5, "runs across the fold"), (5.05, "from the fold"), (3.0, ""), (5.6, "")],
)
def test_type_at_a_fold_is_warned_of(tmp_path: Path, x_in: float, told: str) -> None:
    make_pdf(tmp_path / "menu.pdf", (10.25, 7.25), type_at(x_in))
    with pikepdf.open(tmp_path / "menu.pdf", allow_overwriting_input=True) as pdf:
        font = pikepdf.Dictionary(
            Type=pikepdf.Name.Font, Subtype=pikepdf.Name.Type1, BaseFont=pikepdf.Name.Helvetica
        )
        pdf.pages[0].obj["/Resources"] = pikepdf.Dictionary(Font=pikepdf.Dictionary(F=font))
        pdf.save()
    path = tmp_path / "suite.toml"
    path.write_text(HEAD + 'fold = "left"\n', encoding="utf-8")
    found = [f for f in check_pieces(read_suite(path).pieces, Settings()) if f.check == "fold"]
    warned = [f.message for f in found if f.severity.word == "warning"]
    assert len(warned) == bool(told) and all(told in message for message in warned)
    assert any("not scored" in each.message for each in found)


def test_what_is_said_of_the_insides_finishes_is_the_insides(tmp_path: Path) -> None:
    foil = 'inside = { page = 2, finish = [{ as = "foil", plate = "Tide" }] }\n'
    (piece,) = suite_of(tmp_path, 'fold = "left"\n' + foil).pieces
    assert piece.back is not None
    assert [each.plate for each in piece.back.finishing] == ["Tide"]
    assert piece.art.finishing == ()
