"""A client is shown the art without a template's lines; the designer is told what was left out."""

from pathlib import Path

from mockup.reading.showing import for_client, left_out_told
from mockup.render.piece import piece_picture
from mockup.suite.reading import read_suite
from tests.conftest import make_pdf

GROUND = "0.9 g -1 -1 400 600 re f 0.2 g 150 200 80 60 re f "
CUT = "1 0 1 RG 0.5 w 9 9 360 504 re S"
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


def test_the_demos_art_is_shown_whole(demo_suite: Path) -> None:
    shown = for_client(read_suite(demo_suite))
    assert left_out_told(shown) == []
