"""Arched cards of one curve each side, turned to any side: round and pointed."""

from __future__ import annotations

import math

from mockup.dies.family import Family, length
from mockup.dies.fit import SIDE, turned, within
from mockup.geometry.outline import Line, Segment, Shape, circle_arc, joined
from mockup.geometry.point import Point


def round_arch(width_in: float, height_in: float, side: str) -> Shape:
    """Returns a half circle on straight sides; W (H - r) + pi r^2 / 2, W + 2 (H - r) + pi r."""

    def draw(span: float, deep: float) -> Shape:
        within("height", deep, span / 2, math.inf)
        radius = span / 2
        return Shape(joined(circle_arc(Point(radius, radius), radius, 180, 180), *foot(span, deep)))

    return turned(draw, side, width_in, height_in)


def lancet_arch(width_in: float, height_in: float, rise: float, side: str) -> Shape:
    """Returns a pointed arch of two arcs of radius (rise^2 + (W / 2)^2) / W.

    With rise W sqrt 3 / 2 the radius is the span (the equilateral arch); higher is the lancet
    proper, lower the drop arch.
    """

    def draw(span: float, deep: float) -> Shape:
        within("rise", rise, span / 2, deep)
        radius = (rise * rise + span * span / 4) / span
        turn = math.degrees(math.atan2(rise, radius - span / 2))
        left = circle_arc(Point(radius, rise), radius, 180, turn)
        right = circle_arc(Point(span - radius, rise), radius, 360 - turn, turn)
        return Shape(joined(left, right, *foot(span, deep)))

    return turned(draw, side, width_in, height_in)


def foot(span: float, deep: float) -> tuple[Segment, ...]:
    """Returns the foot of an arch, drawn from right to left."""
    return (Line(Point(span, deep), Point(0, deep)),)


ROUND_ARCH = Family(
    "round-arch",
    "a half circle on straight sides",
    "one half circle, tangent to the sides",
    (SIDE,),
    round_arch,
)
LANCET_ARCH = Family(
    "lancet-arch",
    "a pointed arch",
    "two arcs centred on the springing line; equilateral unless a rise is given",
    (
        length("rise", lambda w, h: max(w / 2, min(w * math.sqrt(3) / 2, h)), "springing to point"),
        SIDE,
    ),
    lancet_arch,
)
