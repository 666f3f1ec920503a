"""A pen that gathers segments in inches, as PDF operators and SVG commands draw them."""

from __future__ import annotations

import math

from mockup.geometry.affine import Affine
from mockup.geometry.outline import Arc, Cubic, Line, Segment
from mockup.geometry.point import Point

_NOTHING = 1e-9


class PathPen:
    """Gathers runs of segments, each mapped into inches as it is drawn.

    A run is (segments, closed). Segments of no length are left out.
    """

    def __init__(self, affine: Affine) -> None:
        self.affine = affine
        self.runs: list[tuple[list[Segment], bool]] = []
        self.here = Point(0.0, 0.0)
        self._start = Point(0.0, 0.0)
        self._run: list[Segment] = []

    def move(self, to: Point) -> None:
        """Begins a new run."""
        self.end()
        self.here = self._start = to

    def line(self, to: Point) -> None:
        """Draws a straight segment."""
        if to != self.here:
            self._run.append(Line(self.here, to).mapped(self.affine))
        self.here = to

    def cubic(self, control1: Point, control2: Point, to: Point) -> None:
        """Draws a cubic."""
        if not (self.here == control1 == control2 == to):
            self._run.append(Cubic(self.here, control1, control2, to).mapped(self.affine))
        self.here = to

    def quadratic(self, control: Point, to: Point) -> None:
        """Draws a quadratic, raised to the cubic that is the same curve."""
        a, b = self.here, to
        self.cubic(
            Point(a.x + (control.x - a.x) * 2 / 3, a.y + (control.y - a.y) * 2 / 3),
            Point(b.x + (control.x - b.x) * 2 / 3, b.y + (control.y - b.y) * 2 / 3),
            to,
        )

    def arc(
        self, rx: float, ry: float, turn_deg: float, large: bool, sweep: bool, to: Point
    ) -> None:
        """Draws an elliptical arc given by its ends (SVG 1.1 appendix F.6.5), exactly."""
        here = self.here
        self.here = to
        rx, ry = abs(rx), abs(ry)
        if here == to:
            return
        if rx < _NOTHING or ry < _NOTHING:  # F.6.2: a straight line
            self._run.append(Line(here, to).mapped(self.affine))
            return
        arc = _arc_by_ends(here, rx, ry, turn_deg, large, sweep, to)
        self._run.append(arc.mapped(self.affine))

    def add(self, segment: Segment) -> None:
        """Draws a segment made elsewhere in the pen's own units."""
        self._run.append(segment.mapped(self.affine))
        self.here = segment.end

    def close(self) -> None:
        """Closes the run with a straight line where one is needed."""
        self.line(self._start)
        if self._run:
            self.runs.append((self._run, True))
            self._run = []
        self.here = self._start

    def end(self) -> None:
        """Leaves the run open."""
        if self._run:
            self.runs.append((self._run, False))
            self._run = []


def _arc_by_ends(
    start: Point, rx: float, ry: float, turn_deg: float, large: bool, sweep: bool, end: Point
) -> Arc:
    turn = math.radians(turn_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    # In the frame of the ellipse, half-way between the ends (F.6.5.1).
    dx, dy = (start.x - end.x) / 2, (start.y - end.y) / 2
    x, y = cos * dx + sin * dy, -sin * dx + cos * dy
    spread = (x / rx) ** 2 + (y / ry) ** 2
    if spread > 1:  # F.6.6: radii too small are grown until they reach
        rx, ry = rx * math.sqrt(spread), ry * math.sqrt(spread)
        spread = 1.0
    far = math.sqrt(max(0.0, 1 / spread - 1)) * (-1 if large == sweep else 1)
    cx, cy = far * rx * y / ry, -far * ry * x / rx
    centre = Point(
        cos * cx - sin * cy + (start.x + end.x) / 2, sin * cx + cos * cy + (start.y + end.y) / 2
    )
    first = math.degrees(math.atan2((y - cy) / ry, (x - cx) / rx))
    last = math.degrees(math.atan2((-y - cy) / ry, (-x - cx) / rx))
    swept = (last - first) % 360 if sweep else -((first - last) % 360)
    return Arc(centre, Point(rx * cos, rx * sin), Point(-ry * sin, ry * cos), first, swept)
