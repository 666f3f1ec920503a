"""Fibres on a tile: how much of it they cover, which way they lie, that it has no seam."""

from __future__ import annotations

import numpy as np
import pytest

from mockup.render.light.fibres import strewn
from mockup.render.light.scene import Fibres

KIND = Fibres(60, 0.1, 0.004, -0.2)


@pytest.mark.parametrize("ppi", [60, 150, 600])
def test_fibres_take_what_their_area_and_tone_say_at_any_resolution(ppi: int):
    side = 3 * ppi
    drawn = strewn(KIND, (side, side), ppi, 0.0, np.random.default_rng(3))
    # So many to the square inch, of the length, the width and 0.7 of the tone in the mean.
    assert drawn.mean() == pytest.approx(60 * 0.1 * 0.004 * -0.2 * 0.7, rel=0.1)
    assert drawn.max() <= 0


def test_pores_lie_along_the_sheet_and_turn_with_it():
    pores = Fibres(40, 0.2, 0.01, -0.4, spread_deg=3.0)
    lying, upright = (
        strewn(pores, (300, 300), 100, angle, np.random.default_rng(5)) for angle in (0.0, 90.0)
    )
    assert _rough(lying, 0) > 4 * _rough(lying, 1)
    assert _rough(upright, 1) > 4 * _rough(upright, 0)


def test_a_fibre_over_the_tiles_end_goes_on_at_the_other():
    long = Fibres(2, 2.0, 0.01, -0.4, spread_deg=1.0)
    drawn = strewn(long, (200, 200), 100, 0.0, np.random.default_rng(2))
    inside = np.abs(np.diff(drawn, axis=1)).max()
    assert np.abs(drawn[:, 0] - drawn[:, -1]).max() <= inside


def _rough(values: np.ndarray, axis: int) -> float:
    return float((np.diff(values, axis=axis) ** 2).mean())
