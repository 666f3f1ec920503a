"""Affine maps of the plane, in the six-number form PDF and SVG write (ISO 32000-1 8.3.3)."""

from __future__ import annotations

import math
from typing import NamedTuple

from mockup.geometry.point import Point


class Affine(NamedTuple):
    """The map x' = a x + c y + e, y' = b x + d y + f."""

    a: float
    b: float
    c: float
    d: float
    e: float
    f: float

    def __matmul__(self, other: Affine) -> Affine:
        """Returns the map that does `other` first and this one after it."""
        return Affine(
            self.a * other.a + self.c * other.b,
            self.b * other.a + self.d * other.b,
            self.a * other.c + self.c * other.d,
            self.b * other.c + self.d * other.d,
            self.a * other.e + self.c * other.f + self.e,
            self.b * other.e + self.d * other.f + self.f,
        )

    def point(self, point: Point) -> Point:
        """Returns the image of a point."""
        x, y = point
        return Point(self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f)

    def vector(self, vector: Point) -> Point:
        """Returns the image of a direction: the map without its translation."""
        x, y = vector
        return Point(self.a * x + self.c * y, self.b * x + self.d * y)

    @property
    def determinant(self) -> float:
        """The factor by which areas grow; negative where the map mirrors."""
        return self.a * self.d - self.b * self.c

    def inverse(self) -> Affine:
        """Returns the map that undoes this one. Raises ZeroDivisionError where there is none."""
        det = self.determinant
        a, b, c, d = self.d / det, -self.b / det, -self.c / det, self.a / det
        return Affine(a, b, c, d, -(a * self.e + c * self.f), -(b * self.e + d * self.f))


IDENTITY = Affine(1, 0, 0, 1, 0, 0)
ORIGIN = Point(0.0, 0.0)


def translation(dx: float, dy: float) -> Affine:
    """Returns the map that moves by (dx, dy)."""
    return Affine(1, 0, 0, 1, dx, dy)


def scaling(sx: float, sy: float | None = None) -> Affine:
    """Returns the map that scales about the origin."""
    return Affine(sx, 0, 0, sx if sy is None else sy, 0, 0)


def rotation(angle_deg: float, centre: Point = ORIGIN) -> Affine:
    """Returns the rotation about `centre` by `angle_deg`, clockwise positive as seen (y down)."""
    quarter = angle_deg / 90
    if quarter == round(quarter):  # quarter turns stay exact
        cos, sin = ((1, 0), (0, 1), (-1, 0), (0, -1))[round(quarter) % 4]
    else:
        cos, sin = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))
    turn = Affine(cos, sin, -sin, cos, 0, 0)
    return translation(*centre) @ turn @ translation(-centre[0], -centre[1])
