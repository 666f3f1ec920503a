"""How far colours lie beyond what a screen shows, and beyond what a press prints."""

from __future__ import annotations

import io

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageCms

from mockup.colour.difference import difference
from mockup.colour.lab import SRGB_TO_XYZ, lab_of_xyz, xyz_of_lab
from mockup.colour.srgb import decode

Numbers = NDArray[np.float64]

SEEN_DE00 = 2.0  # common practice, no source: less is taken for the same colour
PRINTED_DE00 = 5.0  # judgement: what two presses of one condition may differ by is no loss
_TO_SRGB = np.linalg.inv(SRGB_TO_XYZ)
_FLAGS = ImageCms.Flags.BLACKPOINTCOMPENSATION | ImageCms.Flags.HIGHRESPRECALC


def beyond_screen(lab: Numbers) -> Numbers:
    """Returns CIEDE2000 between colours and the nearest an sRGB screen shows, channels clipped.

    (n, 3) CIELAB under D50 to (n,); nought for all that sRGB holds.
    """
    light = xyz_of_lab(lab) @ _TO_SRGB.T
    shown = lab_of_xyz(np.clip(light, 0, 1) @ SRGB_TO_XYZ.T)
    outside = ((light < 0) | (light > 1)).any(axis=1)
    return np.where(outside, difference(lab, shown), 0.0)


def beyond_press(colours: NDArray[np.uint8], profile: bytes) -> Numbers:
    """Returns CIEDE2000 between sRGB colours and how they come back from a press, (n, 3) to (n,).

    There and back through its profile, relative to the paper, black to black, as art is commonly
    converted. A profile's own gamut alarm is not asked: it flags 60 % of all colours.
    """
    press = ImageCms.ImageCmsProfile(io.BytesIO(profile))
    screen = ImageCms.createProfile("sRGB")
    intent = ImageCms.Intent.RELATIVE_COLORIMETRIC
    there = ImageCms.buildTransform(screen, press, "RGB", "CMYK", intent, _FLAGS)
    back = ImageCms.buildTransform(press, screen, "CMYK", "RGB", intent, _FLAGS)
    row = Image.fromarray(np.ascontiguousarray(colours)[None])
    inks = ImageCms.applyTransform(row, there)
    assert inks is not None  # it is only where a picture is changed in place
    printed = np.asarray(ImageCms.applyTransform(inks, back))[0]
    return difference(_lab(colours), _lab(printed))


def _lab(colours: NDArray[np.uint8]) -> Numbers:
    return lab_of_xyz(decode(colours).astype(np.float64) @ SRGB_TO_XYZ.T)
