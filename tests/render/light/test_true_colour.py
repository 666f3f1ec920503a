"""Colours in the lit picture follow the proof's, under the scene's white."""

from pathlib import Path

import numpy as np
import pytest
from skimage.color import deltaE_ciede2000, rgb2lab

from mockup.colour.srgb import from_light, to_light
from mockup.render.light import light, plain
from mockup.render.light.scene import Flat, LitScene, Material, Sheet
from mockup.render.light.tone import camera_lamps
from mockup.render.scenes import read_scene, scene_names

PPI = 40
WHITE, BLACK = (255, 255, 255), (0, 0, 0)
PRINTABLE = (
    (241, 232, 214), (128, 128, 128), (34, 56, 90), (168, 71, 42), (143, 160, 156), (60, 60, 60),
    (200, 30, 40), (20, 110, 60), (230, 180, 60),
)  # fmt: skip
COLOURS = (WHITE, *PRINTABLE, BLACK)


def swatches(scene_name: str) -> tuple[np.ndarray, np.ndarray]:
    """Returns the colours of swatches on a table, lit and plain, (n, 3) sRGB relative to white."""
    scene = read_scene(scene_name, Path())
    sheets: list[Sheet] = []
    spots: list[tuple[slice, slice]] = []
    for k, colour in enumerate(COLOURS):
        x, y = 4 + 1.2 * (k % 4), 3 + 1.2 * (k // 4)
        ring = np.array([[x, y], [x + 1, y], [x + 1, y + 1], [x, y + 1]])
        sheets.append(Sheet((ring,), Flat(colour), material=Material(grain="smooth")))
        rows, columns = ((v + 0.3, v + 0.7) for v in (y, x))
        spots.append(tuple(slice(round(a * PPI), round(b * PPI)) for a, b in (rows, columns)))
    table = LitScene(12, 9, tuple(sheets), scene.surface, scene.window, scene.sky)
    lit, flat = (
        np.array([to_light(picture[spot] / 255.0).mean(axis=(0, 1)) for spot in spots])
        for picture in (light(table, PPI), plain(table, PPI))
    )
    return from_light(lit / lit[0]), from_light(flat / flat[0])


@pytest.mark.parametrize("name", ["limewash", "slate"])
def test_printable_colours_are_those_of_the_proof(name: str) -> None:
    """CIEDE2000 (Sharma, Wu, Dalal 2005, by scikit-image) is at most 3.5.

    ISO 12647-2:2013 lets the solids of an OK print differ by 3.5 to 5 from their aims.
    """
    lit, flat = (rgb2lab(colours[None])[0] for colours in swatches(name))
    assert deltaE_ciede2000(lit, flat)[: len(PRINTABLE) + 1].max() < 3.5


def test_black_is_no_darker_than_the_blackest_print() -> None:
    # ISO 12647-2 solids on coated paper, white backing: black is L* 16.
    lit, _ = swatches("limewash")
    assert rgb2lab(lit[None, None, -1])[0, 0, 0] == pytest.approx(16, abs=1.5)


def on_a_table(scene_name: str, width_in: float, rgb: tuple[int, int, int]) -> np.ndarray:
    """Returns the Lab of a card in the middle of a table, as it comes out lit."""
    scene = read_scene(scene_name, Path())
    x, y = width_in / 2, width_in / scene.aspect / 2
    ring = np.array([[x - 1, y - 1], [x + 1, y - 1], [x + 1, y + 1], [x - 1, y + 1]])
    card = Sheet((ring,), Flat(rgb), material=Material(grain="smooth"))
    table = LitScene(2 * x, 2 * y, (card,), scene.surface, scene.window, scene.sky)
    picture = light(table, PPI)
    half = PPI // 2
    rows, columns = round(y * PPI), round(x * PPI)
    middle = picture[rows - half : rows + half, columns - half : columns + half]
    return rgb2lab(from_light(to_light(middle / 255.0).mean(axis=(0, 1)))[None, None])[0, 0]


@pytest.mark.parametrize("name", scene_names())
@pytest.mark.parametrize(
    ("rgb", "proofed", "shown"),
    [
        ((128, 128, 128), 53.6, 53.6),  # below the bend of the highlights: its proof's own value
        ((174, 144, 111), 61.7, 61.7),  # kraft, the suite's brightest paper or not
        ((245, 244, 240), 96.1, 95.8),  # white paper: the highlights bend by a third of a unit
        ((255, 255, 255), 100.0, 97.8),  # no paper is; it keeps below white, to show its grain
    ],
)
def test_a_card_in_the_middle_has_its_proofs_lightness(name, rgb, proofed, shown):
    """L* of the lit card against L* of the proof's pixels, both by scikit-image."""
    assert rgb2lab(np.array([[rgb]]) / 255.0)[0, 0, 0] == pytest.approx(proofed, abs=0.1)
    lit = on_a_table(name, 12, rgb)
    assert lit[0] == pytest.approx(shown, abs=0.6)
    flat = rgb2lab(np.array([[rgb]]) / 255.0)[0, 0]
    assert np.abs(lit[1:] - flat[1:]).max() < 1.2  # neutral stays neutral: the scene's white


def test_black_stock_stays_black_and_near_black():
    """A meter for the light that falls reads the same whatever lies there."""
    lit = on_a_table("limewash", 12, (44, 44, 44))
    assert lit[0] == pytest.approx(rgb2lab(np.array([[(44, 44, 44)]]) / 255.0)[0, 0, 0], abs=4)


@pytest.mark.parametrize("name", scene_names())
def test_one_exposure_for_every_picture_of_a_scene(name: str):
    """On a wide table, a narrow one, and one with nothing on it, to the last digit but rounding."""
    scene = read_scene(name, Path())

    def lamps(width: float, height: float) -> np.ndarray:
        found = camera_lamps(LitScene(width, height, (), scene.surface, scene.window, scene.sky))
        return np.concatenate([found.window, found.sky])

    first = lamps(20, 15)
    for size in ((3.5, 2.3), (30, 16.9), (9, 16)):
        assert np.allclose(lamps(*size), first, rtol=1e-5)


def test_flat_light_shows_a_card_in_its_proofs_own_bytes():
    scene = read_scene("limewash", Path())
    for rgb in (WHITE, (245, 244, 240), (128, 128, 128), (44, 44, 44)):
        ring = np.array([[1, 1], [3, 1], [3, 2], [1, 2]], float)
        table = LitScene(4, 3, (Sheet((ring,), Flat(rgb)),), scene.surface, scene.window, scene.sky)
        assert (plain(table, PPI)[60, 80] == rgb).all()
