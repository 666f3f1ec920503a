"""What makes a near miss look meant: the colour lighter, or darker, as it can be printed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from mockup.colour.beside import APART_LIGHTNESS, Lab
from mockup.colour.difference import difference
from mockup.colour.ink import not_printed, printed
from mockup.colour.lab import SRGB_TO_XYZ, lab_of_xyz, rgb_of_xyz, xyz_of_lab
from mockup.colour.printed_lab import Printing
from mockup.colour.srgb import Rgb, from_light, linear

Numbers = NDArray[np.float64]

# All of these are judgements.
PRINTABLE_DE00 = 1.0  # there and back no further off than this: whole per cents cost half of it
INK_MOST = 3.0  # all four together; under the limit of 3.2 that checks hold to
LIGHTEST, DARKEST = 96.0, 5.0  # L* of the whitest paper and the blackest ink there are
_CHROMAS = np.linspace(1.0, 0.0, 21)  # how much of the chroma is kept, tried from all to none
_STEPS = 12  # of the search; it rests after four or five
_KEEPS = (3.0, 0.3)  # how the inks one had are held on to, in CIELAB for a full ink: first, last


@dataclass(frozen=True)
class Shift:
    """A colour moved in lightness, its hue held: CIELAB as printed, how it looks on a screen, what
    is written in the art for it (inks in whole per cent, or an sRGB colour), how far it is from
    what it was (CIEDE2000), and the share of its chroma it could keep."""

    lab: Lab
    on_screen: Rgb
    inks: tuple[int, int, int, int] | None
    art: Rgb | None
    difference: float
    chroma_kept: float


@dataclass(frozen=True)
class Mended:
    """A colour's smallest shifts that look meant; None where that way nothing can be printed. And
    the L* an envelope could have instead: lighter, darker."""

    lighter: Shift | None
    darker: Shift | None
    envelope_lighter: float | None
    envelope_darker: float | None


Made = Callable[[Numbers], tuple[Numbers, Shift | None]]
"""From a colour wanted to the nearest that can be printed, and what it is written as."""


def mended_in_ink(colour: Lab, beside: Lab, printing: Printing, inks: tuple[float, ...]) -> Mended:
    """Returns the shifts of a colour printed in process inks, which are shares 0 to 1; as few of
    them are changed as it takes."""
    own = np.array(inks, np.float64)

    def made(wanted: Numbers) -> tuple[Numbers, Shift | None]:
        found = _whole(printing, wanted, _searched(printing, wanted, own))
        lab = printing.lab(found[None] / 100)[0]
        cyan, magenta, yellow, black = (int(each) for each in found)
        return lab, _shift(lab, (cyan, magenta, yellow, black), None)

    return _mended(colour, beside, made)


def mended_in_rgb(colour: Lab, beside: Lab, stock: Rgb) -> Mended:
    """Returns the shifts of a colour that the art has in sRGB, printed on a stock."""
    paper = linear(stock).astype(np.float64)
    to_srgb = np.linalg.inv(SRGB_TO_XYZ)

    def made(wanted: Numbers) -> tuple[Numbers, Shift | None]:
        light = not_printed(to_srgb @ xyz_of_lab(wanted), paper)
        red, green, blue = (int(value) for value in np.rint(255 * from_light(np.clip(light, 0, 1))))
        art = (red, green, blue)
        again = printed(linear(art).astype(np.float64), paper)
        lab = lab_of_xyz(SRGB_TO_XYZ @ again)
        return lab, _shift(lab, None, art)

    return _mended(colour, beside, made)


def _mended(colour: Lab, beside: Lab, made: Made) -> Mended:
    lighter = _shifted(colour, beside[0] + APART_LIGHTNESS, 1, made)
    darker = _shifted(colour, beside[0] - APART_LIGHTNESS, -1, made)
    up, down = colour[0] + APART_LIGHTNESS, colour[0] - APART_LIGHTNESS
    return Mended(
        lighter,
        darker,
        up if up <= LIGHTEST else None,
        down if down >= DARKEST else None,
    )


def _shifted(colour: Lab, lightness: float, way: int, made: Made) -> Shift | None:
    """Returns a colour at a lightness, or a little beyond where rounding needs that, with as much
    of its chroma as can be printed; None where even a grey cannot."""
    if not DARKEST <= lightness <= LIGHTEST:
        return None
    original = np.array(colour, np.float64)
    for kept in _CHROMAS:
        for further in (0.0, 0.25, 0.5, 0.75):
            wanted = np.array([lightness + way * further, *(original[1:] * kept)])
            lab, shift = made(wanted)
            off = float(difference(lab, wanted))
            if off > PRINTABLE_DE00:
                break
            if shift is not None and way * (lab[0] - lightness) >= -0.005:
                return _told(shift, float(difference(lab, original)), float(kept))
    return None


def _shift(lab: Numbers, inks: tuple[int, int, int, int] | None, art: Rgb | None) -> Shift:
    lightness, a, b = (float(value) for value in lab)
    return Shift((lightness, a, b), rgb_of_xyz(xyz_of_lab(lab)), inks, art, 0.0, 1.0)


def _told(shift: Shift, difference_de00: float, kept: float) -> Shift:
    return Shift(shift.lab, shift.on_screen, shift.inks, shift.art, difference_de00, kept)


def _searched(printing: Printing, wanted: Numbers, own: Numbers) -> Numbers:
    """Returns inks, shares 0 to 1, that print a colour as nearly as they can: those one had, moved
    by least squares (Gauss and Newton's steps, damped), the hold on them loosened at the end."""
    inks = own.copy()
    for keep in _KEEPS:
        for _ in range(_STEPS):
            ahead = np.vstack([inks, inks + 0.02 * np.eye(4) * np.where(inks > 0.9, -1, 1)])
            labs = printing.lab(ahead)
            slopes = (labs[1:] - labs[0]).T / np.where(inks > 0.9, -0.02, 0.02)
            matrix = np.vstack([slopes, keep * np.eye(4)])
            rest = np.concatenate([wanted - labs[0], keep * (own - inks)])
            free = ~(((inks <= 0) & (matrix.T @ rest < 0)) | ((inks >= 1) & (matrix.T @ rest > 0)))
            step = np.zeros(4)
            step[free] = np.linalg.lstsq(matrix[:, free], rest, rcond=None)[0]
            moved = _within(inks + np.clip(step, -0.2, 0.2))
            if np.abs(moved - inks).max() < 1e-3:
                break
            inks = moved
    return inks


def _within(inks: Numbers) -> Numbers:
    """Returns inks between none and full, and together at most what paper takes."""
    cut = np.clip(inks, 0, 1)
    total = cut.sum()
    return cut * INK_MOST / total if total > INK_MOST else cut


def _whole(printing: Printing, wanted: Numbers, inks: Numbers) -> Numbers:
    """Returns whole per cents near to inks, those that print a colour most nearly."""
    base = np.rint(inks * 100)
    near = np.clip(base + np.array(list(product((-1, 0, 1), repeat=4))), 0, 100)
    near = near[near.sum(axis=1) <= INK_MOST * 100]
    apart = difference(printing.lab(near / 100), wanted)
    changed = np.abs(near - inks * 100).sum(axis=1)
    return near[int(np.argmin(apart + 0.02 * changed))]
