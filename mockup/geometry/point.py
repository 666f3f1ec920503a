"""A point of the plane, and a box around points."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple


class Point(NamedTuple):
    """A place or a direction; inches unless a name says otherwise."""

    x: float
    y: float


class Box(NamedTuple):
    """An upright rectangle: left, top, right, bottom; inches unless a name says otherwise."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From top to bottom."""
        return self.bottom - self.top

    @property
    def centre(self) -> Point:
        """The middle of the box."""
        return Point((self.left + self.right) / 2, (self.top + self.bottom) / 2)

    def moved(self, right: float, down: float) -> Box:
        """Returns the box so far to the right and down."""
        return Box(self.left + right, self.top + down, self.right + right, self.bottom + down)

    def grown(self, by: float) -> Box:
        """Returns the box with each side moved outward by `by`."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def margins_in(self, outer: Box) -> tuple[float, float, float, float]:
        """Returns how far each side lies inside another box's: left, top, right, bottom."""
        return (
            self.left - outer.left,
            self.top - outer.top,
            outer.right - self.right,
            outer.bottom - self.bottom,
        )

    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Returns the four corners, clockwise as seen from the top left."""
        return (
            Point(self.left, self.top),
            Point(self.right, self.top),
            Point(self.right, self.bottom),
            Point(self.left, self.bottom),
        )


def box_of(points: Iterable[Point]) -> Box:
    """Returns the smallest box around points. Raises ValueError when there are none."""
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def box_round(boxes: Iterable[Box]) -> Box:
    """Returns the smallest box round boxes. Raises ValueError when there are none."""
    lefts, tops, rights, bottoms = zip(*boxes, strict=True)
    return Box(min(lefts), min(tops), max(rights), max(bottoms))
