"""Skins: metals mirror the window by the law of reflection and keep their light; gloss is clear."""

from dataclasses import replace

import numpy as np
import pytest

from mockup.render.light import light, metal
from mockup.render.light.finish import Coat, Skin
from mockup.render.light.mirror import ceiling, mirror, mirrored, room_light
from mockup.render.light.scene import Flat, LitScene, Material, Room, Sheet, Surface, Window
from mockup.render.light.tone import Lamps, camera_lamps

EVEN = Room(contrast=0, shade=0)
FAR = Window(width_in=2, height_in=2, distance_in=200, azimuth_deg=0, elevation_deg=45)
RING = np.array([[0.1, 0.1], [1.9, 0.1], [1.9, 1.4], [0.1, 1.4]])


def value(scene: LitScene, alpha: float, nx: float, ny: float, x: float, y: float):
    one = [np.full(1, v, np.float32) for v in (nx, ny, x, y)]
    glint, room = mirrored(mirror(scene, alpha), *one)
    return float(glint[0]), float(room[0])


def shown(skin: Skin | None, rgb=(60, 70, 120), room: Room = EVEN, grain: str = "none"):
    sheet = Sheet((RING,), Flat(rgb), material=Material(grain))
    if skin is not None:
        full = np.full((90, 120), 255, np.uint8)
        sheet = replace(sheet, coats=(Coat(full, 0, 0, skin),))
    return LitScene(2, 1.5, (sheet,), Surface("plaster"), room=room)


def middle(scene: LitScene) -> np.ndarray:
    return light(scene, 60)[35:55, 50:70].astype(float)


@pytest.mark.parametrize("alpha", [0.05, 0.1, 0.2])
def test_an_even_room_is_mirrored_whole(alpha: float) -> None:
    """A furnace: what loses nothing shows the light that is all round it."""
    seen = value(LitScene(4, 3, (), room=EVEN, window=FAR), alpha, 0.02, -0.03, 2, 1.5)
    assert sum(seen) == pytest.approx(1, abs=0.02)


def test_the_window_is_seen_half_way_to_it() -> None:
    """Law of reflection: straight up is mirrored to 45 deg by a face tilted 22.5 deg."""
    scene = LitScene(4, 3, (), window=FAR)
    tilts = np.radians(np.arange(0, 40, 0.5))
    ny = -np.tan(tilts).astype(np.float32)
    glints, _ = mirrored(mirror(scene, 0.05), 0 * ny, ny, 0 * ny + 2, 0 * ny + 1.5)
    assert np.degrees(tilts[int(np.argmax(glints))]) == pytest.approx(22.5, abs=1)


def test_a_large_window_fills_a_mirror() -> None:
    """In the middle of its image a smooth mirror shows the window's own radiance, less shadowing."""
    window = Window(width_in=120, height_in=120, distance_in=100, azimuth_deg=0, elevation_deg=45)
    seen = value(LitScene(4, 3, (), window=window), 0.05, 0, -float(np.tan(np.pi / 8)), 2, 1.5)[0]
    assert seen == pytest.approx(1, abs=0.05)


def test_elsewhere_on_the_table_the_window_is_seen_by_another_tilt() -> None:
    """As if the table were made anew with that place in its middle."""
    window = replace(FAR, distance_in=60)
    scene = LitScene(20, 15, (), window=window)
    ray = np.array([10.0, 7.5 - 60 * np.sqrt(0.5), 60 * np.sqrt(0.5)]) - [14, 7.5, 0]
    half = ray / np.linalg.norm(ray) + [0, 0, 1]
    nx, ny = half[:2] / half[2]
    there = value(scene, 0.05, nx, ny, 14, 7.5)[0]
    here = value(scene, 0.05, 0, -float(np.tan(np.pi / 8)), 10, 7.5)[0]
    assert there == pytest.approx(here, rel=0.15)


def test_the_room_lights_a_level_sheet_as_an_even_sky_does() -> None:
    """Checked by drawing ways at random, the window left out."""
    scene = LitScene(0, 0, (), window=replace(FAR, width_in=80, height_in=80, distance_in=80))
    rng = np.random.default_rng(1)
    r, phi = np.sqrt(rng.random(200000)), rng.random(200000) * 2 * np.pi
    way = np.column_stack([r * np.cos(phi), r * np.sin(phi), np.sqrt(1 - r * r)])
    toward = np.array([0, -np.sqrt(0.5), np.sqrt(0.5)])
    hit = way / np.maximum(way @ toward, 1e-9)[:, None] * 80
    up = np.array([0, np.sqrt(0.5), np.sqrt(0.5)])
    out = (np.abs(hit[:, 0]) > 40) | (np.abs(hit @ up) > 40) | (way @ toward <= 0)
    mean = room_light(scene, way[out], np.zeros(2)).mean()
    assert mean == pytest.approx(1, abs=0.01)


