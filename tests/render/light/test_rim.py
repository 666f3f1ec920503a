"""The part of a narrow wall inside a coat's outline: plane geometry of a straight edge."""

from __future__ import annotations

import numpy as np
import pytest

from mockup.render.light import metal
from mockup.render.light.finish import Coat, Press
from mockup.render.light.pressed import FACINGS
from mockup.render.light.rim import rim, rim_light

PPI = 100.0


def edge(part: float) -> np.ndarray:
    """A plate whose left outline covers `part` of column 4, and all of the columns after it."""
    plate = np.zeros((9, 12), np.uint8)
    plate[:, 4] = round(255 * part)
    plate[:, 5:] = 255
    return plate


def steepness(nx: np.ndarray, ny: np.ndarray) -> np.ndarray:
    return np.hypot(nx, ny)[None]


@pytest.mark.parametrize("part", [0.04, 0.2, 0.5, 0.9, 1.0])
@pytest.mark.parametrize("flank_in", [0.003, 0.01])
@pytest.mark.parametrize("depth_in", [0.002, -0.01])
def test_half_a_wall_is_inside_wherever_the_outline_falls(
    part: float, flank_in: float, depth_in: float
):
    """And its light, summed over pixels, is the half's own: here the mean of half a sine."""
    plate = edge(part)
    found = rim(Press(plate, 0, 0, depth_in, flank_in), PPI, steepness)
    assert found is not None
    row = 4 * 12 + np.flatnonzero(plate[4])  # down to the right: a pressed wall faces that way
    facing = np.full(len(row), 0.0 if depth_in > 0 else FACINGS / 2, np.float32)
    coat = Coat(plate, 0, 0, metal.foil("gold"))
    share, light = rim_light(found, coat, ((0, 9), (0, 12)), row, facing)
    covers = plate[4][plate[4] > 0] / 255
    assert (share * covers).sum() * 2 == pytest.approx(flank_in * PPI, abs=0.002)
    mean = (light[0] * share * covers).sum() / (share * covers).sum()
    assert mean == pytest.approx(abs(depth_in) / flank_in, rel=0.01)


def test_an_outline_s_own_pixel_shows_the_steepest_of_the_wall():
    """A cosine's slope is pi / 2 of its mean half way down, and nothing at its foot."""
    plate = edge(0.05)
    found = rim(Press(plate, 0, 0, 0.01, 0.01), PPI, steepness)
    assert found is not None
    at = 4 * 12 + np.array([4, 5])
    coat = Coat(plate, 0, 0, metal.foil("gold"))
    _, light = rim_light(found, coat, ((0, 9), (0, 12)), at, np.zeros(2, np.float32))
    assert light[0, 0] == pytest.approx(np.pi / 2, rel=0.02)
    assert light[0, 1] < 1


def test_a_wide_wall_has_no_rim_of_its_own():
    assert rim(Press(edge(0.5), 0, 0, 0.01, 0.03), PPI, steepness) is None
