"""Colours out of reach, against colour-science and the conditions' own measured patches."""

import warnings
from itertools import product

import numpy as np
import pytest
from skimage.color import deltaE_ciede2000

from mockup.colour.gamut import SEEN_DE00, beyond_press, beyond_screen
from mockup.colour.icc_reading import read_condition
from mockup.colour.lab import lab_of_xyz
from mockup.colour.press import COATED, UNCOATED

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import colour

D50 = np.array([0.34567, 0.35850])


def test_what_a_screen_cannot_show_is_what_another_program_clips() -> None:
    rng = np.random.default_rng(8)
    lab = np.column_stack([rng.uniform(10, 95, 400), *rng.uniform(-70, 70, (2, 400))])
    space = colour.RGB_COLOURSPACES["sRGB"]
    light = colour.XYZ_to_RGB(colour.Lab_to_XYZ(lab, D50), space, D50, "Bradford")
    back = colour.RGB_to_XYZ(np.clip(light, 0, 1), space, D50, "Bradford")
    told = deltaE_ciede2000(lab, colour.XYZ_to_Lab(back, D50))
    found = beyond_screen(lab)
    assert (found > SEEN_DE00).mean() > 0.1
    assert np.abs(found - told).max() < 0.25


def test_every_colour_of_the_screen_itself_is_shown() -> None:
    cube = np.array(list(product(range(0, 256, 51), repeat=3))) / 255
    xyz = colour.RGB_to_XYZ(
        cube, colour.RGB_COLOURSPACES["sRGB"], D50, "Bradford", apply_cctf_decoding=True
    )
    assert beyond_screen(lab_of_xyz(xyz)).max() < 0.5


def test_a_full_cyan_is_no_screens() -> None:
    """FOGRA39: L* 55, a* -37, b* -50 (ISO 12647-2:2004/Amd 1, table 2); an sRGB screen misses it."""
    assert beyond_screen(np.array([[55.0, -37.0, -50.0]]))[0] == pytest.approx(9.6, abs=0.5)
    table = read_condition(COATED.profile.read_bytes()).table
    cyan = lab_of_xyz(table[-1, 0, 0, 0][None])
    assert beyond_screen(cyan)[0] == pytest.approx(9.6, abs=0.5)


@pytest.mark.parametrize(("press", "share"), [(COATED, (0.33, 0.42)), (UNCOATED, (0.4, 0.75))])
def test_a_screens_brightest_are_no_presss(press, share) -> None:
    """A third of sRGB's cube and more; greys and what a press mixes easily come back."""
    cube = np.array(list(product(range(0, 256, 17), repeat=3)), np.uint8)
    off = beyond_press(cube, press.profile.read_bytes())
    assert share[0] < (off > 5).mean() < share[1]
    calm = np.array([(128, 128, 128), (255, 255, 255), (178, 120, 100), (110, 120, 90)], np.uint8)
    assert beyond_press(calm, press.profile.read_bytes()).max() < 5
    neon = np.array([(0, 0, 255), (0, 255, 0)], np.uint8)
    assert beyond_press(neon, press.profile.read_bytes()).min() > 10
