"""A client is shown the art without a template's lines; the designer is told what was left out."""

from pathlib import Path

import pytest

from mockup.asks.opening import Writing, open_suite
from mockup.reading.showing import for_client, left_out_told
from mockup.render.piece import piece_picture
from mockup.suite.audience import Audience
from mockup.suite.reading import read_suite
from tests.conftest import make_pdf

GROUND = "0.9 g -1 -1 400 600 re f 0.2 g 150 200 80 60 re f "
CUT = "1 0 1 RG 0.5 w 9 9 360 504 re S"
BLURRED = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="5.25in" height="7.25in" viewBox="0 0 21 29">'
    '<filter id="b"/><circle cx="9" cy="9" r="4" filter="url(#b)"/></svg>'
)
SUITE = """
title = "Supper"
[pieces.card]
art = "card.pdf"
card = "A7"
"""


def test_a_cut_line_left_in_is_not_shown_to_a_client(tmp_path: Path) -> None:
    make_pdf(tmp_path / "clean.pdf", content=GROUND)
    make_pdf(tmp_path / "card.pdf", content=GROUND + CUT)
    (tmp_path / "suite.toml").write_text(SUITE)
    as_it_is = read_suite(tmp_path / "suite.toml")
    shown = for_client(as_it_is)
    assert not as_it_is.pieces[0].art.left_out
    assert len(shown.pieces[0].art.left_out) == 1
    assert left_out_told(shown) == [
        "card: 1 mark left in the art is not shown; `mockup check` says where: it would be printed; "
        'accept "left-in" to show it as art'
    ]
    (tmp_path / "suite.toml").write_text(SUITE.replace("card.pdf", "clean.pdf"))
    clean = read_suite(tmp_path / "suite.toml")
    pictures = [piece_picture(each.pieces[0], 72, None) for each in (as_it_is, shown, clean)]
    assert (pictures[1] == pictures[2]).all()
    assert (pictures[0] != pictures[2]).any()


@pytest.mark.parametrize(
    ("piece", "check", "shown"),
    [("card", "left-in", True), ("*", "left-in", True), ("card", "bleed", False)],
)
def test_an_accepted_finding_brings_the_line_back(
    tmp_path: Path, piece: str, check: str, shown: bool
) -> None:
    make_pdf(tmp_path / "card.pdf", content=GROUND + CUT)
    accepted = f'[[accept]]\ncheck = "{check}"\npiece = "{piece}"\nreason = "a border"\n'
    (tmp_path / "suite.toml").write_text(SUITE + accepted)
    suite = for_client(read_suite(tmp_path / "suite.toml"))
    assert (not suite.pieces[0].art.left_out) == shown


def test_what_is_not_drawn_is_told_to_everybody(tmp_path: Path) -> None:
    (tmp_path / "card.svg").write_text(BLURRED)
    (tmp_path / "suite.toml").write_text(SUITE.replace("card.pdf", "card.svg"))
    for audience in Audience:
        writing = Writing(lambda _: [])
        (line,) = open_suite(tmp_path / "suite.toml", audience, writing).left_out
        assert line.startswith("card: card.svg asks for a filter (blur, shadow): not drawn")


def test_the_demos_art_is_shown_whole(demo_suite: Path) -> None:
    shown = for_client(read_suite(demo_suite))
    assert left_out_told(shown) == []