def test_foil_hides_the_ink_and_shows_its_metal() -> None:
    dark, pale = (middle(shown(metal.foil("gold"), rgb)) for rgb in ((20, 20, 20), (240, 230, 220)))
    assert np.array_equal(dark, pale)
    red, green, blue = dark.mean(axis=(0, 1))
    assert red > green + 8 and green > blue + 25


def test_smooth_silver_shows_the_room_in_its_own_reflectance() -> None:
    smooth = Skin((0.9, 0.9, 0.9), 0.02, 1.0)
    scene = shown(smooth)
    expected = 0.9 * ceiling(camera_lamps(scene))
    seen = middle(scene).mean(axis=(0, 1)) / 255
    linear = ((seen + 0.055) / 1.055) ** 2.4
    assert linear == pytest.approx(expected, rel=0.12)  # and a breath of the window


def test_foil_is_uneven_on_cotton_and_calm_on_smooth_board() -> None:
    cotton, smooth = (middle(shown(metal.foil("gold"), grain=g)) for g in ("cotton", "smooth"))
    assert cotton.std(axis=(0, 1)).mean() > 2 * smooth.std(axis=(0, 1)).mean()


def test_gloss_takes_the_veil_off_dark_ink() -> None:
    """Where the room is dark overhead, a black under varnish is deeper than the bare one."""
    bare = middle(shown(None, (35, 30, 30), Room(shade=1)))
    glossy = middle(shown(metal.GLOSS, (35, 30, 30), Room(shade=1)))
    assert glossy.mean() < bare.mean() - 3


def test_varnish_makes_colours_deeper_and_leaves_white() -> None:
    """Saunderson 1942: white paper loses little under a clear coat, middle tones the most."""
    dark = Room(shade=1)
    white, grey = (
        middle(shown(metal.GLOSS, rgb, dark)).mean() - middle(shown(None, rgb, dark)).mean()
        for rgb in ((250, 250, 250), (150, 150, 150))
    )
    assert grey < -8 and grey < white - 3


def test_a_coat_s_edge_is_a_mixture_by_its_plate() -> None:
    half = np.full((90, 120), 128, np.uint8)
    bare, gold = (middle(shown(s)).mean(axis=(0, 1)) for s in (None, metal.foil("gold")))
    scene = shown(metal.foil("gold"))
    coat = replace(scene.sheets[0].coats[0], plate=half)
    mixed = middle(replace(scene, sheets=(replace(scene.sheets[0], coats=(coat,)),)))
    mixed = mixed.mean(axis=(0, 1))
    assert np.abs(mixed - bare).max() > 10 and np.abs(mixed - gold).max() > 10
    between = (np.minimum(bare, gold) - 1, np.maximum(bare, gold) + 1)
    assert (mixed >= between[0]).all() and (mixed <= between[1]).all()


def test_an_unknown_metal_is_silver() -> None:
    assert metal.foil("moonlight") == metal.foil("silver")


def test_a_gilded_rim_is_of_its_metal_and_the_face_is_not() -> None:
    sheet = shown(None, (240, 240, 240)).sheets[0]
    rims = []
    for skin in (None, metal.foil("gold")):
        material = Material("none", bevel_in=0.05, edge_skin=skin)
        scene = replace(shown(None), sheets=(replace(sheet, material=material),))
        rims.append(light(scene, 60).astype(float))
    white, gold = rims
    lower = np.s_[82, 40:80]  # the rim below, turned from the window
    assert (gold[lower][:, 0] - gold[lower][:, 2]).mean() > 40
    assert np.abs(white - gold)[20:70, 20:100].max() == 0


def test_the_ceiling_is_as_bright_as_the_sky_and_half_way_to_the_window_s_colour() -> None:
    lamps = Lamps(np.array([9.0, 6.0, 4.0]), np.array([0.4, 0.6, 0.9]))
    red, green, blue = ceiling(lamps)
    assert 0.2126 * red + 0.7152 * green + 0.0722 * blue == pytest.approx(
        0.2126 * 0.4 + 0.7152 * 0.6 + 0.0722 * 0.9
    )
    assert red / blue == pytest.approx(1.0)
