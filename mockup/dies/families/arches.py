"""Arches without a point, turned to any side: round, segmental, three-centred, twin, quarter."""

from __future__ import annotations

import math

from mockup.dies.families.corners import cornered, rounded
from mockup.dies.family import Family, choice, length
from mockup.dies.fit import SIDE, turned, within
from mockup.geometry.outline import Line, Segment, Shape, circle_arc, joined
from mockup.geometry.point import Point

CORNERS = ("top-right", "bottom-right", "bottom-left", "top-left")


def round_arch(width_in: float, height_in: float, side: str) -> Shape:
    """Returns a half circle on straight sides; W (H - r) + pi r^2 / 2, W + 2 (H - r) + pi r."""

    def draw(span: float, deep: float) -> Shape:
        within("height under the arch", deep, span / 2, math.inf)
        radius = span / 2
        arc = circle_arc(Point(radius, radius), radius, 180, 180)
        return Shape(joined(arc, *foot(span, deep)))

    return turned(draw, side, width_in, height_in)


def segmental_arch(width_in: float, height_in: float, rise: float, side: str) -> Shape:
    """Returns an arch of one arc less than a half circle, R = (W^2 / 4 + rise^2) / (2 rise).

    Area W (H - rise) + R^2 (t - sin t cos t) with sin t = W / 2R; perimeter
    W + 2 (H - rise) + 2 R t.
    """

    def draw(span: float, deep: float) -> Shape:
        within("rise", rise, span / 50, min(span / 2, deep))
        radius = (span * span / 4 + rise * rise) / (2 * rise)
        half = math.degrees(math.atan2(span / 2, radius - rise))
        arc = circle_arc(Point(span / 2, radius), radius, 270 - half, 2 * half)
        return Shape(joined(arc, *foot(span, deep)))

    return turned(draw, side, width_in, height_in)


def three_centred_arch(width_in: float, height_in: float, rise: float, side: str) -> Shape:
    """Returns the basket-handle arch: two haunches of radius r, a crown of radius R, all tangent.

    With half-span a, rise q and d = hypot(a, q): r = d (d - a + q) / 2a, the construction that
    makes R / r least; R = (a^2 + q^2 - 2 a r) / 2 (q - r).
    """

    def draw(span: float, deep: float) -> Shape:
        within("rise", rise, span / 10, min(span * 0.49, deep))
        a = span / 2
        diagonal = math.hypot(a, rise)
        haunch = diagonal * (diagonal - a + rise) / (2 * a)
        crown = (a * a + rise * rise - 2 * a * haunch) / (2 * (rise - haunch))
        turn = math.degrees(math.atan2(crown - rise, a - haunch))
        arcs = (
            circle_arc(Point(haunch, rise), haunch, 180, turn),
            circle_arc(Point(a, crown), crown, 180 + turn, 180 - 2 * turn),
            circle_arc(Point(span - haunch, rise), haunch, 360 - turn, turn),
        )
        return Shape(joined(*arcs, *foot(span, deep)))

    return turned(draw, side, width_in, height_in)


def twin_arch(width_in: float, height_in: float, side: str) -> Shape:
    """Returns two round arches side by side, of radius r = W / 4.

    Area W (H - r) + pi r^2, perimeter W + 2 (H - r) + 2 pi r.
    """

    def draw(span: float, deep: float) -> Shape:
        within("height under the arches", deep, span / 4, math.inf)
        radius = span / 4
        arcs = [circle_arc(Point(x, radius), radius, 180, 180) for x in (radius, 3 * radius)]
        return Shape(joined(*arcs, *foot(span, deep)))

    return turned(draw, side, width_in, height_in)


def quarter_arch(width_in: float, height_in: float, radius: float, corner: str) -> Shape:
    """Returns a card with one rounded shoulder of radius r.

    Area W H - (1 - pi / 4) r^2, perimeter 2 (W + H) - 2 r + pi r / 2.
    """
    least = min(width_in, height_in)
    within("radius", radius, least / 20, least)
    reach = [0.0, 0.0, 0.0, 0.0]
    reach[(CORNERS.index(corner) + 1) % 4] = radius
    corners = (reach[0], reach[1], reach[2], reach[3])
    return cornered(width_in, height_in, corners, corners, rounded)


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
SEGMENTAL_ARCH = Family(
    "segmental-arch",
    "a flat curve on straight sides",
    "one arc of a circle through springings and crown",
    (length("rise", lambda w, h: min(w / 5, h), "springing to crown"), SIDE),
    segmental_arch,
)
THREE_CENTRED_ARCH = Family(
    "three-centred-arch",
    "a basket-handle arch",
    "three tangent arcs with the least ratio of radii",
    (length("rise", lambda w, h: min(w / 3, h), "springing to crown"), SIDE),
    three_centred_arch,
)
TWIN_ARCH = Family(
    "twin-arch",
    "two round arches side by side",
    "two half circles, tangent to the sides",
    (SIDE,),
    twin_arch,
)
QUARTER_ARCH = Family(
    "quarter-arch",
    "one rounded shoulder",
    "a quarter circle tangent to both sides",
    (
        length("radius", lambda w, h: min(w, h), "radius of the shoulder"),
        choice("corner", CORNERS, "the corner that is rounded"),
    ),
    quarter_arch,
)
