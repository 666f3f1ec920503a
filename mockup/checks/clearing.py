"""The least change that clears the cut: the largest scale, and the shift that goes with it.

For one scale, each point of the art allows the shifts that keep it in the safe zone: the zone
itself, moved. What all points allow is the intersection; only the few that matter are asked.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Point as GeometryPoint
from shapely.geometry.base import BaseGeometry

from mockup.geometry.point import Point
from mockup.units import Unit, format_length, mm_to_in

SCALE_LEAST = 0.5  # judgement: art that has to be halved is drawn anew, not scaled
SHIFT_MOST_IN = 1.0  # judgement: art that has to go further stands on another card
SCALE_STEP = 0.001  # judgement: what a designer would type
STEP_IN: dict[Unit, float] = {"in": 0.001, "mm": mm_to_in(0.01)}
"""What a shift is told to, in the suite's unit."""
_SLACK_IN = 1e-6  # rounding of points that lie on the zone itself
_ROUNDS = 200  # a guard: each round settles one point, and few of a convex hull matter


@dataclass(frozen=True)
class Clearing:
    """A uniform scale about a centre, then a shift in inches (x right, y down)."""

    scale: float
    shift: Point
    about: Point

    def moved(self, points: NDArray[np.float64]) -> NDArray[np.float64]:
        """Returns (n, 2) points scaled and shifted."""
        return self.about + self.scale * (points - self.about) + np.array(self.shift)

    def told(self, unit: Unit = "in") -> str:
        """Returns the change in words: `scale it to 97.4 %, move it 0.02 in down`."""
        parts: list[str] = []
        if self.scale < 1:
            parts.append(f"scale it to {self.scale * 100:.1f} %")
        ways = ((self.shift.x, "right", "left"), (self.shift.y, "down", "up"))
        moves = [
            f"{format_length(abs(length), unit)} {ahead if length > 0 else back}"
            for length, ahead, back in ways
            if abs(length) > 1e-9
        ]
        if moves:
            parts.append(f"move it {' and '.join(moves)}")
        return ", ".join(parts) or "nothing to change"


def largest_clear(
    points: NDArray[np.float64], allowed: BaseGeometry, about: Point, unit: Unit = "in"
) -> Clearing | None:
    """Returns the largest scale, at most 1, and shift that bring all points into `allowed`.

    The scale is rounded down to 0.1 %, the shift to what is told in `unit`, 0.001 in or 0.01 mm,
    and the answer holds for every point given. None where no scale of at least 50 % does.
    """
    if len(points) == 0 or allowed.is_empty:
        return None
    relative = points - about
    best = _largest_scale(relative, allowed, about)
    if best is None:
        return None
    # At the very largest scale a single shift is left; a little less gives room for a round one.
    scale = math.floor(best / SCALE_STEP + 1e-6) * SCALE_STEP
    shift = _shift(relative * scale + about, allowed)
    if shift is None:
        return None
    moved = relative * scale + about
    return Clearing(min(scale, 1.0), _rounded(shift, moved, allowed, STEP_IN[unit]), about)


def _largest_scale(
    relative: NDArray[np.float64], allowed: BaseGeometry, about: Point
) -> float | None:
    if _shift(relative + about, allowed) is not None:
        return 1.0
    low, high = SCALE_LEAST, 1.0
    if _shift(relative * low + about, allowed) is None:
        return None
    while high - low > SCALE_STEP / 8:
        middle = (low + high) / 2
        if _shift(relative * middle + about, allowed) is None:
            high = middle
        else:
            low = middle
    return low


def _shift(points: NDArray[np.float64], allowed: BaseGeometry) -> Point | None:
    """Returns the smallest shift that brings all points into `allowed`, or None."""
    room: BaseGeometry = shapely.box(-SHIFT_MOST_IN, -SHIFT_MOST_IN, SHIFT_MOST_IN, SHIFT_MOST_IN)
    roomy = allowed.buffer(_SLACK_IN)
    shapely.prepare(roomy)
    asked = _extreme(points)
    for _ in range(_ROUNDS):
        for point in asked:
            moved = shapely.transform(allowed, lambda xy, p=point: xy - p)
            room = room.intersection(moved)
        if room.is_empty:
            return None
        shift = _nearest_to_origin(room)
        outside = ~shapely.contains_xy(roomy, points[:, 0] + shift.x, points[:, 1] + shift.y)
        if not outside.any():
            return shift
        strays = points[outside]
        far = shapely.distance(shapely.points(strays + np.array(shift)), allowed)
        asked = strays[[int(np.argmax(far))]]
    return None


def _nearest_to_origin(room: BaseGeometry) -> Point:
    origin = GeometryPoint(0, 0)
    if room.intersects(origin):
        return Point(0.0, 0.0)
    near, _ = shapely.get_coordinates(shapely.shortest_line(room, origin))
    return Point(float(near[0]), float(near[1]))


def _extreme(points: NDArray[np.float64]) -> NDArray[np.float64]:
    angles = np.linspace(0, 2 * np.pi, 16, endpoint=False)
    reach = points @ np.array([np.cos(angles), np.sin(angles)])
    return points[np.unique(reach.argmax(axis=0))]


def _rounded(
    shift: Point, points: NDArray[np.float64], allowed: BaseGeometry, step: float
) -> Point:
    """Returns the smallest shift of whole steps near the smallest one that still clears all."""
    roomy = allowed.buffer(_SLACK_IN)
    shapely.prepare(roomy)
    tried = [
        Point(x, y)
        for x in (_toward(shift.x, step), _away(shift.x, step))
        for y in (_toward(shift.y, step), _away(shift.y, step))
    ]
    for each in sorted(tried, key=lambda p: math.hypot(*p)):
        if shapely.contains_xy(roomy, points[:, 0] + each.x, points[:, 1] + each.y).all():
            return each
    return shift


def _away(value: float, step: float) -> float:
    return math.copysign(math.ceil(abs(value) / step - 1e-9) * step, value)


def _toward(value: float, step: float) -> float:
    return math.copysign(math.floor(abs(value) / step + 1e-9) * step, value)
