"""Steep faces: the table of light by facing agrees with the level face's own light."""

import numpy as np
import pytest

from mockup.render.light import light
from mockup.render.light.interface import interface
from mockup.render.light.relief import faced, facing_light, relief_at
from mockup.render.light.scene import Flat, LitScene, Relief, Sheet, Surface, Window

WINDOW = Window(width_in=2, height_in=2, distance_in=200, azimuth_deg=0, elevation_deg=45)
SCENE = LitScene(4, 3, (), Surface("plaster"), WINDOW)


def value(nx: float, ny: float, ior: float = 1.45, alpha: float = 0.42) -> np.ndarray:
    table = facing_light(SCENE, interface(ior, alpha))
    return faced(table, np.full((1, 1), nx, np.float32), np.full((1, 1), ny, np.float32))[:, 0, 0]


def test_a_level_face_has_the_level_face_s_light() -> None:
    ratio, shine, sky = value(0, 0)
    assert (ratio, sky) == pytest.approx((1, 1), abs=2e-3)
    assert shine > 0


def test_a_face_turned_to_a_small_far_window_follows_lamberts_cosine() -> None:
    """Lambert's cosine law: facing a light at 45 deg gives sqrt 2 times the level face's."""
    turned = value(0, -1, 1.0001, 0.02)[0]  # without an interface to speak of
    assert turned == pytest.approx(np.sqrt(2), rel=0.01)
    assert value(0, 1)[0] == pytest.approx(0, abs=0.06)


def test_the_highlight_lies_half_way_to_the_window() -> None:
    """Law of reflection: straight up is mirrored to 45 deg by a face tilted 22.5 deg."""
    tilts = np.radians(np.arange(0, 61, 2.5))
    table = facing_light(SCENE, interface(1.45, 0.15))
    ny = -np.tan(tilts).astype(np.float32)[None]
    shine = faced(table, np.zeros_like(ny), ny)[1, 0]
    assert np.degrees(tilts[shine.argmax()]) == pytest.approx(22.5, abs=3)


def test_outside_its_place_a_relief_is_level_and_open() -> None:
    relief = Relief(np.full((3, 2, 2), 0.5, np.float32), 3, 1)
    block = relief_at(relief, (0, 4), (2, 6))
    assert block[:, 1:3, 1:3] == pytest.approx(0.5)
    assert block[:, 0] == pytest.approx(np.broadcast_to([[0.0], [0.0], [1.0]], (3, 4)))


def test_a_level_relief_changes_nothing_to_speak_of() -> None:
    ring = np.array([[0.5, 0.5], [3.5, 0.5], [3.5, 2.5], [0.5, 2.5]])
    level = np.zeros((3, 300, 400), np.float32)
    level[2] = 1
    plain = Sheet((ring,), Flat((200, 180, 160)))
    modelled = Sheet((ring,), Flat((200, 180, 160)), relief=Relief(level, 0, 0))
    pictures = [light(LitScene(4, 3, (sheet,)), 60).astype(int) for sheet in (plain, modelled)]
    assert np.abs(pictures[0] - pictures[1]).mean() < 1
