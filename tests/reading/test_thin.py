"""Openings by a disc: widths of lines at any angle, by plane geometry; corners are no lines."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import ndimage

from mockup.reading.thin import Mask, opened, thin_spots, wide_spots, width_px

ROW, COLUMN = np.mgrid[:160, :160]


def line(width: float, angle_deg: float) -> Mask:
    turn = np.radians(angle_deg)
    off = (ROW - 80) * np.cos(turn) - (COLUMN - 80) * np.sin(turn)
    return np.abs(off) < width / 2


@settings(max_examples=25, deadline=None)
@given(st.floats(4, 24), st.floats(0, 180))
def test_a_line_is_as_wide_as_it_was_drawn(width: float, angle_deg: float) -> None:
    found = width_px(line(width, angle_deg), 31)
    assert found is not None and abs(found - width) <= 2.1


@pytest.mark.parametrize("shape", ["square", "disc", "half"])
def test_what_is_wide_has_no_thin_line(shape: str) -> None:
    masks = {
        "square": (abs(ROW - 80) < 40) & (abs(COLUMN - 80) < 40),
        "disc": (ROW - 80) ** 2 + (COLUMN - 80) ** 2 < 40**2,
        "half": ROW < 70,
    }
    assert width_px(masks[shape], 31) is None
    assert width_px(~masks[shape], 31) is None


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 2**32 - 1), st.sampled_from([3, 5, 9]))
def test_opening_as_another_library_opens(seed: int, diameter: int) -> None:
    """SciPy's binary opening with the same disc, away from the picture's edge."""
    grown = ndimage.gaussian_filter(np.random.default_rng(seed).random((60, 60)), 2) > 0.5
    radius = diameter // 2
    y, x = np.mgrid[-radius : radius + 1, -radius : radius + 1]
    disc = np.hypot(x, y) <= radius + 0.25
    theirs = ndimage.binary_opening(grown, disc)
    inner = np.s_[2 * radius : -2 * radius, 2 * radius : -2 * radius]
    assert np.array_equal(opened(grown, diameter)[inner], theirs[inner])


def test_thin_places_are_where_they_are() -> None:
    mask = np.zeros((400, 400), bool)
    mask[100:200, 100:200] = True
    mask[303:306, 210:390] = True
    spots = thin_spots(mask, 5, 50)
    assert {(spot.row, spot.column) for spot in spots} == {
        (325.0, column) for column in (225.0, 275.0, 325.0, 375.0)
    }
    assert thin_spots(mask, 3, 50) == []
    assert thin_spots(mask, 5, 50, among=spots[:1]) == spots[:1]
    assert len(wide_spots(mask, 9, 50)) == 4
