"""Exact coverage against closed forms and against shapely's own areas."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon, box

from mockup.dies.making import make_die
from mockup.geometry.flatten import rings
from mockup.pixels import View, view_around
from mockup.render.coverage import coverage


def ring_of(polygon: Polygon) -> np.ndarray:
    return np.asarray(polygon.exterior.coords)[:-1]


def test_a_square_covers_the_share_of_each_pixel_it_lies_in() -> None:
    square = np.array([[0.05, 0.05], [0.15, 0.05], [0.15, 0.10], [0.05, 0.10]])
    expected = [[0.25, 0.25], [0.0, 0.0]]
    assert coverage([square], View(0, 0, 2, 2, 10)) == pytest.approx(np.array(expected))


@given(
    st.lists(
        st.tuples(st.floats(-0.3, 1.3), st.floats(-0.3, 1.3)), min_size=3, max_size=9, unique=True
    )
)
@settings(max_examples=60, deadline=None)
def test_every_pixel_of_a_simple_polygon_holds_its_share(points: list[tuple[float, float]]) -> None:
    # The general-purpose reference: shapely (GEOS) intersects the polygon with each pixel square.
    # It goes astray where numbers lie at the end of what a float can hold, so none do.
    polygon = Polygon([(round(x, 9), round(y, 9)) for x, y in points]).convex_hull
    if not isinstance(polygon, Polygon) or polygon.area < 1e-6:
        return
    view = View(0, 0, 7, 5, 7)
    expected = [
        [
            polygon.intersection(box(i / 7, j / 7, (i + 1) / 7, (j + 1) / 7)).area * 49
            for i in range(7)
        ]
        for j in range(5)
    ]
    assert coverage([ring_of(polygon)], view) == pytest.approx(np.array(expected), abs=2e-6)


def test_either_winding_and_any_ring_order_give_the_same() -> None:
    outer = ring_of(box(0, 0, 1, 1))
    hole = ring_of(box(0.25, 0.25, 0.5, 0.75))
    view = View(0, 0, 16, 16, 16)
    first = coverage([outer, hole], view)
    assert np.array_equal(first, coverage([outer[::-1], hole], view))
    assert first.sum() == pytest.approx((1 - 0.125) * 256)


def test_coverage_sums_to_area_times_resolution_squared() -> None:
    angles = np.linspace(0, 2 * math.pi, 721)[:-1]
    circle = np.column_stack([2 + np.cos(angles) * 1.37, 2 + np.sin(angles) * 1.37])
    polygon_area = Polygon(circle).area
    total = coverage([circle], view_around((0, 0, 4, 4), 150)).sum(dtype=np.float64)
    assert total / 150**2 == pytest.approx(polygon_area, rel=1e-6)


def test_a_shape_moved_by_a_whole_pixel_gives_the_same_pixels_moved() -> None:
    # On a binary fraction of an inch the move itself is exact.
    triangle = np.array([[0.5, 0.5], [2.25, 0.75], [1.0, 2.0]])
    view = View(0, 0, 200, 200, 64)
    moved = coverage([triangle + np.array([1 / 64, 2 / 64])], view)
    assert np.array_equal(moved[2:, 1:], coverage([triangle], view)[:-2, :-1])


def test_shapes_wider_than_the_view_fill_it() -> None:
    everything = ring_of(box(-5, -5, 5, 5))
    assert coverage([everything], View(0, 0, 8, 8, 4)).min() == 1.0
    assert coverage([everything + 20], View(0, 0, 8, 8, 4)).max() == 0.0


def test_bands_of_rows_make_up_the_whole() -> None:
    """Coverage of a view in bands, as posters are cut, is that of the view at once."""
    die = make_die("lancet-arch", 3, 4)
    view = view_around(die.shape.box, 200, 0.03)
    outline = rings(die.shape, 1e-4)
    whole = coverage(outline, view)
    bands = [coverage(outline, part) for _, part in view.bands(97)]
    assert np.abs(np.concatenate(bands) - whole).max() < 1e-6
