"""Lengths: exact ratios, and what is read from text."""

import pytest

from mockup.errors import SuiteError
from mockup.units import format_length, format_size, in_to_mm, in_to_pt, parse_length, parse_size


def test_an_inch_is_25_4_mm_and_72_pt() -> None:
    # International yard and pound agreement, 1959; ISO 32000-1 8.3.2.3 for the point.
    assert in_to_mm(1) == 25.4
    assert in_to_pt(1) == 72


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        (5, 5.0),
        ("5", 5.0),
        ("5 in", 5.0),
        ('5"', 5.0),
        ("127 mm", 5.0),
        ("12.7cm", 5.0),
        ("36pt", 0.5),
        (".125", 0.125),
    ],
)
def test_lengths_are_read(text: str | float, inches: float) -> None:
    assert parse_length(text) == pytest.approx(inches, abs=1e-12)


def test_bare_numbers_take_the_files_unit() -> None:
    assert parse_length(25.4, "mm") == pytest.approx(1.0)
    assert parse_size("127 x 178", "mm") == pytest.approx((5.0, 178 / 25.4))


@pytest.mark.parametrize("text", ["", "five", "-1 in", "5 ft", "5,5 in"])
def test_other_text_is_refused_with_what_to_write(text: str) -> None:
    with pytest.raises(SuiteError, match="not a length"):
        parse_length(text)


@pytest.mark.parametrize("text", ["5 x 7 in", "5in x 7in", "5×7", "127 x 177.8 mm"])
def test_sizes_are_read_and_a_last_unit_holds_for_both(text: str) -> None:
    assert parse_size(text) == pytest.approx((5.0, 7.0))


def test_a_size_is_written_without_needless_zeros() -> None:
    assert format_size(4.25, 5.5) == "4.25 × 5.5 in"
    # ISO 216: A6 is 105 x 148 mm.
    assert format_size(105 / 25.4, 148 / 25.4, "mm") == "105 × 148 mm"
    assert format_length(0.125) == "0.125 in"
    assert format_length(1 / 25.4, "mm") == "1 mm"
    assert format_length(0.25, "mm") == "6.35 mm"
    # ISO 80000-1 annex B, rule B, from memory: halves go to the greater magnitude.
    assert format_length(0.125, "mm") == "3.18 mm"  # 3.175
    assert format_length(0.0625) == "0.063 in" and format_length(-0.0625) == "-0.063 in"
    assert format_length(-1e-9, "mm") == "0 mm"
