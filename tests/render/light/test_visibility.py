"""Shadows and occlusion against closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.render.light import hiding, lamps, visibility
from mockup.render.light.distance import signed_distance
from mockup.render.light.hiding import Caster
from mockup.render.light.lattice import lattice_over, pixels
from mockup.render.light.scene import Bow, LitScene, Plane, Window
from mockup.render.light.visibility import Receiver
from tests.quickly import quickly

GAP = 0.12
PPI = 66.7


def half_plane(angle_deg: float) -> np.ndarray:
    """A sheet that fills everything left of a line through (5, 5), turned."""
    turn = math.radians(angle_deg)
    matrix = np.array([[math.cos(turn), math.sin(turn)], [-math.sin(turn), math.cos(turn)]])
    return np.array([[-40, -40], [0, -40], [0, 40], [-40, 40]], float) @ matrix + 5


def blocked(
    scene: LitScene, angle_deg: float, away: np.ndarray, slab: tuple[float, float] = (0.0, 0.0)
) -> np.ndarray:
    """The share of every cell hidden at points `away` outside the line, times the weights.

    `slab` is how thick the sheet is and the radius of its upper edge.
    """
    caster = Caster(signed_distance((half_plane(angle_deg),), PPI), Plane(GAP), None, 1, *slab)
    turn = math.radians(angle_deg)
    x = (5 + away * math.cos(turn)).astype(np.float32)
    y = (5 + away * math.sin(turn)).astype(np.float32)
    cells = lamps.cells(scene, 0.0)
    # Every point beside every cell, as pairs of one point each.
    points, cell = (v.ravel() for v in np.indices((len(x), len(cells.b))))
    at = x[points][:, None], y[points][:, None], np.zeros((len(points), 1), np.float32)
    hit = hiding._blocked(*at, caster, cells, cell, 0.0)
    return hit.reshape(len(x), -1) @ cells.weights


@pytest.mark.parametrize("angle_deg", quickly([0, 17, 45, 130], lambda n: False))
def test_occlusion_beside_a_straight_edge(angle_deg: float):
    """(1 - d / sqrt(d^2 + g^2)) / 2: the cosine-weighted share of the hemisphere past a straight
    edge at gap g (form factor of a half-plane; Howell, Catalogue of Radiation View Factors)."""
    away = np.linspace(-0.25, 0.25, 41)
    expected = (1 - away / np.hypot(away, GAP)) / 2
    found = blocked(LitScene(10, 10, ()), angle_deg, away)[:, 3]
    assert np.abs(found - expected).max() < 0.02
    assert np.sqrt(((found - expected) ** 2).mean()) < 0.006


def test_penumbra_of_a_strip_light():
    """Similar triangles: a strip of angular slope extent ds casts a penumbra gap x ds wide."""
    width, far = 40.0, 60.0
    strip = Window(width, 0.5, far, 0.0, 90.0 - 1e-3)  # overhead, long across x, thin along y
    scene = LitScene(10, 10, (), window=strip)
    away = np.linspace(-0.1, 0.1, 401)
    hidden = blocked(scene, 0.0, away)[:, 0]
    expected = GAP * width / (far - GAP)
    low, high = (away[np.argmin(np.abs(hidden - v))] for v in (0.9, 0.1))
    # Between the tenths a strip's own falloff towards its ends bends the ramp by under a tenth.
    assert (high - low) / 0.8 == pytest.approx(expected, rel=0.08)
    assert away[np.argmin(np.abs(hidden - 0.5))] == pytest.approx(0, abs=0.002)


@pytest.mark.parametrize("angle_deg", quickly([0, 45, 90, 160, 250], lambda n: n % 3 == 1))
def test_shadow_edge_of_the_window(angle_deg: float):
    """The window summed over 80 x 120 sharp points, each shadow an exact straight edge."""
    scene = LitScene(10, 10, ())
    points, area = lamps.window_points(scene, 80, 120, 0)
    ray, angle = lamps.solid_angle(points, area, scene, np.array([5.0, 5.0, 0.0]))
    weight = angle * ray[:, 2] / (angle @ ray[:, 2])
    away = np.linspace(-0.45, 0.45, 61)
    turn = math.radians(angle_deg)
    run = ray[:, :2] / ray[:, 2:] @ np.array([math.cos(turn), math.sin(turn)])
    exact = ((away[:, None] + GAP * run) < 0) @ weight
    found = blocked(scene, angle_deg, away)[:, 0]
    assert np.sqrt(((found - exact) ** 2).mean()) < 0.02


SLAB = 0.03, 0.01
COT = 1 / math.tan(math.radians(27))
# A ray that runs COT per rise grazes a quarter round of radius b that much short of a sharp edge:
# it is as far from the round's centre as the round is wide (a tangent to a circle).
ROUNDED = SLAB[1] * (1 + COT - math.hypot(1, COT))


@pytest.mark.parametrize(
    ("azimuth_deg", "edge_in"),
    [(270, GAP * COT - ROUNDED), (90, -(GAP - SLAB[0]) * COT)],
    ids=["thrown by the rounded upper edge", "coming out at the lower edge"],
)
def test_a_sun_s_shadow_ends_where_a_slab_s_edges_say(azimuth_deg: float, edge_in: float):
    """Plane geometry: similar triangles, and the tangent to a circle."""
    sun = LitScene(10, 10, (), window=Window(0.4, 0.4, 200, azimuth_deg, 27))
    away = np.linspace(edge_in - 0.01, edge_in + 0.01, 201)
    hidden = blocked(sun, 0.0, away, SLAB)[:, 0]
    assert away[np.argmin(np.abs(hidden - 0.5))] == pytest.approx(edge_in, abs=0.001)


def field_under(casters: list[Caster], scene: LitScene) -> tuple[np.ndarray, Receiver]:
    receiver = Receiver(lattice_over((0, 0, 10, 10), 20, 0.1), Plane(), None, None)
    seen, jobs = visibility.seen(receiver, casters, lamps.cells(scene, 0.0))
    for job in jobs:
        job()
    return seen.field, receiver


def test_a_closed_box_of_layers_leaks_no_light():
    """Four overlapping sheets with no gap between them seen from below: nothing comes through."""
    scene = LitScene(10, 10, ())
    quarters = [(-30, -30, 5.5, 5.5), (4.5, -30, 40, 5.5), (-30, 4.5, 5.5, 40), (4.5, 4.5, 40, 40)]
    casters = [
        Caster(
            signed_distance((np.array([[a, b], [c, b], [c, d], [a, d]], float),), 20),
            Plane(0.02 + 0.002 * k),
            None,
            1.0,
        )
        for k, (a, b, c, d) in enumerate(quarters)
    ]
    # With the rule that hides what no camera sees put aside, all of it must be dark.
    receiver = Receiver(lattice_over((3, 3, 7, 7), 20, 0.1), Plane(), None, None)
    x, y = np.meshgrid(receiver.lattice.x_in(), receiver.lattice.y_in())
    above = [(caster, np.ones(len(x), bool)) for caster in casters]  # a row of nodes is a tile
    seen, _ = hiding.open_share(
        (x, y), receiver.height, above, lamps.cells(scene, 0.0), receiver.lattice.spacing_in
    )
    assert np.abs(seen[:, 0]).max() < 1e-5
    assert np.abs(seen[:, 3]).max() < 1e-5


def test_coarse_tiles_agree_with_fine_ones(monkeypatch: pytest.MonkeyPatch):
    """Nodes follow the gap: leaving some out changes nothing a camera could tell."""
    scene = LitScene(10, 10, ())
    ring = np.array([[2, 2], [7, 3], [6, 8], [2.5, 6]], float)
    caster = Caster(signed_distance((ring,), 20), Plane(0.9, -0.06, 0.02), None, 1.0)
    coarse, receiver = field_under([caster], scene)
    monkeypatch.setattr(visibility, "_NODES_PER_GAP", 1e6)
    fine, _ = field_under([caster], scene)
    inside = pixels(fine - coarse, receiver.lattice, (0, 200), (0, 200))
    assert np.abs(inside[[0, 3]]).mean() < 0.003
    assert np.percentile(np.abs(inside[[0, 3]]), 99.5) < 0.05


@settings(max_examples=25, deadline=None)
@given(
    left=st.floats(0.2, 9.0),
    top=st.floats(0.2, 9.0),
    gap=st.floats(0.003, 0.9),
    lean=st.floats(-0.05, 0.05),
    rise=st.sampled_from([0.0, 0.05]),
    slab=st.sampled_from([(0.0, 0.0), (0.03, 0.006)]),
)
def test_cells_settled_for_a_whole_tile_are_so_at_every_point(
    left: float, top: float, gap: float, lean: float, rise: float, slab: tuple[float, float]
) -> None:
    """A cell called hidden or seen from all of a tile agrees with the same cell point by point."""
    cells = lamps.cells(LitScene(10, 10, ()), 0.0)
    ring = np.array([[2, 2], [7, 3], [6, 8], [4.4, 5], [2.5, 6]], float)
    bow = Bow(4.5, 5.0, 30.0, 3.0, rise) if rise else None
    caster = Caster(signed_distance((ring,), 60), Plane(gap, lean, -lean / 2), bow, 1.0, *slab)
    spacing = caster.distance.lattice.spacing_in
    along = np.arange(8, dtype=np.float32) * np.float32(spacing)
    x, y = (
        v.reshape(1, -1) for v in np.meshgrid(along + np.float32(left), along + np.float32(top))
    )
    found, _ = hiding.open_share(
        (x, y), lambda x, y: x * 0, [(caster, np.ones(1, bool))], cells, spacing
    )
    x, y = hiding._pushed_out((x, y), [(caster, np.ones(1, bool))], spacing)
    pairs = np.zeros(len(cells.b), int)
    hit = hiding._blocked(
        x[pairs], y[pairs], x[pairs] * 0, caster, cells, np.arange(len(cells.b)), spacing
    )
    exact = np.array([1, 0, 0, 1], np.float32)[:, None] - cells.weights.T @ hit
    assert np.abs(found[0] - exact).max() < 1e-5
