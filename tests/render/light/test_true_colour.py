"""Colours in the lit picture follow the proof's, under the scene's white."""

from pathlib import Path

import numpy as np
import pytest
from skimage.color import deltaE_ciede2000, rgb2lab

from mockup.colour.srgb import from_light, to_light
from mockup.render.light import light, plain
from mockup.render.light.scene import Flat, LitScene, Material, Sheet
from mockup.render.scenes import read_scene

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
