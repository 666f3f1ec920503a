"""Straight-sided cards: rectangle, hexagon, gable, and the tag with its drilled hole."""

from __future__ import annotations

import math

from mockup.dies.family import Family, choice, length
from mockup.dies.fit import LEFT_RIGHT, SIDE, TOP_BOTTOM, side_affine, turned, within
from mockup.geometry.outline import Outline, Shape, circle_arc, polygon_outline
from mockup.geometry.point import Point

WEB_IN = 1 / 16  # what must be left standing between a hole and the edge; common practice
_SMALLEST_HOLE_IN = 1 / 16


def rectangle(width_in: float, height_in: float) -> Shape:
    """Returns the card cut square; W H, 2 (W + H)."""
    return Shape(polygon_outline((0, 0), (width_in, 0), (width_in, height_in), (0, height_in)))


def hexagon(width_in: float, height_in: float, point: float, points: str) -> Shape:
    """Returns a six-sided card with points of depth p at two ends; W (H - p)."""

    def draw(span: float, deep: float) -> Shape:
        within("point", point, span / 20, deep / 2)
        tip, foot = span / 2, deep - point
        return Shape(
            polygon_outline(
                (tip, 0), (span, point), (span, foot), (tip, deep), (0, foot), (0, point)
            )
        )

    if points == LEFT_RIGHT:
        return draw(height_in, width_in).mapped(side_affine("right", width_in, height_in))
    return draw(width_in, height_in)


def gable(width_in: float, height_in: float, rise: float, side: str) -> Shape:
    """Returns a card with two straight slopes meeting in a ridge; W (H - rise / 2)."""

    def draw(span: float, deep: float) -> Shape:
        within("rise", rise, span / 20, deep)
        return Shape(
            polygon_outline((span / 2, 0), (span, rise), (span, deep), (0, deep), (0, rise))
        )

    return turned(draw, side, width_in, height_in)


def tag(
    width_in: float, height_in: float, cut: float, hole: float, inset: float, side: str
) -> Shape:
    """Returns a tag: two corners cut off, a hole drilled between; W H - c^2 - pi d^2 / 4."""

    def draw(span: float, deep: float) -> Shape:
        within("cut", cut, 0, min(span * 0.45, deep))
        _check_hole(span, deep, cut, hole, inset)
        outer = polygon_outline(
            (cut, 0), (span - cut, 0), (span, cut), (span, deep), (0, deep), (0, cut)
        )
        centre = Point(span / 2, inset)
        return Shape(outer, (Outline((circle_arc(centre, hole / 2, 0, 360),)),))

    return turned(draw, side, width_in, height_in)


def _check_hole(span: float, deep: float, cut: float, hole: float, inset: float) -> None:
    def least_inset(clear: float) -> float:  # off the top edge and off both slopes
        return max(clear, clear * math.sqrt(2) + cut - span / 2)

    clear = hole / 2 + WEB_IN
    if (
        least_inset(_SMALLEST_HOLE_IN / 2 + WEB_IN) <= inset <= deep / 2
    ):  # then the hole must fit it
        room = min(inset, (inset + span / 2 - cut) / math.sqrt(2))
        within("hole", hole, _SMALLEST_HOLE_IN, min(span / 3, 2 * (room - WEB_IN)))
    within("inset", inset, least_inset(clear), deep / 2)


RECTANGLE = Family("rectangle", "a plain card, cut square", "four right angles", (), rectangle)
HEXAGON = Family(
    "hexagon",
    "six straight sides, pointed at two ends",
    "points of 120 degrees at the short sides unless given; 1 : 1.1547 is regular",
    (
        length(
            "point", lambda w, h: min(min(w, h) / math.sqrt(12), max(w, h) / 2), "depth of a point"
        ),
        choice("points", (TOP_BOTTOM, LEFT_RIGHT), "where the points are"),
    ),
    hexagon,
)
GABLE = Family(
    "gable",
    "two straight slopes and a ridge",
    "an isosceles triangle on a rectangle",
    (length("rise", lambda w, h: min(w / 4, h / 2), "eaves to ridge"), SIDE),
    gable,
)
TAG = Family(
    "tag",
    "two corners cut off and a drilled hole for the string",
    "common practice, no source",
    (
        length("cut", lambda w, h: min(w / 5, h / 4), "how far along each side the cut begins"),
        length("hole", lambda w, _: min(3 / 16, w / 8), "diameter of the hole"),
        length("inset", lambda w, h: min(3 / 8, w / 4, h / 4), "edge to the middle of the hole"),
        SIDE,
    ),
    tag,
)
