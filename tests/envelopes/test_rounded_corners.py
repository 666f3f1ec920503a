"""Rounded polygons and polygons with sides moved inward, against closed forms and shapely."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LinearRing, Polygon

from mockup.envelopes.corners import Corner, inset_sides, rounded
from mockup.geometry.measure import area, perimeter
from mockup.geometry.outline import Shape


def _rectangle(width, height, radius):
    places = [(0, 0), (width, 0), (width, height), (0, height)]
    return [Corner(x, y, radius) for x, y in places]


def test_rounded_rectangle_closed_form():
    # W H - (4 - pi) r^2 and 2 (W + H) - 8 r + 2 pi r, for 5 x 7 and r = 1/4.
    outline = rounded(_rectangle(5, 7, 0.25))
    assert area(Shape(outline)) == pytest.approx(34.94634954085, rel=1e-11)
    assert perimeter(outline) == pytest.approx(23.57079632679, rel=1e-11)


def test_an_inward_corner_is_filled():
    # An L of area 3 with its inward corner filled by r^2 (1 - pi / 4).
    el = [Corner(0, 0), Corner(1, 0), Corner(1, 1, 0.3), Corner(2, 1), Corner(2, 2), Corner(0, 2)]
    assert area(Shape(rounded(el))) == pytest.approx(3 + 0.09 * (1 - math.pi / 4))


def test_a_radius_too_large_becomes_the_largest_that_fits():
    # A 2 x 5 stadium: pi + 2 * 3.
    assert area(Shape(rounded(_rectangle(2, 5, 9)))) == pytest.approx(math.pi + 6)


@given(st.lists(st.floats(0.3, 1), min_size=4, max_size=9), st.floats(0.01, 0.3))
def test_equal_insets_agree_with_shapely(shares, distance):
    steps = [360 * share / sum(shares) for share in shares]
    turns = [math.radians(sum(steps[:k])) for k in range(len(steps))]
    corners = [Corner(2 * math.cos(turn), 2 * math.sin(turn)) for turn in turns]
    expected = Polygon([c[:2] for c in corners]).buffer(-distance, join_style="mitre")
    moved = Polygon([c[:2] for c in inset_sides(corners, [distance] * len(corners))])
    assert moved.symmetric_difference(expected, grid_size=1e-9).area < 1e-6


def test_sides_move_by_their_own_distance_and_radii_lessen():
    moved = inset_sides(_rectangle(5, 7, 0.5), [0.1, 0.2, 0.1, 0.2])
    assert LinearRing([c[:2] for c in moved]).bounds == pytest.approx((0.2, 0.1, 4.8, 6.9))
    assert [c.radius for c in moved] == pytest.approx([0.4] * 4)


def test_nothing_left_is_an_error():
    with pytest.raises(ValueError, match="no polygon is left"):
        inset_sides(_rectangle(1, 1, 0), [0.6] * 4)
