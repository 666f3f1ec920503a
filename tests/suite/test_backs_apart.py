"""Backs as things of their own: beside their fronts, and cut without a suite file."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.asks.piece import PieceRequest, cut_piece
from mockup.dies import make_die
from mockup.dies.mirroring import mirrored
from mockup.errors import SuiteError
from mockup.render.composition import compose
from mockup.render.scenes import read_scene
from mockup.suite.backs import with_backs
from mockup.suite.reading import read_suite
from mockup.suite.single import single_piece
from tests.conftest import make_pdf

HEAD = 'title = "Supper"\n[pieces.card]\nart = "card.pdf"\ncard = "A7"\n'
ROUND = 'die = { shape = "rounded-corner", radius = [0.9, 0, 0, 0] }\n'
ONE_SIDED = "quarter-arch"
"""A family whose mirror image is another outline."""


def test_backs_lie_beside_their_fronts_cut_by_the_mirrored_die(tmp_path: Path) -> None:
    make_pdf(tmp_path / "card.pdf", pages=2)
    path = tmp_path / "suite.toml"
    path.write_text(HEAD + ROUND + "back = { page = 2 }\n", encoding="utf-8")
    suite = with_backs(read_suite(path))
    front, back = suite.pieces
    assert (back.name, back.title, back.art.page) == ("card-back", "Card, back", 2)
    assert back.die.shape == mirrored(front.die).shape
    assert back.sides == (back,)
    laid = compose(suite, read_scene("limewash", tmp_path), 1.4, 1).laid
    assert sorted(each.piece.name for each in laid) == ["card", "card-back"]  # type: ignore[union-attr]


def test_where_no_card_has_a_back_that_is_told(tmp_path: Path) -> None:
    make_pdf(tmp_path / "card.pdf")
    (tmp_path / "suite.toml").write_text(HEAD, encoding="utf-8")
    with pytest.raises(SuiteError, match=r"no piece has a back .*back = \{ page = 2 \}"):
        with_backs(read_suite(tmp_path / "suite.toml"))


@pytest.mark.parametrize(
    ("pages", "page", "said", "is_mirrored"),
    [
        (2, 2, None, True),
        (2, 1, None, False),
        (3, 2, None, False),
        (2, 2, False, False),
        (2, 1, True, True),
    ],
)
def test_the_second_of_two_pages_is_cut_from_behind(
    tmp_path: Path, pages: int, page: int, said: bool | None, is_mirrored: bool
) -> None:
    art = make_pdf(tmp_path / "card.pdf", pages=pages)
    piece = single_piece(art, page, None, ONE_SIDED, "smooth-120-white", from_behind=said)
    die = make_die(ONE_SIDED, 5, 7)
    assert piece.die.shape == (mirrored(die) if is_mirrored else die).shape
    assert ("say --front" in piece.card_told) == (is_mirrored and said is None)


def test_a_die_that_is_its_own_mirror_image_needs_no_word(tmp_path: Path) -> None:
    art = make_pdf(tmp_path / "card.pdf", pages=2)
    assert single_piece(art, 2, None, "round-arch", "smooth-120-white").card_told == ""


def test_what_was_taken_is_told_with_the_piece(tmp_path: Path) -> None:
    art = make_pdf(tmp_path / "card.pdf", pages=2)
    request = PieceRequest(art, tmp_path / "o.png", ONE_SIDED, page=2, ppi=30)
    (told,) = cut_piece(request).taken
    assert "the die is cut mirrored" in told
