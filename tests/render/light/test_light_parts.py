"""Distance, grain, resting, edges: each part on its own."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon

from mockup.render.light import grain, lattice
from mockup.render.light.distance import REACH_IN, sample, signed_distance
from mockup.render.light.edge import edge_light
from mockup.render.light.interface import interface
from mockup.render.light.scene import Band, Flat, Grain, Lines, LitScene, Material, Plane, Sheet
from mockup.render.light.settle import settle

WAVY = np.array(
    [
        (
            (2 + 0.3 * math.sin(5 * t)) * math.cos(t) + 3,
            (1.5 + 0.2 * math.cos(3 * t)) * math.sin(t) + 3,
        )
        for t in np.linspace(0, 2 * math.pi, 120, endpoint=False)
    ]
)


def test_distance_against_geos():
    """Signed distance to a wavy ring with a hole against GEOS's own."""
    hole = np.array([[2.6, 2.7], [3.3, 2.8], [3.0, 3.4]])
    shape = Polygon(WAVY, [hole])
    edges = [LineString([*ring, ring[0]]) for ring in (WAVY, hole)]
    found = signed_distance((WAVY, hole), 40)
    rng = np.random.default_rng(2)
    points = rng.uniform(0.5, 5.5, (400, 2)).astype(np.float32)
    values = sample(found, points[:, 0].copy(), points[:, 1].copy())
    for (x, y), value in zip(points, values, strict=True):
        point = Point(x, y)
        away = min(min(edge.distance(point) for edge in edges), REACH_IN)
        expected = away if shape.contains(point) else -away
        assert value == pytest.approx(expected, abs=0.012)  # bilinear on nodes 0.025 in apart


@pytest.mark.parametrize("ppi", [150, 300, 600])
def test_fields_come_back_to_pixels_exactly_where_linear(ppi: float):
    nodes = lattice.lattice_over((0.3, 0.2, 1.9, 1.1), ppi, 0.02)
    plane = 3 * nodes.x_in()[None, :] - 2 * nodes.y_in()[:, None]
    rows, columns = (int(0.2 * ppi), int(1.1 * ppi)), (int(0.3 * ppi), int(1.9 * ppi))
    found = lattice.pixels(plane, nodes, rows, columns)
    x, y = (np.arange(*columns) + 0.5) / ppi, (np.arange(*rows) + 0.5) / ppi
    assert np.abs(found - (3 * x[None] - 2 * y[:, None])).max() < 1e-5


@pytest.mark.parametrize("stretch", [1.0, 6.0])
def test_grain_has_the_slope_it_says(stretch: float):
    """Parseval: the variance of the tile is the integral of its spectral density."""
    kind = Grain((Band(4, 20, 0.05, stretch),), unevenness=0.0)
    tile = grain.noise(kind, (512, 512), 120, 30.0, 7)
    slope = math.sqrt(float((tile[0] ** 2 + tile[1] ** 2).mean()))
    assert slope == pytest.approx(0.05, rel=0.12)
    assert abs(tile[0].mean()) < 1e-4


def test_grain_fades_when_it_is_finer_than_a_pixel():
    kind = Grain((Band(40, 80, 0.05),))
    near, far = (grain.noise(kind, (256, 256), ppi, 0.0, 7)[0].std() for ppi in (400, 30))
    assert far < 0.15 * near


def test_grain_turns_with_the_sheet():
    """Laid lines run along the sheet: turned by a right angle, the slopes change places."""
    kind = Grain((Band(20, 24, 0.05, 20.0),), unevenness=0.0)
    flat, upright = (grain.noise(kind, (384, 384), 120, a, 7) for a in (0.0, 90.0))
    assert flat[1].std() > 5 * flat[0].std()
    assert upright[0].std() > 5 * upright[1].std()


