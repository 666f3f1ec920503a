"""Type on the project's pages: kerning, breaking into lines, refusing letters the fonts lack."""

from __future__ import annotations

from pathlib import Path

import pytest
import uharfbuzz
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.errors import OutputError
from mockup.output import typography
from mockup.output.typography import Style, kerned, line_width_in, shortened, wrapped

BODY = Style("text", 10, 12)
FONTS = Path(typography.__file__).parent / "fonts"


@pytest.mark.parametrize("text", ["AVATAR", "To, Ty", "Tide Mill Supper", "5 \u00d7 7 in"])
def test_width_of_a_line_agrees_with_harfbuzz(text: str) -> None:
    """HarfBuzz shapes the same file with kerning alone; advances in 1/1000 em."""
    face = uharfbuzz.Face(uharfbuzz.Blob.from_file_path(str(FONTS / "AlegreyaSans-Regular.ttf")))
    buffer = uharfbuzz.Buffer()
    buffer.add_str(text)
    buffer.guess_segment_properties()
    uharfbuzz.shape(uharfbuzz.Font(face), buffer, {"kern": True, "liga": False})
    advance = sum(position.x_advance for position in buffer.glyph_positions)
    assert line_width_in(text, BODY) == pytest.approx(advance / face.upem * 10 / 72, abs=1e-6)


def test_kerning_draws_letters_together() -> None:
    apart = sum(line_width_in(letter, BODY) for letter in "AVATAR")
    assert line_width_in("AVATAR", BODY) < apart


def test_tracking_is_added_between_letters_only() -> None:
    spaced = Style("text", 10, 12, tracking_em=0.1)
    added = line_width_in("mill", spaced) - line_width_in("mill", BODY)
    assert added == pytest.approx(3 * 1 / 72)


@settings(deadline=None)  # a busy machine is not a fault
@given(
    st.lists(st.text("abcdefghij", min_size=1, max_size=9), min_size=1, max_size=30),
    st.floats(1.0, 5.0),
)
def test_lines_keep_every_word_and_the_measure(words: list[str], measure_in: float) -> None:
    lines = wrapped(" ".join(words), BODY, measure_in)
    assert " ".join(lines).split(" ") == words
    for line in lines:
        assert line_width_in(line, BODY) <= measure_in + 1e-9 or " " not in line


def test_a_word_too_wide_is_divided_after_a_mark() -> None:
    lines = wrapped("in tide-mill-supper-menu-card-final.pdf, page 1", BODY, 1.2)
    assert "".join(lines).replace(" ", "") == "intide-mill-supper-menu-card-final.pdf,page1"
    assert all(line_width_in(line, BODY) <= 1.2 for line in lines)
    assert any(line.endswith("-") for line in lines)
    unbreakable = wrapped("m" * 60, BODY, 1.2)
    assert "".join(unbreakable) == "m" * 60
    assert all(line_width_in(line, BODY) <= 1.2 for line in unbreakable)


def test_last_line_is_no_orphan() -> None:
    text = "Makers cut and fold each their own way. Measure a real envelope before it."
    for measure_in in (1.2, 1.45, 1.7, 2.0, 2.5, 3.0):
        lines = wrapped(text, BODY, measure_in)
        assert line_width_in(lines[-1], BODY) >= 0.25 * measure_in


def test_a_line_too_long_is_shortened_to_the_measure() -> None:
    short = shortened("A very long title of a supper at a mill", BODY, 1.5)
    assert short.endswith("\u2026")
    assert 1.2 < line_width_in(short, BODY) <= 1.5
    assert shortened("Short", BODY, 1.5) == "Short"


def test_a_letter_the_fonts_lack_is_named() -> None:
    with pytest.raises(OutputError, match="\u6f6e"):
        kerned("Mill \u6f6e", BODY)
