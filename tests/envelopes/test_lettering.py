"""Type set on an envelope: as wide as another shaper sets it, letters in their places, text refused."""

from __future__ import annotations

from typing import Any

import pytest
import shapely
from fontTools.pens.areaPen import AreaPen
from fontTools.ttLib import TTFont

from mockup.envelopes.lettering import (
    CAP_HEIGHT,
    FACES,
    TypeFace,
    letters,
    line_width_in,
    refuse_unset,
    set_block,
)
from mockup.errors import SuiteError
from mockup.geometry.flatten import ring
from mockup.geometry.point import Point
from mockup.output import typography
from mockup.output.typography import Style, font_file

LINE = "AV The Tide Mill, 1 Samphire Hard"


@pytest.mark.parametrize("face", FACES)
def test_a_line_is_as_wide_as_on_the_proof(face: TypeFace) -> None:
    """The proof's type goes another way, through reportlab's shaper."""
    own = line_width_in(LINE, face, 17)
    assert own == pytest.approx(typography.line_width_in(LINE, Style(face, 17, 20)), abs=1e-6)
    assert own < sum(line_width_in(letter, face, 17) for letter in LINE)  # AV is kerned


def test_capitals_hang_from_the_blocks_top() -> None:
    """The font's own table of metrics says how high its capitals are (OpenType OS/2 sCapHeight)."""
    font: Any = TTFont(font_file("text"))
    assert pytest.approx(font["OS/2"].sCapHeight / font["head"].unitsPerEm, abs=0.01) == CAP_HEIGHT
    (letter,) = letters(set_block(["H"], "text", 72, "left", Point(1, 2)))
    assert letter[0].box.top == pytest.approx(2, abs=0.001)
    assert letter[0].box.bottom == pytest.approx(2 + CAP_HEIGHT, abs=0.001)


def test_a_letters_area_is_its_outline_less_its_counter() -> None:
    """Against the font's own outline, measured by fontTools."""
    font: Any = TTFont(font_file("text"))
    glyphs = font.getGlyphSet()
    pen = AreaPen(glyphs)
    glyphs["o"].draw(pen)
    upem = font["head"].unitsPerEm
    (outlines,) = letters(set_block(["o"], "text", 72, "left", Point(0, 0)))
    outer, counter = (shapely.Polygon(ring(each)) for each in outlines)
    assert outer.area - counter.area == pytest.approx(abs(pen.value) / upem**2, rel=2e-3)


@pytest.mark.parametrize("align, at", [("left", 0.0), ("centre", 0.5), ("right", 1.0)])
def test_lines_are_aligned(align: str, at: float) -> None:
    block = set_block(["Samphire Hard", "Mill"], "text", 12, align, Point(3, 1))  # type: ignore[arg-type]
    long, short = block.lines
    spare = block.box.width - line_width_in("Mill", "text", 12)
    assert long.at.x == pytest.approx(3)
    assert short.at.x == pytest.approx(3 + spare * at)
    assert short.at.y - long.at.y == pytest.approx(12 * 1.35 / 72)


@pytest.mark.parametrize(
    "text, told",
    [
        ("שלום", "right to left"),
        ("مرحبا", "right to left"),
        ("a\u202eb", "right to left"),
        ("a\tb", r"control character \"\\t\""),
        ("a\x00b", r"control character \"\\x00\""),
        ("水車小屋", 'has no "水"'),
        ("\U0001f30a", "has no"),
    ],
)
def test_what_cannot_be_set_is_told_on_one_line(text: str, told: str) -> None:
    with pytest.raises(SuiteError, match=told) as caught:
        refuse_unset(["The Tide Mill", text], "text")
    assert "\n" not in str(caught.value)


def test_latin_greek_and_cyrillic_are_set() -> None:
    refuse_unset(["Åse Ødegård, Łódź", "Ελένη", "Мельница"], "text")
