"""Polygons with rounded corners, and such polygons with their sides moved inward; both exact."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from mockup.geometry.outline import Arc, Line, Outline, Segment, circle_arc
from mockup.geometry.point import Point

_TINY = 1e-12


class Corner(NamedTuple):
    """A corner of a polygon and the radius it is rounded with, inches; 0 leaves it sharp."""

    x: float
    y: float
    radius: float = 0.0

    @property
    def point(self) -> Point:
        """Where the corner is before it is rounded."""
        return Point(self.x, self.y)


def rounded(corners: Sequence[Corner]) -> Outline:
    """Returns the outline through corners, each replaced by the arc that touches both its sides.

    Inward corners are filled, outward ones cut. A radius too large for its sides is lessened to the
    largest that fits, a side between two rounded corners being shared by halves.
    """
    count = len(corners)
    turns = [_turn(corners[k - 1], corners[k], corners[(k + 1) % count]) for k in range(count)]
    segments: list[Segment] = []
    for here, after in zip(turns, [*turns[1:], turns[0]], strict=True):
        if isinstance(here, Arc):
            segments.append(here)
        start = here.end if isinstance(here, Arc) else here
        end = after.start if isinstance(after, Arc) else after
        if math.dist(start, end) > 1e-9:
            segments.append(Line(start, end))
    return Outline(tuple(segments))


def inset_sides(corners: Sequence[Corner], distances_in: Sequence[float]) -> list[Corner]:
    """Returns a convex polygon with each side moved inward by its own distance, inches.

    `corners` run clockwise as seen; side k goes from corner k to the next. Sides that vanish are
    left out. Radii lessen with the distance, as those of parallel curves do, and end at 0.
    Raises ValueError when nothing is left.
    """
    sides = [
        (a, b, distance)
        for a, b, distance in zip(corners, [*corners[1:], corners[0]], distances_in, strict=True)
    ]
    while len(sides) >= 3:
        moved = [_meeting(sides[k - 1], sides[k]) for k in range(len(sides))]
        lengths = [
            _along(side, moved[k], moved[(k + 1) % len(moved)]) for k, side in enumerate(sides)
        ]
        shortest = min(range(len(sides)), key=lengths.__getitem__)
        if lengths[shortest] > 0:
            return moved
        del sides[shortest]
    raise ValueError("no polygon is left between its sides moved inward")


_Side = tuple[Corner, Corner, float]


def _turn(before: Corner, here: Corner, after: Corner) -> Arc | Point:
    """Returns the arc that rounds a corner, or the corner itself where it is sharp or no corner."""
    back, ahead = math.dist(before[:2], here[:2]), math.dist(here[:2], after[:2])
    ux, uy = (before.x - here.x) / back, (before.y - here.y) / back
    vx, vy = (after.x - here.x) / ahead, (after.y - here.y) / ahead
    half = math.atan2(abs(ux * vy - uy * vx), ux * vx + uy * vy) / 2
    if here.radius <= 0 or half > math.pi / 2 - 1e-9:
        return here.point
    room = min(back / (2 if before.radius > 0 else 1), ahead / (2 if after.radius > 0 else 1))
    touch = min(here.radius / math.tan(half), room)
    radius = touch * math.tan(half)
    # The bisector u + v is 2 cos(half) long, and the centre lies touch / cos(half) along it.
    reach = touch / (2 * math.cos(half) ** 2)
    centre = Point(here.x + (ux + vx) * reach, here.y + (uy + vy) * reach)
    start_deg = math.degrees(
        math.atan2(here.y + uy * touch - centre.y, here.x + ux * touch - centre.x)
    )
    sweep_deg = math.copysign(180 - math.degrees(2 * half), vx * uy - vy * ux)
    return circle_arc(centre, radius, start_deg, sweep_deg)


def _meeting(before: _Side, after: _Side) -> Corner:
    """Returns where two sides meet once both are moved inward."""
    (px, py), (ux, uy) = _moved(before)
    (qx, qy), (vx, vy) = _moved(after)
    shared = before[1]
    radius = max(0.0, shared.radius - min(before[2], after[2])) if shared == after[0] else 0.0
    cross = ux * vy - uy * vx
    if abs(cross) < _TINY:  # the two lie on one line
        return Corner(qx, qy, 0.0)
    t = ((qx - px) * vy - (qy - py) * vx) / cross
    return Corner(px + t * ux, py + t * uy, radius)


def _moved(side: _Side) -> tuple[Point, Point]:
    """Returns a point of the moved side, and its unit direction."""
    a, b, distance = side
    length = math.dist(a[:2], b[:2])
    ux, uy = (b.x - a.x) / length, (b.y - a.y) / length
    # Going clockwise as seen, with y down, the inside lies towards (-uy, ux).
    return Point(a.x - uy * distance, a.y + ux * distance), Point(ux, uy)


def _along(side: _Side, start: Corner, end: Corner) -> float:
    """Returns the length from start to end counted in the direction of a side."""
    a, b, _ = side
    length = math.dist(a[:2], b[:2])
    return ((end.x - start.x) * (b.x - a.x) + (end.y - start.y) * (b.y - a.y)) / length
