"""A ruler to print: inches above, millimetres below, to be held against one of brass or wood."""

from __future__ import annotations

from mockup.geometry.point import Point
from mockup.output.pdf import Pdf
from mockup.output.typography import INK, QUIET, Style
from mockup.units import MM_PER_INCH, pt_to_in

_NUMBER = Style("text", 7, 8, INK)
_UNIT = Style("caps", 7, 8, QUIET, 0.06)
_LINE_PT = 0.4
_INCH_TICKS_IN = {16: 0.14, 8: 0.105, 4: 0.08, 2: 0.06, 1: 0.04}  # by sixteenths
_MM_TICKS_IN = {10: 0.14, 5: 0.09, 1: 0.05}

HEIGHT_IN = 0.52
"""From the top of the inch numbers to the foot of the millimetre numbers."""


def draw_ruler(pdf: Pdf, at: Point, inches: int) -> None:
    """Draws a ruler whole inches long: its base line runs right from `at`, ticks on both sides."""
    end = Point(at.x + inches, at.y)
    pdf.rule(at, end, _LINE_PT, INK)
    for sixteenth in range(inches * 16 + 1):
        x = at.x + sixteenth / 16
        _tick(pdf, x, at.y, -_tick_length(sixteenth, _INCH_TICKS_IN))
        if sixteenth % 16 == 0:
            _number(pdf, Point(x, at.y - 0.175), sixteenth // 16, "in")
    for mm in range(int(inches * MM_PER_INCH + 1e-9) + 1):
        x = at.x + mm / MM_PER_INCH
        _tick(pdf, x, at.y, _tick_length(mm, _MM_TICKS_IN))
        if mm % 10 == 0:
            _number(pdf, Point(x, at.y + 0.175 + pt_to_in(4.6)), mm, "mm")


def _tick(pdf: Pdf, x: float, y: float, length_in: float) -> None:
    pdf.rule(Point(x, y), Point(x, y + length_in), _LINE_PT, INK)


def _tick_length(count: int, lengths_in: dict[int, float]) -> float:
    return next(length for every, length in lengths_in.items() if count % every == 0)


def _number(pdf: Pdf, at: Point, count: int, unit: str) -> None:
    if count:
        pdf.text(at, str(count), _NUMBER, "centre")
    else:
        pdf.text(at, unit, _UNIT)
