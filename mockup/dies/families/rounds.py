"""Cards round all over: ellipse, circle, stadium."""

from __future__ import annotations

from mockup.dies.family import Family
from mockup.errors import DieError
from mockup.geometry.outline import Outline, Shape, circle_arc, ellipse_arc, joined
from mockup.geometry.point import Point


def ellipse(width_in: float, height_in: float) -> Shape:
    """Returns the ellipse that touches all four sides; area pi W H / 4, perimeter 4 a E(m)."""
    centre = Point(width_in / 2, height_in / 2)
    return Shape(Outline((ellipse_arc(centre, width_in / 2, height_in / 2, 180, 360),)))


def circle(width_in: float, height_in: float) -> Shape:
    """Returns the circle in a square card; pi r^2, 2 pi r. Raises DieError on any other card."""
    _square("circle", "ellipse", width_in, height_in)
    return ellipse(width_in, height_in)


def stadium(width_in: float, height_in: float) -> Shape:
    """Returns a card whose short sides are half circles; pi r^2 + 2 r s, 2 pi r + 2 s."""
    radius = min(width_in, height_in) / 2
    if width_in >= height_in:
        first = circle_arc(Point(radius, radius), radius, 90, 180)
        second = circle_arc(Point(width_in - radius, radius), radius, 270, 180)
    else:
        first = circle_arc(Point(radius, radius), radius, 180, 180)
        second = circle_arc(Point(radius, height_in - radius), radius, 0, 180)
    return Shape(joined(first, second))


def _square(name: str, other: str, width_in: float, height_in: float) -> None:
    if abs(width_in - height_in) > 1e-6:
        side = min(width_in, height_in)
        raise DieError(
            f"a {name} needs a square card; cut it to {side:.6g} x {side:.6g} in, or use {other}"
        )


ELLIPSE = Family("ellipse", "an oval touching all four sides", "Apollonius", (), ellipse)
CIRCLE = Family("circle", "a disc; the card must be square", "Euclid", (), circle)
STADIUM = Family(
    "stadium",
    "a card with half circles for short sides",
    "two half circles and two lines",
    (),
    stadium,
)
