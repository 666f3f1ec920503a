"""A card's back: read from the file, seen with the die's mirror image, found in every walk."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from mockup.checks.running import check_pieces
from mockup.checks.settings import Settings
from mockup.dies.mirroring import mirrored
from mockup.errors import SuiteError
from mockup.geometry.flatten import polygon
from mockup.ordering.sheets import sheets_of
from mockup.record.changes import changed
from mockup.record.fingerprint import piece_fingerprint
from mockup.suite.reading import read_suite
from mockup.suite.starting import begin, read_art
from mockup.suite.starting_text import suite_text
from mockup.suite.suite import Piece, Suite
from tests.conftest import make_pdf

HEAD = 'title = "Supper"\n[pieces.card]\nart = "card.pdf"\ncard = "A7"\n'
ROUND = 'die = { shape = "rounded-corner", radius = [0.9, 0, 0, 0] }\n'
TOP_LEFT = "0.1 g 33 483 6 6 re f"
"""A mark 1/3 in from the top and the left of a card of 5 x 7 in with 1/8 in of bleed: 0.1 in from a
corner of 0.9 in, and clear of a square one."""
TOP_RIGHT = "0.1 g 339 483 6 6 re f"


def suite_of(folder: Path, more: str, pages: int = 2, content: str = TOP_LEFT) -> Suite:
    make_pdf(folder / "card.pdf", pages=pages, content=content)
    path = folder / "suite.toml"
    path.write_text(HEAD + more, encoding="utf-8")
    return read_suite(path)


def piece_of(folder: Path, more: str) -> Piece:
    (piece,) = suite_of(folder, more).pieces
    return piece


def test_a_back_is_a_page_of_the_fronts_file_or_another_file(tmp_path: Path) -> None:
    make_pdf(tmp_path / "other.pdf", pages=3)
    told = [
        ("back = { page = 2 }", "card.pdf", 2),
        ('back = "card.pdf"', "card.pdf", 2),
        ('back = "other.pdf"', "other.pdf", 1),
        ('back = { art = "other.pdf", page = 3 }', "other.pdf", 3),
    ]
    for line, name, page in told:
        back = piece_of(tmp_path, line).back
        assert back is not None and (back.path.name, back.page) == (name, page)


def test_a_back_that_is_not_there_is_told_by_its_key(tmp_path: Path) -> None:
    with pytest.raises(SuiteError, match=r"pieces\.card\.back: there is no file"):
        suite_of(tmp_path, 'back = "gone.pdf"')
    with pytest.raises(SuiteError, match=r"pieces\.card\.back\.art: there is no file"):
        suite_of(tmp_path, 'back = { art = "gone.pdf" }')


def test_files_of_a_back_never_take_another_pieces_name(tmp_path: Path) -> None:
    more = 'back = { page = 2 }\n[pieces.card-back]\nart = "card.pdf"\ncard = "A7"'
    with pytest.raises(SuiteError, match='a piece is called "card-back"'):
        suite_of(tmp_path, more)


def test_the_back_of_an_asymmetric_die_is_its_mirror_image(tmp_path: Path) -> None:
    front, back = piece_of(tmp_path, ROUND + "back = { page = 2 }").sides
    assert (front.side_name, back.side_name, back.side_title) == ("card", "card-back", "Card, back")
    assert front.die == piece_of(tmp_path, ROUND).die
    there = polygon(back.die.shape)
    turned = [(5.0 - x, y) for x, y in polygon(front.die.shape).exterior.coords]
    assert there.symmetric_difference(type(there)(turned)).area < 1e-6
    assert there.symmetric_difference(polygon(front.die.shape)).area > 0.1
    again = polygon(mirrored(back.die).shape)
    assert again.symmetric_difference(polygon(front.die.shape)).area < 1e-6


def test_a_piece_without_a_back_is_its_only_side(tmp_path: Path) -> None:
    piece = piece_of(tmp_path, ROUND)
    assert piece.sides == (piece,)


def test_a_back_is_checked_against_the_mirrored_die(tmp_path: Path) -> None:
    for content, side, begins in ((TOP_LEFT, "front", ""), (TOP_RIGHT, "back", "back: ")):
        suite = suite_of(tmp_path, ROUND + "back = { page = 2 }", content=content)
        near = [each for each in check_pieces(suite.pieces, Settings()) if each.check == "safe"]
        assert [each.side for each in near] == [side]
        assert near[0].message.startswith(begins) and near[0].value == pytest.approx(0.1, abs=0.01)


def test_two_pages_used_are_no_pages_too_many(tmp_path: Path) -> None:
    def pages(more: str) -> list[str]:
        found = check_pieces(suite_of(tmp_path, more).pieces, Settings())
        return [each.message for each in found if each.check == "pages"]

    assert pages("back = { page = 2 }") == []
    assert pages("") == ["the file has 2 pages; this piece is page 1"]


def test_a_back_is_in_the_fingerprint_and_what_changed(tmp_path: Path) -> None:
    piece = piece_of(tmp_path, "back = { page = 2 }")
    without, with_back = piece_fingerprint(replace(piece, back=None)), piece_fingerprint(piece)
    assert without.digest != with_back.digest
    assert changed(without.facts, with_back.facts) == ("back added: card.pdf",)
    assert piece.back is not None
    other = piece_fingerprint(replace(piece, back=replace(piece.back, sha256="0" * 64)))
    assert changed(with_back.facts, other.facts) == ("back changed",)


def test_a_back_has_a_print_sheet_with_the_cut_mirrored(tmp_path: Path) -> None:
    front, back = sheets_of(suite_of(tmp_path, ROUND + "back = { page = 2 }"))
    assert (front.name, back.name, back.art.page) == ("card", "card-back", 2)
    assert polygon(front.shape).symmetric_difference(polygon(back.shape)).area > 0.1


def test_two_pages_of_one_size_are_begun_as_front_and_back(tmp_path: Path) -> None:
    (found,) = read_art([make_pdf(tmp_path / "card.pdf", pages=2)])
    beginning = begin([found])
    assert (found.name, found.page, found.back) == ("card", 1, 2)
    assert any("front and back" in line for line in beginning.told)
    (tmp_path / "suite.toml").write_text(suite_text(beginning, tmp_path), encoding="utf-8")
    (piece,) = read_suite(tmp_path / "suite.toml").pieces
    assert piece.back is not None and piece.back.page == 2


def test_more_pages_or_a_liners_are_pieces_of_their_own(tmp_path: Path) -> None:
    three = make_pdf(tmp_path / "card.pdf", pages=3)
    liner = make_pdf(tmp_path / "liner.pdf", pages=2)
    assert [each.name for each in read_art([three])] == ["card-1", "card-2", "card-3"]
    assert len(read_art([liner])) == 2
