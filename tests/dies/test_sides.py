"""Straight parts of dies along their sides, against plane geometry."""

from __future__ import annotations

import pytest

from mockup.dies import make_die
from mockup.dies.sides import STRAIGHT_LEAST_IN, straight_sides, straight_spans
from mockup.geometry.outline import Shape, polygon_outline
from mockup.geometry.point import Point


def shape_of(family: str, **parameters: float) -> Shape:
    return make_die(family, 5.0, 7.0, parameters).shape


# Plane geometry: a half circle over 5 in springs 2.5 in below its crown.
@pytest.mark.parametrize(
    ("family", "parameters", "left", "top"),
    [
        ("rectangle", {}, [(0, 7)], [(0, 5)]),
        ("round-arch", {}, [(2.5, 7)], []),
        ("stadium", {}, [(2.5, 4.5)], []),
        ("chamfered-corner", {"cut": 0.5}, [(0.5, 6.5)], [(0.5, 4.5)]),
        ("ellipse", {}, [], []),
        ("gable", {"rise": 1.0}, [(1, 7)], []),
    ],
)
def test_sides_are_straight_where_geometry_says(
    family: str, parameters: dict[str, float], left: list, top: list
) -> None:
    shape = shape_of(family, **parameters)
    for side, expected in (("left", left), ("top", top)):
        found = straight_spans(shape, side)  # pyright: ignore[reportArgumentType]
        assert [pytest.approx(span, abs=1e-9) for span in found] == expected
    assert ("left" in straight_sides(shape)) == bool(left)


def test_a_side_in_many_lines_is_one_and_a_short_one_none() -> None:
    """As a template's drawn in short strokes is, and one with a notch in it."""
    xs = [0.0, 1.0, 1.5, 3.0, 3.0, 3.5, 3.5, 5.0]
    ys = [0.0, 0.0, 0.001, 0.0, 0.4, 0.4, 0.0, 0.0]
    points = [Point(x, y) for x, y in zip(xs, ys, strict=True)]
    shape = Shape(polygon_outline(*points, Point(5, 3), Point(0, 3)))
    assert straight_spans(shape, "top") == ((0, 3), (3.5, 5))
    stub = STRAIGHT_LEAST_IN - 0.01
    short = polygon_outline(Point(1, 0), Point(1 + stub, 0), Point(3, 2), Point(0, 2))
    assert straight_sides(Shape(short)) == ("bottom",)
