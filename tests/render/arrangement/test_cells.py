"""Regions of cells against closed forms: areas, directions, corners."""

import math

import numpy as np
import pytest

from mockup.render.arrangement.cells import corners, filled, sampled, spread, thinned

SHAPE = (100, 120)
SQUARE = np.array([(30.0, 30.0), (70.0, 30.0), (70.0, 60.0), (30.0, 60.0)])
CIRCLE = np.array(
    [
        (60 + 40 * math.cos(math.tau * k / 400), 50 + 40 * math.sin(math.tau * k / 400))
        for k in range(400)
    ]
)


def test_a_rectangle_on_cell_edges_is_counted_exactly() -> None:
    assert filled(SQUARE, SHAPE).sum() == 40 * 30


def test_winding_and_starting_point_do_not_matter() -> None:
    turned = np.roll(SQUARE, 2, axis=0)[::-1]
    assert (filled(turned, SHAPE) == filled(SQUARE, SHAPE)).all()


def test_a_circle_has_its_area() -> None:
    assert filled(CIRCLE, SHAPE).sum() == pytest.approx(math.pi * 40**2, rel=0.005)


def test_a_spread_rectangle_grows_on_every_side() -> None:
    assert spread(filled(SQUARE, SHAPE), 2).sum() == 44 * 34


def test_points_run_along_a_ring_with_the_directions_of_its_sides() -> None:
    points, directions = sampled(SQUARE, 0.5)
    assert len(points) == (40 + 30) * 2 / 0.5
    assert set(directions.tolist()) == {0.0, 90.0}
    around = np.roll(points, -1, axis=0) - points
    assert np.hypot(*around.T).max() == pytest.approx(0.5)


def test_a_square_has_four_corners_and_a_circle_none() -> None:
    assert len(corners(SQUARE, 30)) == 4
    assert len(corners(CIRCLE, 30)) == 0


def test_thinning_keeps_corners() -> None:
    near = np.insert(SQUARE, 1, (69.99, 30.0), axis=0)
    assert thinned(near, 0.04).tolist() == SQUARE.tolist()
    assert len(thinned(CIRCLE, 3.0)) < 100
