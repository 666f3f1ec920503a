"""Over a band's flat strip: where it turns, what of it is front and back, which end is covered."""

from __future__ import annotations

from mockup.colour.srgb import Rgb
from mockup.geometry.outline import Shape, polygon_outline
from mockup.geometry.point import Point
from mockup.output.pdf import Pdf
from mockup.output.typography import Style, line_width_in
from mockup.reading.binding import Bound
from mockup.render.piece import PAPER_WHITE

TURN: Rgb = (30, 110, 70)  # as a fold's
LEGEND = "turns long dashes, green; the end that is glued over, crossed"

_LABEL = Style("text", 7, 9, TURN)
_DASH_IN = (0.12, 0.05)
_LEAST_IN = 0.05  # round a label
_FROM_TURN_IN = 0.35


def draw_band_lines(pdf: Pdf, bundle: Bound, move: Point) -> None:
    """Draws a band's turns over its strip, which lies at `move`, each part of it named."""
    (first, second), (third, fourth) = bundle.turns_in
    for along in (first, second, third, fourth):
        _line(pdf, _across(bundle, along, move), _DASH_IN)
    covered_in = bundle.overlap_in
    if covered_in > 0:
        _cross(pdf, bundle, covered_in, move)
        _label(pdf, bundle, covered_in / 2, "covered", move)
    _label(pdf, bundle, (max(covered_in, 0.0) + first) / 2, "back", move)
    front_in = min(second + _FROM_TURN_IN, bundle.length_in / 2)  # the middle is what is read
    _label(pdf, bundle, front_in, "front", move)
    _label(pdf, bundle, (fourth + bundle.length_in) / 2, "back", move)


def _across(bundle: Bound, along_in: float, move: Point) -> tuple[Point, Point]:
    """Returns the ends of a line across the strip, at a place along it."""
    return _at(bundle, along_in, 0.0, move), _at(bundle, along_in, bundle.width_in, move)


def _at(bundle: Bound, along_in: float, over_in: float, move: Point) -> Point:
    x, y = (along_in, over_in) if bundle.goes_across else (over_in, along_in)
    return Point(x + move.x, y + move.y)


def _line(pdf: Pdf, ends: tuple[Point, Point], dash_in: tuple[float, ...]) -> None:
    pdf.rule(*ends, 1.2, PAPER_WHITE)
    pdf.rule(*ends, 0.5, TURN, dash_in)


def _cross(pdf: Pdf, bundle: Bound, covered_in: float, move: Point) -> None:
    """Draws the end that the other end is glued over: its edge, and a cross."""
    wide = bundle.width_in
    _line(pdf, _across(bundle, covered_in, move), ())
    for start, end in (((0.0, 0.0), (covered_in, wide)), ((0.0, wide), (covered_in, 0.0))):
        _line(pdf, (_at(bundle, *start, move), _at(bundle, *end, move)), ())


def _label(pdf: Pdf, bundle: Bound, along_in: float, word: str, move: Point) -> None:
    """Sets a word on white at the strip's far edge, its middle at a place along it."""
    half, high = line_width_in(word, _LABEL) / 2 + _LEAST_IN, 0.13
    from_edge = 0.1 if bundle.goes_across else half + _LEAST_IN
    x, y = _at(bundle, along_in, bundle.width_in - from_edge, move)
    left, top, right, bottom = x - half, y - high / 2, x + half, y + high / 2
    plate = polygon_outline((left, top), (right, top), (right, bottom), (left, bottom))
    pdf.fill(Shape(plate), PAPER_WHITE)
    pdf.text(Point(x, y + 0.033), word, _LABEL, "centre")
