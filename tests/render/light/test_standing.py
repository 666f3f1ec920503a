"""Panels that stand: what they hide against closed forms, what light falls on them by symmetry."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.render.light import hiding, lamps, light, standing, steep
from mockup.render.light.distance import signed_distance
from mockup.render.light.hiding import Caster
from mockup.render.light.interface import interface
from mockup.render.light.scene import Flat, LitScene, Plane, Sheet, Surface, Window

PPI = 30.0
SLOPES = st.floats(-3, 3)


@given(st.floats(-2, 2), st.floats(-2, 2), SLOPES, SLOPES, SLOPES)
def test_where_a_ray_meets_a_plane_is_on_both(
    x: float, y: float, gx: float, sx: float, sy: float
) -> None:
    top = Plane(0.5, gx, 0.4)
    at = tuple(np.array([v], np.float32) for v in (x, y, 0.0))
    slope = np.array([sx], np.float32), np.array([sy], np.float32)
    hit_x, hit_y, rise = (float(v[0]) for v in steep.met(at, slope, top))
    if hit_x > steep.FAR_IN / 2:  # it goes along the plane, or away from it
        over = 0.5 + gx * x + 0.4 * y
        lean = 1 - gx * sx - 0.4 * sy
        assert over * lean <= 0.01 or abs(lean) < 1e-3
        return
    if abs(1 - gx * sx - 0.4 * sy) > 0.01:
        assert hit_x == pytest.approx(x + rise * sx, abs=1e-3)
        assert rise == pytest.approx(0.5 + gx * hit_x + 0.4 * hit_y, rel=1e-3, abs=1e-2)


@pytest.mark.parametrize("angle_deg", [30, 45, 60])
@pytest.mark.parametrize("way", [1, -1])
def test_a_panel_hides_the_sky_above_its_own_plane(angle_deg: float, way: int) -> None:
    """(1 + cos a) / 2: what of the cosine-weighted hemisphere at a hinge lies above a half-plane
    that rises from it at an angle a (view factor of a wedge; Howell, Catalogue of Radiation View
    Factors). Before the hinge, where it leans over nothing, (1 - cos a) / 2."""
    steepness = math.tan(math.radians(angle_deg))
    ring = np.array([[5, -60], [80, -60], [80, 60], [5, 60]], float)
    caster = Caster(signed_distance((ring,), 2.0), Plane(-5 * steepness, steepness), None, 1)
    cells = lamps.cells(LitScene(10, 10, ()), 0.0)
    x = np.array([[5 + way * 0.01]], np.float32)
    zero = np.zeros_like(x)
    count = len(cells.b)
    at = [np.repeat(v, count, axis=0) for v in (x, zero, zero)]
    hit = hiding._blocked(at[0], at[1], at[2], caster, cells, np.arange(count), 0.0)
    hidden = float(hit[:, 0] @ cells.weights[:, 3])
    expected = (1 + way * math.cos(math.radians(angle_deg))) / 2
    assert hidden == pytest.approx(expected, abs=0.09)  # four rings of six cells


def test_cells_facing_up_are_the_cells_that_were() -> None:
    scene = LitScene(10, 10, ())
    one, other = lamps.cells(scene, 0.0), lamps.cells(scene, 0.0, steep.normal_of(Plane()))
    assert np.allclose(one.weights, other.weights)
    assert one.weights[:, 3].sum() == pytest.approx(1)
    tilted = lamps.cells(scene, 0.0, steep.normal_of(Plane(0, 1.0)))
    assert tilted.weights[:, 3].sum() == pytest.approx(1)
    assert (tilted.weights[:, 3] >= 0).all() and (tilted.weights[:, 3] == 0).any()


def lit(gx: float, azimuth_deg: float) -> float:
    """How light the middle of a white panel is that rises by gx to the right."""
    ring = np.array([[4, 3], [6, 3], [6, 7], [4, 7]], float)
    sheet = Sheet((ring,), Flat((230, 230, 230)), Plane(1.0 - 5 * gx + abs(gx), gx))
    window = Window(azimuth_deg=azimuth_deg)
    picture = light(LitScene(10, 10, (sheet,), Surface("plaster"), window), 12)
    return float(picture[55:65, 56:64].mean())


def test_a_face_turned_to_the_window_is_lighter_than_one_turned_away() -> None:
    """A panel that rises to the right faces left: the window stands there, or opposite."""
    toward, away = lit(0.9, 270), lit(0.9, 90)
    assert toward > away + 25
    assert lit(-0.9, 90) == pytest.approx(toward, abs=2)  # its mirror image


def test_just_past_lying_it_is_as_light_as_just_before() -> None:
    """The two ways of lighting a sheet agree where one takes over from the other."""
    assert lit(0.31, 270) == pytest.approx(lit(0.29, 270), abs=6)
    assert lit(0.31, 90) == pytest.approx(lit(0.29, 90), abs=6)


def test_the_table_before_a_panel_that_lies_askew_is_right_before_its_foot():
    """Plane geometry: within a third of its height, whichever way the panel is turned."""
    for turn in np.radians([0, 20, 45, 130]):
        ahead, side = (
            np.array([np.cos(turn), np.sin(turn)]),
            np.array([-np.sin(turn), np.cos(turn)]),
        )
        corners = [(0, -2), (1, -2), (1, 2), (0, 2)]
        ring = np.array([5 + a * ahead + b * side for a, b in corners])
        slope = -1.4 * ahead
        found = standing._before(Sheet((ring,), Flat((9, 9, 9)), Plane(9.0, *slope.tolist())))
        beyond = (found - 5) @ ahead - 1
        assert beyond.min() > 0
        assert beyond.max() < 1.4 / 3
        assert np.abs((found - 5) @ side).max() < 2


def test_light_from_the_table_comes_in_less_than_the_sky_s():
    """Fresnel 1823: what comes in aslant is mirrored more; a level face sees no table at all."""
    surface = interface(1.3, 0.42)
    assert 0.8 < standing._grazing(surface, np.cos(np.radians(60))) < 0.97
    # A wall sees as much of the table as of the sky, at the same angles.
    assert standing._grazing(surface, 0.0) == pytest.approx(1, abs=0.01)
