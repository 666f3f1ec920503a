"""The main piece: by its name, else by the size of its type, not by its area."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from mockup.reading.main_piece import inferred_main, largest_type_pt
from mockup.suite.reading import read_suite
from tests.conftest import make_pdf

SUITE = """title = "Supper"
[pieces.one]
art = "large.pdf"
card = "A7"
[pieces.two]
art = "small.pdf"
card = "A2"
"""


def test_the_demos_invitation_has_the_largest_type_and_the_name(demo_suite: Path) -> None:
    suite = read_suite(demo_suite)
    assert inferred_main(suite.pieces).name == "invitation"
    nameless = [replace(piece, name="x", title="x") for piece in suite.pieces]
    assert inferred_main(nameless).card.name == "A7"
    details, reply = suite.piece("details"), suite.piece("reply")
    assert inferred_main([details, replace(reply, name="einladung")]).name == "einladung"
    assert largest_type_pt(details) > 20  # its title, as set


def test_without_type_the_largest_card_leads(tmp_path: Path) -> None:
    make_pdf(tmp_path / "large.pdf")
    make_pdf(tmp_path / "small.pdf", size_in=(4.5, 5.75))
    path = tmp_path / "suite.toml"
    path.write_text(SUITE, encoding="utf-8")
    pieces = read_suite(path).pieces
    assert [largest_type_pt(piece) for piece in pieces] == [0, 0]
    assert inferred_main(pieces[::-1]).name == "one"
