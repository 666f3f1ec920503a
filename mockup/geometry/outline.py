"""Outlines: closed paths of lines, elliptical arcs and cubics, exact until a pen draws them."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from mockup.geometry.affine import Affine
from mockup.geometry.point import Box, Point, box_of

CLOSED_WITHIN_IN = 1e-7


@dataclass(frozen=True)
class Line:
    """A straight segment."""

    start: Point
    end: Point

    def at(self, t: float) -> Point:
        """Returns the point at parameter `t`, 0 to 1."""
        (x0, y0), (x1, y1) = self.start, self.end
        return Point(x0 + (x1 - x0) * t, y0 + (y1 - y0) * t)

    def mapped(self, affine: Affine) -> Line:
        """Returns the image under an affine map."""
        return Line(affine.point(self.start), affine.point(self.end))

    def reversed(self) -> Line:
        """Returns the same segment drawn the other way."""
        return Line(self.end, self.start)

    def extremes(self) -> list[Point]:
        """Returns points among which the segment's box corners are found."""
        return [self.start, self.end]


@dataclass(frozen=True)
class Arc:
    """An elliptical arc: centre + u cos t + v sin t, t from `start_deg` on by `sweep_deg`.

    u and v are conjugate half-axes, so that any affine image of an arc is an arc again.
    With u = (r, 0), v = (0, r) angles run clockwise as seen, from three o'clock.
    """

    centre: Point
    u: Point
    v: Point
    start_deg: float
    sweep_deg: float

    def at_angle(self, angle_deg: float) -> Point:
        """Returns the point at an angle of the arc's own ellipse."""
        quarter = angle_deg / 90
        if quarter == round(quarter):  # quarter points stay exact, so arcs meet lines exactly
            cos, sin = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[round(quarter) % 4]
        else:
            cos, sin = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))
        return Point(
            self.centre.x + self.u.x * cos + self.v.x * sin,
            self.centre.y + self.u.y * cos + self.v.y * sin,
        )

    def at(self, t: float) -> Point:
        """Returns the point at parameter `t`, 0 to 1."""
        return self.at_angle(self.start_deg + self.sweep_deg * t)

    @property
    def start(self) -> Point:
        """Where the arc begins."""
        return self.at(0)

    @property
    def end(self) -> Point:
        """Where the arc ends."""
        return self.at(1)

    def mapped(self, affine: Affine) -> Arc:
        """Returns the image under an affine map."""
        return Arc(
            affine.point(self.centre),
            affine.vector(self.u),
            affine.vector(self.v),
            self.start_deg,
            self.sweep_deg,
        )

    def reversed(self) -> Arc:
        """Returns the same arc drawn the other way."""
        return Arc(self.centre, self.u, self.v, self.start_deg + self.sweep_deg, -self.sweep_deg)

    def extremes(self) -> list[Point]:
        """Returns points among which the segment's box corners are found."""
        found = [self.start, self.end]
        low, high = sorted((self.start_deg, self.start_deg + self.sweep_deg))
        for a, b in ((self.u.x, self.v.x), (self.u.y, self.v.y)):
            still = math.degrees(math.atan2(b, a))  # where the derivative of this axis is nought
            first = math.ceil((low - still) / 180)
            last = math.floor((high - still) / 180)
            found += [self.at_angle(still + 180 * k) for k in range(first, last + 1)]
        return found


@dataclass(frozen=True)
class Cubic:
    """A cubic Bezier segment with two control points."""

    start: Point
    control1: Point
    control2: Point
    end: Point

    def at(self, t: float) -> Point:
        """Returns the point at parameter `t`, 0 to 1."""
        s = 1 - t
        weights = (s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t)
        points = (self.start, self.control1, self.control2, self.end)
        return Point(
            sum(w * p.x for w, p in zip(weights, points, strict=True)),
            sum(w * p.y for w, p in zip(weights, points, strict=True)),
        )

    def mapped(self, affine: Affine) -> Cubic:
        """Returns the image under an affine map."""
        return Cubic(
            affine.point(self.start),
            affine.point(self.control1),
            affine.point(self.control2),
            affine.point(self.end),
        )

    def reversed(self) -> Cubic:
        """Returns the same curve drawn the other way."""
        return Cubic(self.end, self.control2, self.control1, self.start)

    def extremes(self) -> list[Point]:
        """Returns points among which the segment's box corners are found."""
        found = [self.start, self.end]
        for p0, p1, p2, p3 in zip(self.start, self.control1, self.control2, self.end, strict=True):
            a, b, c = -p0 + 3 * p1 - 3 * p2 + p3, 2 * (p0 - 2 * p1 + p2), p1 - p0
            found += [self.at(t) for t in _roots(a, b, c) if 0 < t < 1]
        return found


