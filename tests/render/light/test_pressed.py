"""Pressed paper: walls true to size at any resolution, lit on the right side, shaded on the other."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.render.light import light
from mockup.render.light.finish import Press, plate_at
from mockup.render.light.interface import interface
from mockup.render.light.pressed import press_light, walls
from mockup.render.light.scene import Flat, LitScene, Material, Sheet, Surface, Window

SCENE = LitScene(2, 1.5, ())
RING = np.array([[0.1, 0.1], [1.9, 0.1], [1.9, 1.4], [0.1, 1.4]])


@cache
def disc(ppi: float, radius_in: float = 0.3, fold: int = 8) -> np.ndarray:
    height, width = round(1.5 * ppi), round(2 * ppi)
    y = ((np.arange(height * fold) + 0.5) / (fold * ppi) - 0.75)[:, None]
    x = (np.arange(width * fold) + 0.5) / (fold * ppi) - 1
    inside = (x**2 + y**2 < radius_in**2).astype(np.float32)
    return np.rint(inside.reshape(height, fold, width, fold).mean((1, 3)) * 255).astype(np.uint8)


def pressed_walls(ppi: float, press: Press):
    block = ((0, round(1.5 * ppi)), (0, round(2 * ppi)))
    found = walls(press_light(press, SCENE, interface(1.3, 0.42), ppi), block)
    assert found is not None
    return found


def picture(ppi: float, press: Press | None, window: Window = SCENE.window) -> np.ndarray:
    sheet = Sheet((RING,), Flat((200, 190, 180)), material=Material("none"))
    if press is not None:
        sheet = replace(sheet, presses=(press,))
    scene = LitScene(2, 1.5, (sheet,), Surface("plaster"), window)
    return light(scene, ppi).astype(float)


@pytest.mark.parametrize("ppi", [60, 100, 180])
def test_walls_cover_their_width_times_the_outline_s_length(ppi: float) -> None:
    """The area of a band along a circle is its width times 2 pi r, at any pixel size."""
    share = pressed_walls(ppi, Press(disc(ppi), 0, 0, 0.006, 0.004)).share
    assert share.sum() / ppi**2 == pytest.approx(0.004 * 2 * np.pi * 0.3, rel=0.04)


@pytest.mark.parametrize("depth_in", [0.006, -0.006])
def test_shade_covers_what_the_wall_s_height_throws(depth_in: float) -> None:
    """A straight wall of height h shades h s wide for a light at slope s, less half its width."""
    plate = np.zeros((60, 80), np.uint8)
    plate[:, 40:] = 255
    press = Press(plate, 0, 0, depth_in, 0.004)
    made = press_light(press, LitScene(2, 1.5, (), window=Window(azimuth_deg=270)), PAPER, 40.0)
    found = walls(made, ((20, 40), (0, 80)))
    assert found is not None
    slopes = -made.window.by_px[:, 1] / 40  # towards the window, at the left
    assert (slopes > 0).all()
    shaded = found.no_window.sum(axis=1).mean() / 40
    expected = 0.0 if depth_in < 0 else float(made.window.share @ slopes)
    assert shaded == pytest.approx(expected, abs=1e-4)
    assert found.no_sky.sum() > 0


PAPER = interface(1.3, 0.42)


def test_the_wall_that_faces_the_window_is_bright_and_the_other_dark() -> None:
    window = Window(azimuth_deg=270, elevation_deg=40)
    plain = picture(150, None, window)[..., 1]
    sunk = picture(150, Press(disc(150), 0, 0, 0.006, 0.004), window)[..., 1] - plain
    raised = picture(150, Press(disc(150), 0, 0, -0.006, 0.004), window)[..., 1] - plain
    y = round(0.75 * 150)
    left, right = np.s_[y, 102:109], np.s_[y, 192:199]
    assert sunk[left].min() < -15 and sunk[right].max() > 5
    assert raised[left].max() > 5 and raised[right].min() < -15
    assert np.abs(sunk[y, 130:170]).max() <= 1  # the floor lies in the open light


def test_shown_small_a_press_looks_as_shown_large_and_averaged() -> None:
    """Slopes are filtered, not heights: light is the same mean at a quarter of the resolution."""
    large, small = (
        picture(ppi, Press(disc(ppi), 0, 0, 0.006, 0.004)) - picture(ppi, None) for ppi in (240, 60)
    )
    folded = large.reshape(90, 4, 120, 4, 3).mean(axis=(1, 3))
    assert np.abs(small - folded).max() < 12
    assert abs(np.abs(small).sum() / np.abs(folded).sum() - 1) < 0.25


@settings(max_examples=8, deadline=None)
@given(st.integers(0, 12), st.integers(0, 12))
def test_a_plate_moved_by_whole_pixels_moves_its_walls(dy: int, dx: int) -> None:
    press = Press(disc(40)[:48, :64], 0, 0, 0.006, 0.004)
    made = press_light(press, SCENE, PAPER, 40)
    moved = replace(made, press=replace(press, top_px=dy, left_px=dx))
    first = walls(made, ((8, 40), (8, 56)))
    second = walls(moved, ((8 + dy, 40 + dy), (8 + dx, 56 + dx)))
    assert first is not None and second is not None
    assert np.array_equal(first.share, second.share)
    assert np.array_equal(first.no_window, second.no_window)


def test_blocks_join_without_a_seam() -> None:
    press = Press(disc(60), 0, 0, 0.006, 0.004)
    made = press_light(press, SCENE, PAPER, 60)
    whole = walls(made, ((0, 90), (0, 120)))
    left, right = walls(made, ((0, 90), (0, 61))), walls(made, ((0, 90), (61, 120)))
    assert whole is not None and left is not None and right is not None
    assert np.array_equal(whole.no_sky, np.hstack([left.no_sky, right.no_sky]))
    assert np.array_equal(whole.share, np.hstack([left.share, right.share]))


def test_outside_its_plate_nothing_is_pressed() -> None:
    press = Press(np.full((4, 4), 255, np.uint8), 10, 10, 0.006, 0.004)
    assert plate_at(press, (0, 8), (0, 8)) is None
    part = plate_at(press, (8, 14), (12, 20))
    assert part is not None and part[2:, :2].min() == 255 and part.sum() == 8 * 255


def test_a_press_without_depth_to_speak_of_changes_nothing() -> None:
    even = picture(60, Press(disc(60), 0, 0, 1e-6, 0.004)) - picture(60, None)
    assert np.abs(even).max() <= 1