def test_laid_lines_keep_their_pitch():
    """Zero crossings of the slope across the lines: twice per line, 22 lines an inch."""
    kind = Grain((Band(20, 26, 0.001),), unevenness=0.0, lines=(Lines(22.0, 0.05),))
    slope = grain.noise(kind, (480, 480), 120, 0.0, 7)[1][:, 240]
    crossings = int((np.diff(np.sign(slope)) != 0).sum())
    assert crossings / 2 / 4 == pytest.approx(22, abs=0.3)


def test_tiles_have_no_seam():
    tile = grain.tile(grain.GRAINS["cotton"], 60, 0.0, 1)
    across = np.abs(np.diff(tile.values[0], axis=1)).mean(axis=0)
    assert across[tile.side - 1] < 2 * np.median(across)


def sheet(ring: np.ndarray, thickness: float = 0.02) -> Sheet:
    return Sheet((ring,), Flat((255, 255, 255)), thickness_in=thickness, material=Material("none"))


def box(left: float, top: float, right: float, bottom: float) -> np.ndarray:
    return np.array([[left, top], [right, top], [right, bottom], [left, bottom]], float)


def test_a_card_on_the_table_lies_flat():
    (placed,) = settle([sheet(box(0, 0, 5, 7))])
    assert placed.plane.z0_in == pytest.approx(0, abs=1e-6)
    assert abs(placed.plane.gx) + abs(placed.plane.gy) < 1e-6


def test_a_card_on_another_lies_on_it():
    _, upper = settle([sheet(box(0, 0, 5, 7), 0.03), sheet(box(1, 1, 4, 6))])
    assert upper.plane.z0_in == pytest.approx(0.03, abs=1e-6)


def test_a_card_over_an_edge_leans_by_the_lever():
    """Rests on the other card's edge and on its own far side: slope = thickness / distance."""
    _, upper = settle([sheet(box(0, 0, 2, 7), 0.03), sheet(box(1, 1, 6, 5))])
    assert upper.plane.gx == pytest.approx(-0.03 / 4, rel=0.03)
    assert upper.plane.z0_in + upper.plane.gx * 6 == pytest.approx(0, abs=1e-4)


def test_a_lift_carries_what_lies_on_top():
    _, upper = settle([sheet(box(0, 0, 5, 7)), sheet(box(1, 1, 4, 6))], [0.2, 0.1])
    assert upper.plane.z0_in == pytest.approx(0.2 + 0.02 + 0.1, abs=1e-6)


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.tuples(st.floats(0, 6), st.floats(0, 6), st.floats(1, 4)), min_size=2, max_size=5)
)
def test_no_sheet_sinks_into_another(places: list[tuple[float, float, float]]):
    sheets = settle([sheet(box(x, y, x + s, y + 1.4 * s), 0.025) for x, y, s in places])
    for k, upper in enumerate(sheets):
        for lower in sheets[:k]:
            both = Polygon(upper.rings[0]).intersection(Polygon(lower.rings[0]))
            if both.area < 0.05:
                continue
            for x, y in np.asarray(both.exterior.coords):
                assert level(upper.plane, x, y) >= level(lower.plane, x, y) + 0.025 - 0.002


def level(plane: Plane, x: float, y: float) -> float:
    return plane.z0_in + plane.gx * x + plane.gy * y


def test_an_edge_towards_the_window_is_brighter_than_the_face():
    """A quarter round seen from above, its mean normal (1/2, pi/4): against a small lamp at 45
    degrees, facing it gives 1/2 + pi/4 of the flat face's light; facing away, the integral of
    sqrt(1 - u^2) - u up to where it is grazed, pi/8. Worked by hand."""
    from mockup.render.light.scene import Window

    scene = LitScene(4, 3, (), window=Window(0.5, 0.5, 60))
    found = edge_light(scene, interface(1.0, 0.4))
    turn = np.linspace(0, 360, len(found.direct))
    facing = np.interp(225, turn, found.direct)  # up and to the left, y down
    away = np.interp(45, turn, found.direct)
    assert facing == pytest.approx(0.5 + math.pi / 4, rel=0.01)
    assert away == pytest.approx(math.pi / 8, rel=0.02)
