"""CIELAB, XYZ and sRGB under D50 against colour-science."""

import warnings

import numpy as np

from mockup.colour.lab import (
    SRGB_TO_XYZ,
    WIDE_TO_XYZ,
    lab_of_xyz,
    rgb_of_xyz,
    xyz_of_lab,
    xyz_of_rgb,
)

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import colour

D50_XY = colour.XYZ_to_xy(np.array([0.9642, 1.0, 0.8249]))


def test_lab_of_random_colours() -> None:
    xyz = np.random.default_rng(1).uniform(0, 1, (5000, 3))
    xyz[:500] *= 0.01  # the straight part of the curve
    theirs = colour.XYZ_to_Lab(xyz, D50_XY)
    assert np.abs(lab_of_xyz(xyz) - theirs).max() < 0.001
    assert np.abs(xyz_of_lab(lab_of_xyz(xyz)) - xyz).max() < 1e-12


def test_screens_seen_from_print() -> None:
    """Bradford's adaptation from D65 to the light of ICC profiles."""
    for name, ours in (("sRGB", SRGB_TO_XYZ), ("ITU-R BT.2020", WIDE_TO_XYZ)):
        space = colour.RGB_COLOURSPACES[name]
        to_xyz = np.asarray(space.matrix_RGB_to_XYZ)
        adapt = colour.adaptation.matrix_chromatic_adaptation_VonKries(
            to_xyz.sum(axis=1), np.array([0.9642, 1.0, 0.8249]), "Bradford"
        )
        assert np.abs(ours - adapt @ to_xyz).max() < 2e-4


def test_a_screen_colour_comes_back() -> None:
    for each in ((0, 0, 0), (255, 255, 255), (245, 244, 240), (31, 51, 80), (200, 30, 90)):
        assert rgb_of_xyz(xyz_of_rgb(each)) == each
