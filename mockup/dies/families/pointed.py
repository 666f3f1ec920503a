"""Gothic arches, turned to any side: lancet, ogee, trefoil top."""

from __future__ import annotations

import math

from mockup.dies.families.arches import foot
from mockup.dies.family import Family, angle, length
from mockup.dies.fit import SIDE, turned, within, within_number
from mockup.geometry.affine import Affine
from mockup.geometry.outline import Segment, Shape, circle_arc, joined
from mockup.geometry.point import Point


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


def ogee_arch(width_in: float, height_in: float, rise: float, point: float, side: str) -> Shape:
    """Returns a round arch drawn up to a point by two counter-curves.

    The lower arcs have the half-span a for radius; with the tip's half-angle s the upper ones,
    tangent to them, have (rise^2 - a^2) / 2 (a - rise sin s).
    """
    within_number("point", point, 60, 100, " degrees")

    def draw(span: float, deep: float) -> Shape:
        a, half = span / 2, math.radians(point / 2)
        within("rise", rise, 1.05 * a, min(0.95 * a / math.sin(half), deep))
        upper = (rise * rise - a * a) / (2 * (a - rise * math.sin(half)))
        centre = Point(a - upper * math.cos(half), -upper * math.sin(half))
        turn = math.degrees(math.atan2(rise - centre.y, centre.x - a))  # from three o'clock, up
        lower_left = circle_arc(Point(a, rise), a, 180, 180 - turn)
        upper_left = circle_arc(centre, upper, 180 - turn, math.degrees(half) - (180 - turn))
        left: list[Segment] = [lower_left, upper_left]
        flip = Affine(-1, 0, 0, 1, span, 0)
        right = [segment.mapped(flip).reversed() for segment in reversed(left)]
        return Shape(joined(*left, *right, *foot(span, deep)))

    return turned(draw, side, width_in, height_in)


def trefoil_top(width_in: float, height_in: float, radius: float, side: str) -> Shape:
    """Returns three discs of one radius, their centres an equilateral triangle, on straight sides.

    The triangle's side is s = W - 2 r, so the foil rises r + s sqrt 3 / 2 above the springing.
    """

    def draw(span: float, deep: float) -> Shape:
        within("radius", radius, span * 0.26, span * 0.4)
        side_in = span - 2 * radius
        rise = radius + side_in * math.sqrt(3) / 2
        within("height under the trefoil", deep, rise, math.inf)
        # Two discs meet at an angle of acos(s / 2r) off the line through their centres, which
        # leans 60 degrees.
        meet = math.degrees(math.acos(side_in / (2 * radius)))
        lobes = (
            circle_arc(Point(radius, rise), radius, 180, 120 - meet),
            circle_arc(Point(span / 2, radius), radius, 120 + meet, 300 - 2 * meet),
            circle_arc(Point(span - radius, rise), radius, 240 + meet, 120 - meet),
        )
        return Shape(joined(*lobes, *foot(span, deep)))

    return turned(draw, side, width_in, height_in)


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
OGEE_ARCH = Family(
    "ogee-arch",
    "a round arch drawn up to a point",
    "four tangent arcs, the lower two of one centre",
    (
        length("rise", lambda w, _: 0.6 * w, "springing to point"),
        angle("point", 90, "the angle of the tip"),
        SIDE,
    ),
    ogee_arch,
)
TREFOIL_TOP = Family(
    "trefoil-top",
    "three lobes on straight sides",
    "three equal discs about an equilateral triangle",
    (length("radius", lambda w, _: 0.29 * w, "radius of a lobe"), SIDE),
    trefoil_top,
)
