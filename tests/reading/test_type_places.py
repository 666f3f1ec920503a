"""Where type stands on a side, letter by letter."""

from __future__ import annotations

from pathlib import Path

import pikepdf
import pytest
import shapely

from mockup.reading.type_places import read_type, type_of
from mockup.suite.reading import read_suite
from tests.conftest import make_pdf

SUITE = """
title = "Supper"
[pieces.card]
art = "card.pdf"
card = "A7"
"""


@pytest.fixture
def lettered(tmp_path: Path) -> Path:
    """A card of 5 x 7 in, 1/8 in bleed, with a word of 36 pt of which the baseline lies 3 in above
    the trim's foot and begins 1 in from its left."""
    font = "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>"
    path = make_pdf(
        tmp_path / "card.pdf", content="BT /F1 36 Tf 81 225 Td (HIM) Tj ET 0.5 g 200 60 40 40 re f"
    )
    with pikepdf.open(path, allow_overwriting_input=True) as pdf:
        entry = pikepdf.Object.parse(font.encode())
        pdf.pages[0].Resources = pikepdf.Dictionary(Font=pikepdf.Dictionary(F1=entry))
        pdf.save(path)
    file = tmp_path / "suite.toml"
    file.write_text(SUITE, encoding="utf-8")
    return file


def test_a_word_is_told_where_its_letters_stand_and_a_bar_is_none(lettered: Path) -> None:
    """Helvetica's cap height is 0.718 em, its H 0.722, I 0.278, M 0.833 wide (Adobe's font
    metrics, from memory): the word is 1.833 em wide with its side bearings, 36 pt to the em."""
    (piece,) = read_suite(lettered).pieces
    (line,) = read_type(piece.sides[0])
    assert line.told == 'type "HIM"' and len(line.boxes) == 3
    boxes = shapely.union_all([shapely.box(*each) for each in line.boxes])
    left, top, right, bottom = boxes.bounds
    assert left == pytest.approx(1.0 + 0.077 / 2, abs=0.03)
    assert bottom == pytest.approx(7 - 3, abs=0.01)
    assert bottom - top == pytest.approx(0.718 / 2, abs=0.02)
    assert right - left == pytest.approx((1.833 - 0.15) / 2, abs=0.05)


def test_a_worker_reads_what_is_read_here(lettered: Path) -> None:
    (piece,) = read_suite(lettered).pieces
    assert type_of([piece, piece]) == [read_type(piece)] * 2