Segment = Line | Arc | Cubic


@dataclass(frozen=True)
class Outline:
    """One closed path. Drawn clockwise as seen by the families of this project."""

    segments: tuple[Segment, ...]

    def __post_init__(self) -> None:
        if not self.segments:
            raise ValueError("an outline needs segments")
        following = (*self.segments[1:], self.segments[0])
        for segment, after in zip(self.segments, following, strict=True):
            if math.dist(segment.end, after.start) > CLOSED_WITHIN_IN:
                raise ValueError(f"outline is open at {segment.end}, goes on at {after.start}")

    def mapped(self, affine: Affine) -> Outline:
        """Returns the image under an affine map."""
        return Outline(tuple(segment.mapped(affine) for segment in self.segments))

    def reversed(self) -> Outline:
        """Returns the same outline drawn the other way round."""
        return Outline(tuple(segment.reversed() for segment in reversed(self.segments)))

    @property
    def box(self) -> Box:
        """The smallest box around the outline, exact."""
        return box_of(point for segment in self.segments for point in segment.extremes())


@dataclass(frozen=True)
class Shape:
    """What a die cuts: an outer outline, and holes wholly inside it."""

    outer: Outline
    holes: tuple[Outline, ...] = field(default=())

    def mapped(self, affine: Affine) -> Shape:
        """Returns the image under an affine map."""
        return Shape(self.outer.mapped(affine), tuple(hole.mapped(affine) for hole in self.holes))

    @property
    def outlines(self) -> tuple[Outline, ...]:
        """The outer outline, then the holes."""
        return (self.outer, *self.holes)

    @property
    def box(self) -> Box:
        """The smallest box around the shape, exact."""
        return self.outer.box


def circle_arc(centre: Point, radius: float, start_deg: float, sweep_deg: float) -> Arc:
    """Returns a circular arc; angles clockwise positive as seen, from three o'clock."""
    return ellipse_arc(centre, radius, radius, start_deg, sweep_deg)


def ellipse_arc(centre: Point, rx: float, ry: float, start_deg: float, sweep_deg: float) -> Arc:
    """Returns an arc of an upright ellipse with half-axes `rx` and `ry`."""
    return Arc(Point(*centre), Point(rx, 0.0), Point(0.0, ry), start_deg, sweep_deg)


def polygon_outline(*points: tuple[float, float]) -> Outline:
    """Returns the closed outline through corner points."""
    corners = [Point(*point) for point in points]
    ends = [*corners[1:], corners[0]]
    return Outline(tuple(Line(a, b) for a, b in zip(corners, ends, strict=True) if a != b))


def joined(*segments: Segment) -> Outline:
    """Returns the outline through segments, with straight lines where one ends off the next."""
    closed: list[Segment] = []
    following = (*segments[1:], segments[0])
    for segment, after in zip(segments, following, strict=True):
        closed.append(segment)
        if math.dist(segment.end, after.start) > CLOSED_WITHIN_IN:
            closed.append(Line(segment.end, after.start))
    return Outline(tuple(closed))


def _roots(a: float, b: float, c: float) -> list[float]:
    """Returns the real roots of a t^2 + b t + c, in the form that does not cancel."""
    if abs(a) < 1e-12:
        return [-c / b] if abs(b) > 1e-12 else []
    under = b * b - 4 * a * c
    if under < 0:
        return []
    q = -(b + math.copysign(math.sqrt(under), b)) / 2
    return [q / a] + ([c / q] if q else [])
