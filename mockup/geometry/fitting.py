"""Curves that are neither lines nor arcs, as cubics a stated distance away from them at most."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from mockup.geometry.outline import Cubic
from mockup.geometry.point import Point

# Area is off by at most the distance times the length, far less than 1e-7 of a card's.
TOLERANCE_IN = 2e-8

_PROBES = (1 / 6, 1 / 3, 1 / 2, 2 / 3, 5 / 6)
_DEEPEST = 24


@dataclass(frozen=True)
class Curve:
    """A plane curve known two ways.

    `at(t)` gives the point and a direction along the curve, `off(point)` the signed distance of a
    point from it, to first order.
    """

    at: Callable[[float], tuple[Point, Point]]
    off: Callable[[Point], float]


def fit(
    curve: Curve, start: float, end: float, tolerance_in: float = TOLERANCE_IN
) -> tuple[Cubic, ...]:
    """Returns cubics along a curve from parameter `start` to `end`, tangents shared at the joints.

    Each touches the curve's direction at both ends and passes through it at thirds, which leaves
    an error of sixth order; a piece still farther off than `tolerance_in` is halved.
    Raises ValueError where halving does not help.
    """
    return tuple(_fitted(curve, start, end, tolerance_in, _DEEPEST))


def _fitted(curve: Curve, start: float, end: float, tolerance: float, depth: int) -> list[Cubic]:
    cubic = _touching(curve, start, end)
    if cubic and max(abs(curve.off(cubic.at(t))) for t in _PROBES) <= tolerance:
        return [cubic]
    if depth == 0:
        raise ValueError(f"the curve cannot be fitted near parameter {start}")
    middle = (start + end) / 2
    first = _fitted(curve, start, middle, tolerance, depth - 1)
    return first + _fitted(curve, middle, end, tolerance, depth - 1)


def _touching(curve: Curve, start: float, end: float) -> Cubic | None:
    """Returns the cubic through both ends and both thirds, or None where Newton finds none."""
    (a, along_a), (b, along_b) = curve.at(start), curve.at(end)
    chord = math.dist(a, b)
    step = chord * 1e-6
    reach = [chord / 3, chord / 3]
    for _ in range(8):
        cubic = _hermite(a, _unit(along_a), b, _unit(along_b), reach)
        miss = _miss(curve, cubic)
        if max(map(abs, miss)) < 1e-14:
            break
        columns: list[tuple[float, float]] = []
        for k in (0, 1):
            moved = [reach[0] + step * (k == 0), reach[1] + step * (k == 1)]
            there = _miss(curve, _hermite(a, _unit(along_a), b, _unit(along_b), moved))
            columns.append(((there[0] - miss[0]) / step, (there[1] - miss[1]) / step))
        (p, q), (r, s) = columns
        det = p * s - q * r
        if abs(det) < 1e-12:
            break
        reach = [
            reach[0] - (s * miss[0] - r * miss[1]) / det,
            reach[1] - (p * miss[1] - q * miss[0]) / det,
        ]
        if not all(0 < each < chord for each in reach):
            return None
    return _hermite(a, _unit(along_a), b, _unit(along_b), reach)


def _miss(curve: Curve, cubic: Cubic) -> tuple[float, float]:
    return curve.off(cubic.at(1 / 3)), curve.off(cubic.at(2 / 3))


def _hermite(a: Point, along_a: Point, b: Point, along_b: Point, reach: list[float]) -> Cubic:
    return Cubic(
        a,
        Point(a.x + along_a.x * reach[0], a.y + along_a.y * reach[0]),
        Point(b.x - along_b.x * reach[1], b.y - along_b.y * reach[1]),
        b,
    )


def _unit(vector: Point) -> Point:
    size = math.hypot(*vector)
    return Point(vector.x / size, vector.y / size)
