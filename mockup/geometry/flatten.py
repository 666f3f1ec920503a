"""From curves to polygons, with a stated chord error; the last step before drawing or shapely."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from shapely.geometry import Polygon

from mockup.geometry.outline import Arc, Line, Outline, Segment, Shape

TOLERANCE_IN = 0.0002  # half of what a 600 ppi pixel could show; the house allows 0.0005

Ring = NDArray[np.float64]
"""(n, 2) float64, inches; closed without repeating its first point."""


def ring(outline: Outline, tolerance_in: float = TOLERANCE_IN) -> Ring:
    """Returns the polygon through an outline, at most `tolerance_in` away from it anywhere."""
    return np.concatenate([_points(segment, tolerance_in) for segment in outline.segments])


def rings(shape: Shape, tolerance_in: float = TOLERANCE_IN) -> tuple[Ring, ...]:
    """Returns a shape's polygons: the outer one, then its holes."""
    return tuple(ring(outline, tolerance_in) for outline in shape.outlines)


def course(segments: Sequence[Segment], tolerance_in: float = TOLERANCE_IN) -> Ring:
    """Returns the corners of segments that follow one another and do not close: (n, 2) inches."""
    parts = [_points(each, tolerance_in) for each in segments]
    end = segments[-1].end
    return np.vstack([*parts, [[end.x, end.y]]])


def polygon(shape: Shape, tolerance_in: float = TOLERANCE_IN) -> Polygon:
    """Returns a shape as a shapely polygon, inches."""
    outer, *holes = rings(shape, tolerance_in)
    return Polygon(outer, holes)


def _points(segment: Segment, tolerance_in: float) -> NDArray[np.float64]:
    """Returns the points of a segment without its last one, which the next segment brings."""
    if isinstance(segment, Line):
        return np.array([segment.start], dtype=np.float64)
    count = _steps(segment, tolerance_in)
    return np.array([segment.at(k / count) for k in range(count)], dtype=np.float64)


def _steps(segment: Segment, tolerance_in: float) -> int:
    if isinstance(segment, Arc):
        # Sagitta r (1 - cos(step / 2)); for an ellipse r is its larger half-axis, which bounds it.
        radius = float(np.linalg.norm(np.array([segment.u, segment.v]), 2))
        if radius <= tolerance_in:
            return 2
        step = 2 * math.acos(1 - tolerance_in / radius)
        return max(1, math.ceil(math.radians(abs(segment.sweep_deg)) / step))
    if isinstance(segment, Line):
        return 1
    # A chord over a parameter step h is off by at most h^2 / 8 times the largest second derivative.
    (x0, y0), (x1, y1) = segment.start, segment.control1
    (x2, y2), (x3, y3) = segment.control2, segment.end
    bend = 6 * max(
        math.hypot(x0 - 2 * x1 + x2, y0 - 2 * y1 + y2),
        math.hypot(x1 - 2 * x2 + x3, y1 - 2 * y2 + y3),
    )
    return max(1, math.ceil(math.sqrt(bend / (8 * tolerance_in))))
