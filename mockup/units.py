"""Lengths: exact ratios between inch, point and millimetre, and a length read from text."""

from __future__ import annotations

import re

from mockup.errors import SuiteError

MM_PER_INCH = 25.4  # exact, international inch (1959)
PT_PER_INCH = 72.0  # PDF user space unit, ISO 32000-1 8.3.2.3
MIL_PER_INCH = 1000.0

INCHES_PER_UNIT = {
    "in": 1.0,
    "inch": 1.0,
    "inches": 1.0,
    '"': 1.0,
    "mm": 1 / MM_PER_INCH,
    "cm": 10 / MM_PER_INCH,
    "pt": 1 / PT_PER_INCH,
}

_LENGTH = re.compile(r'^\s*(\d+(?:\.\d*)?|\.\d+)\s*(in|inch|inches|"|mm|cm|pt)?\s*$', re.I)


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
    """Returns a length in inches read from `5`, `"5 in"`, `"127 mm"` or `"0.5pt"`.

    A bare number is in `default_unit`. Raises SuiteError for anything else.
    """
    if isinstance(text, int | float):
        return float(text) * INCHES_PER_UNIT[default_unit]
    match = _LENGTH.match(text)
    if match is None:
        raise SuiteError(f'"{text}" is not a length; write a number, or one with in, mm, cm or pt')
    unit = (match.group(2) or default_unit).lower()
    return float(match.group(1)) * INCHES_PER_UNIT[unit]


def parse_size(text: str, default_unit: str = "in") -> tuple[float, float]:
    """Returns (width, height) in inches read from `"5 x 7 in"`, `"127x178mm"` or `"5in x 7in"`.

    A unit after the second number holds for both. Raises SuiteError for anything else.
    """
    parts = re.split(r"\s*[x\u00d7]\s*", text.strip(), flags=re.I)
    if len(parts) != 2:
        raise SuiteError(f'"{text}" is not a size; write width x height, for example "5 x 7 in"')
    last = _LENGTH.match(parts[1])
    unit = (last.group(2) if last and last.group(2) else default_unit).lower()
    return parse_length(parts[0], unit), parse_length(parts[1], unit)


def format_length(length_in: float) -> str:
    """Returns a length for a reader: inches without needless zeros, `0.125 in`."""
    return f"{length_in:.3f}".rstrip("0").rstrip(".") + " in"


def format_size(width_in: float, height_in: float) -> str:
    """Returns a size for a reader: `5 x 7 in`."""
    return f"{format_length(width_in)[:-3]} \u00d7 {format_length(height_in)}"
