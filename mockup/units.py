"""Lengths: exact ratios between inch, point and millimetre, and a length read from text."""

from __future__ import annotations

import math
import re
from typing import Literal

from mockup.errors import SuiteError, quoted

MM_PER_INCH = 25.4  # exact, international inch (1959)
PT_PER_INCH = 72.0  # PDF user space unit, ISO 32000-1 8.3.2.3
MIL_PER_INCH = 1000.0

Unit = Literal["in", "mm"]
"""What a reader is told lengths in. Inside, all lengths are inches."""

INCHES_PER_UNIT = {
    "in": 1.0,
    "inch": 1.0,
    "inches": 1.0,
    '"': 1.0,
    "mm": 1 / MM_PER_INCH,
    "cm": 10 / MM_PER_INCH,
    "pt": 1 / PT_PER_INCH,
}

LONGEST_IN = 200.0
"""The longest length that is read: the side of the largest PDF page, ISO 32000-1 Annex C; no press
sheet comes near."""

_NUMBER = r"[0-9]+(?:\.[0-9]*)?|\.[0-9]+"
_FRACTION = r"(?:(?P<whole>[0-9]+)(?:\s*-\s*|\s+))?(?P<over>[0-9]+)\s*/\s*(?P<under>[0-9]+)"
_UNIT = r'(?P<unit>in|inch|inches|"|mm|cm|pt)?'
_LENGTH = re.compile(rf"\s*(?:(?P<number>{_NUMBER})|{_FRACTION})\s*{_UNIT}\s*", re.I | re.A)
_COMMA = re.compile(r"[0-9]*,[0-9]+")
_SIGNS = str.maketrans(
    {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"}
    | dict.fromkeys("″”“", '"')
)


def mm_to_in(length_mm: float) -> float:
    """Returns millimetres as inches."""
    return length_mm / MM_PER_INCH


def in_to_mm(length_in: float) -> float:
    """Returns inches as millimetres."""
    return length_in * MM_PER_INCH


def pt_to_in(length_pt: float) -> float:
    """Returns PDF points as inches."""
    return length_pt / PT_PER_INCH


def in_to_pt(length_in: float) -> float:
    """Returns inches as PDF points."""
    return length_in * PT_PER_INCH


def parse_length(text: str | float, default_unit: str = "in") -> float:
    """Returns a length in inches, 0 to 200, read from `5`, `"5 in"`, `"0.5pt"` or `"1 1/2 in"`.

    A bare number is in `default_unit`. Raises SuiteError for anything else.
    """
    length_in = _number_in(text, default_unit) if isinstance(text, str) else _plain_in(text)
    if not isinstance(text, str):
        length_in *= INCHES_PER_UNIT[default_unit]
    if not 0 <= length_in <= LONGEST_IN:  # false for nan as well
        longest = f"{LONGEST_IN / INCHES_PER_UNIT['mm']:.0f} mm" if default_unit == "mm" else ""
        raise SuiteError(
            f"{_said(text)} is not a length; write one from 0 to {longest or f'{LONGEST_IN:g} in'}"
        )
    return length_in


def parse_size(text: str, default_unit: str = "in") -> tuple[float, float]:
    """Returns (width, height) in inches read from `"5 x 7 in"`, `"127x178mm"` or `"5in x 7in"`.

    A unit after the second number holds for both. Raises SuiteError for anything else.
    """
    parts = re.split(r"[x\u00d7]", text, flags=re.I)
    if len(parts) != 2:
        raise SuiteError(
            f'{quoted(text)} is not a size; write width x height, for example "5 x 7 in"'
        )
    last = _LENGTH.fullmatch(parts[1].translate(_SIGNS))
    unit = (last["unit"] if last and last["unit"] else default_unit).lower()
    return parse_length(parts[0], unit), parse_length(parts[1], unit)


def _number_in(text: str, default_unit: str) -> float:
    match = _LENGTH.fullmatch(text.translate(_SIGNS))
    if match is None or (match["under"] and not float(match["under"])):
        comma = _COMMA.search(text)
        if comma and len(text) < 40:
            pointed = quoted(text.strip().replace(",", "."))
            raise SuiteError(
                f"{quoted(text)} is not a length; write a point for the comma: {pointed}"
            )
        example = '"3 mm"' if default_unit == "mm" else '"1/8 in" or "3 mm"'
        raise SuiteError(
            f"{quoted(text)} is not a length; write a number, or one with in, mm, cm or pt, as "
            f"{example}"
        )
    if match["number"]:
        number = float(match["number"])
    else:
        number = float(match["whole"] or 0) + float(match["over"]) / float(match["under"])
    return number * INCHES_PER_UNIT[(match["unit"] or default_unit).lower()]


def _plain_in(number: float) -> float:
    try:
        return float(number)
    except OverflowError:  # a whole number of hundreds of digits
        return math.inf


def _said(given: str | float) -> str:
    if isinstance(given, str):
        return quoted(given)
    return f"{_plain_in(given):g}"


def format_length(length_in: float, unit: Unit = "in") -> str:
    """Returns a length for a reader without needless zeros: `0.125 in`, `3.18 mm`."""
    return f"{_figure(length_in, unit)} {unit}"


def format_change(length_in: float, unit: Unit = "in") -> str:
    """Returns by how much a length differs, for a reader: `+2 mm`, `-0.25 in`."""
    return f"{'+' if length_in >= 0 else ''}{_figure(length_in, unit)} {unit}"


def format_size(width_in: float, height_in: float, unit: Unit = "in") -> str:
    """Returns a size for a reader: `5 \u00d7 7 in`, `105 \u00d7 148 mm`."""
    return f"{_figure(width_in, unit)} \u00d7 {_figure(height_in, unit)} {unit}"


def format_place(at: tuple[float, float], unit: Unit = "in") -> str:
    """Returns a place from the top left for a reader: `1.25, 3 in`."""
    return f"{_figure(at[0], unit)}, {_figure(at[1], unit)} {unit}"


def format_caliper(caliper_mil: float, unit: Unit = "in") -> str:
    """Returns a paper's thickness for a reader, as the trade counts: `19.5 mil`, `495 \u00b5m`."""
    if unit == "in":
        return f"{caliper_mil:.3g} mil"
    return f"{caliper_mil / MIL_PER_INCH * MM_PER_INCH * 1000:.0f} \u00b5m"


_ROUNDING = 1e-9  # of an inch or a millimetre: far more than a binary fraction is off


def _figure(length_in: float, unit: Unit) -> str:
    decimals = 3 if unit == "in" else 2  # a hundredth of a millimetre is finer than any cutter
    length = length_in / INCHES_PER_UNIT[unit]
    # Halves are rounded away from nought: 1/8 in is 3.175 mm, a little less as a binary fraction.
    figure = f"{length + math.copysign(_ROUNDING, length):.{decimals}f}".rstrip("0").rstrip(".")
    return "0" if figure == "-0" else figure
