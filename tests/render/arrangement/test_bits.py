"""Regions of cells against closed forms: areas, discs, moves."""

import math

import pytest

from mockup.render.arrangement.bits import block, grown, moved, rasterised, shrunk

STRIDE, ROWS = 120, 100
SQUARE = [(30.0, 30.0), (70.0, 30.0), (70.0, 60.0), (30.0, 60.0)]


def test_a_rectangle_on_cell_edges_is_counted_exactly() -> None:
    assert rasterised([SQUARE], STRIDE, ROWS).bit_count() == 40 * 30


def test_winding_and_starting_point_do_not_matter() -> None:
    turned = [*SQUARE[2:], *SQUARE[:2]][::-1]
    assert rasterised([turned], STRIDE, ROWS) == rasterised([SQUARE], STRIDE, ROWS)


def test_rings_are_united() -> None:
    other = [(x + 20, y) for x, y in SQUARE]
    assert rasterised([SQUARE, other], STRIDE, ROWS).bit_count() == 60 * 30


def test_a_circle_has_its_area() -> None:
    circle = [
        (60 + 40 * math.cos(math.tau * k / 400), 50 + 40 * math.sin(math.tau * k / 400))
        for k in range(400)
    ]
    cells = rasterised([circle], STRIDE, ROWS).bit_count()
    assert cells == pytest.approx(math.pi * 40**2, rel=0.005)


@pytest.mark.parametrize("radius", [1, 4.5, 12])
def test_a_grown_rectangle_has_the_area_of_its_parallel_body(radius: float) -> None:
    """Steiner's formula: area + perimeter r + pi r^2; cells count to within a part of the rim."""
    cells = grown(rasterised([SQUARE], STRIDE, ROWS), radius, STRIDE).bit_count()
    perimeter = 2 * (40 + 30)
    expected = 40 * 30 + perimeter * math.floor(radius) + math.pi * radius**2
    assert cells == pytest.approx(expected, abs=0.06 * perimeter + 8 * radius)


def test_a_shrunk_rectangle_loses_the_same_on_every_side() -> None:
    region = rasterised([SQUARE], STRIDE, ROWS)
    inner = [(35.0, 35.0), (65.0, 35.0), (65.0, 55.0), (35.0, 55.0)]
    assert shrunk(region, 5, STRIDE, ROWS) == rasterised([inner], STRIDE, ROWS)


def test_moving_is_drawing_elsewhere() -> None:
    elsewhere = [(x - 7, y + 11) for x, y in SQUARE]
    region = rasterised([SQUARE], STRIDE, ROWS)
    assert moved(region, -7, 11, STRIDE) == rasterised([elsewhere], STRIDE, ROWS)
    assert moved(moved(region, -7, 11, STRIDE), 7, -11, STRIDE) == region


@pytest.mark.parametrize(("columns", "rows"), [(1, 1), (7, 5), (120, 64), (33, 100)])
def test_a_block_is_a_rectangle_at_the_corner(columns: int, rows: int) -> None:
    corner = [(0.0, 0.0), (columns, 0.0), (columns, rows), (0.0, rows)]
    assert block(columns, rows, STRIDE) == rasterised([corner], STRIDE, ROWS)
