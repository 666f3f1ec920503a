"""Cards round all over: ellipse, circle, superellipse, stadium."""

from __future__ import annotations

import math

from mockup.dies.family import Family, number
from mockup.dies.fit import MisfitError, within_number
from mockup.errors import Mistake
from mockup.geometry.affine import Affine, rotation
from mockup.geometry.fitting import Curve, fit
from mockup.geometry.outline import Outline, Segment, Shape, circle_arc, ellipse_arc, joined
from mockup.geometry.point import Point
from mockup.units import Unit, format_size

_SWAP = Affine(0, -1, -1, 0, 0, 0)  # the reflection that exchanges up and right


def ellipse(width_in: float, height_in: float) -> Shape:
    """Returns the ellipse that touches all four sides; area pi W H / 4, perimeter 4 a E(m)."""
    centre = Point(width_in / 2, height_in / 2)
    return Shape(Outline((ellipse_arc(centre, width_in / 2, height_in / 2, 180, 360),)))


def circle(width_in: float, height_in: float) -> Shape:
    """Returns the circle in a square card; pi r^2, 2 pi r. Raises MisfitError on any other card."""
    need_square("circle", "ellipse", width_in, height_in)
    return ellipse(width_in, height_in)


def superellipse(width_in: float, height_in: float, exponent: float) -> Shape:
    """Returns |x / a|^n + |y / b|^n = 1; area 4 a b G(1 + 1/n)^2 / G(1 + 2/n).

    Drawn with cubics at most 2e-8 of a half-axis off: area and perimeter to 1e-7.
    """
    within_number("exponent", exponent, 2, 12)
    octant = fit(_unit_superellipse(exponent), 0.0, 0.5 ** (1 / exponent))
    mirrored = [cubic.mapped(_SWAP).reversed() for cubic in reversed(octant)]
    a, b = width_in / 2, height_in / 2
    segments: list[Segment] = []
    for quarter in range(4):
        place = Affine(a, 0, 0, b, a, b) @ rotation(90 * quarter)
        segments += [cubic.mapped(place) for cubic in (*octant, *mirrored)]
    return Shape(Outline(tuple(segments)))


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


def need_square(name: str, other: str, width_in: float, height_in: float) -> None:
    """Refuses a card that is not square. Raises MisfitError naming a size and a die."""
    if abs(width_in - height_in) > 1e-6:
        side_in = min(width_in, height_in)

        def told(unit: Unit) -> Mistake:
            square = format_size(side_in, side_in, unit)
            return Mistake(f"a {name} needs a square card; cut it to {square}, or use {other}")

        raise MisfitError(told)


def _unit_superellipse(n: float) -> Curve:
    """Returns the top of |x|^n + |y|^n = 1, from (0, -1) rightward."""

    def at(x: float) -> tuple[Point, Point]:
        rest = 1 - x**n
        return Point(x, -(rest ** (1 / n))), Point(1, x ** (n - 1) * rest ** (1 / n - 1))

    def off(point: Point) -> float:
        x, y = abs(point.x), abs(point.y)
        slope = n * math.hypot(x ** (n - 1), y ** (n - 1))
        return (x**n + y**n - 1) / slope

    return Curve(at, off)


ELLIPSE = Family("ellipse", "an oval touching all four sides", "ellipse", (), ellipse)
CIRCLE = Family("circle", "a disc; the card must be square", "circle", (), circle)
SUPERELLIPSE = Family(
    "superellipse",
    "between an oval and a rectangle",
    "Lame's curve |x/a|^n + |y/b|^n = 1",
    (number("exponent", 2.5, "2 is the ellipse; higher is squarer"),),
    superellipse,
)
STADIUM = Family(
    "stadium",
    "half circles for short sides",
    "two half circles and two lines",
    (),
    stadium,
)
