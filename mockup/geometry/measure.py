"""Areas, lengths: measured on the exact curves, before any flattening."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from mockup.geometry.outline import Arc, Cubic, Line, Outline, Segment, Shape
from mockup.geometry.point import Point

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(24)
_PIECES = 8  # sub-intervals a curved segment is integrated over; leaves errors near 1e-12


def signed_area(outline: Outline) -> float:
    """Returns the area in square inches, positive where drawn clockwise as seen (Green)."""
    return sum(_swept(segment) for segment in outline.segments)


def area(shape: Shape) -> float:
    """Returns the area of a shape without its holes, square inches."""
    return abs(signed_area(shape.outer)) - sum(abs(signed_area(hole)) for hole in shape.holes)


def perimeter(outline: Outline) -> float:
    """Returns the length of an outline, inches."""
    return sum(segment_length(segment) for segment in outline.segments)


def segment_length(segment: Segment) -> float:
    """Returns the length of one segment, inches; Gauss-Legendre where there is no closed form."""
    if isinstance(segment, Line):
        return math.dist(segment.start, segment.end)
    if isinstance(segment, Arc):
        u, v = segment.u, segment.v
        ru, rv = math.hypot(*u), math.hypot(*v)
        if math.isclose(ru, rv, rel_tol=1e-12) and abs(_dot(u, v)) < 1e-12 * ru * rv:
            return ru * math.radians(abs(segment.sweep_deg))
        return _quadrature(lambda t: _arc_speed(segment, t))
    return _quadrature(lambda t: _cubic_speed(segment, t))


def _swept(segment: Segment) -> float:
    """Returns the area swept from the origin, half the integral of x dy - y dx."""
    if isinstance(segment, Line):
        return _cross(segment.start, segment.end) / 2
    if isinstance(segment, Arc):
        chord = Point(segment.end.x - segment.start.x, segment.end.y - segment.start.y)
        turn = math.radians(segment.sweep_deg)
        return (_cross(segment.centre, chord) + _cross(segment.u, segment.v) * turn) / 2
    p0, p1, p2, p3 = segment.start, segment.control1, segment.control2, segment.end
    # The integral of B x B' over a cubic, worked out in its control points.
    return (
        6 * _cross(p0, p1)
        + 3 * _cross(p0, p2)
        + _cross(p0, p3)
        + 3 * _cross(p1, p2)
        + 3 * _cross(p1, p3)
        + 6 * _cross(p2, p3)
    ) / 20


def _quadrature(speed: Callable[[np.ndarray], np.ndarray]) -> float:
    edges = np.linspace(0, 1, _PIECES + 1)
    half = 0.5 / _PIECES
    t = (edges[:-1, None] + half) + half * _NODES[None, :]
    return float((speed(t) * _WEIGHTS).sum() * half)


def _arc_speed(arc: Arc, t: np.ndarray) -> np.ndarray:
    turn = math.radians(arc.sweep_deg)
    angle = math.radians(arc.start_deg) + turn * t
    dx = -arc.u.x * np.sin(angle) + arc.v.x * np.cos(angle)
    dy = -arc.u.y * np.sin(angle) + arc.v.y * np.cos(angle)
    return np.hypot(dx, dy) * abs(turn)


def _cubic_speed(cubic: Cubic, t: np.ndarray) -> np.ndarray:
    p = np.array([cubic.start, cubic.control1, cubic.control2, cubic.end])
    d = 3 * np.diff(p, axis=0)
    s = 1 - t
    derivative = [d[0, k] * s * s + 2 * d[1, k] * s * t + d[2, k] * t * t for k in (0, 1)]
    return np.hypot(*derivative)


def _cross(a: Point, b: Point) -> float:
    return a.x * b.y - a.y * b.x


def _dot(a: Point, b: Point) -> float:
    return a.x * b.x + a.y * b.y
