"""How much light paper and ink throw back in red and in green, as postal meters ask.

Estimated from colour: linear Rec. 2020 red stands for 600 nm (95 % of some 4,000 paper and ink
spectra within 0.026, the worst 0.11 off), its green for 530 to 550 nm (within 0.04). Real papers
are rougher than those spectra: within ALMOST of a limit a meter has to be asked.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from mockup.colour.icc_reading import Condition
from mockup.colour.lab import WIDE_TO_XYZ, xyz_of_rgb
from mockup.colour.printing import table_on
from mockup.colour.srgb import Rgb
from mockup.colour.white_ink import white_on

ALMOST = 0.05
_TO_WIDE = np.linalg.inv(WIDE_TO_XYZ)


class Reflectance(NamedTuple):
    """Shares of light thrown back in red, in green, and by the eye's sensitivity (Y of XYZ)."""

    red: float
    green: float
    luminance: float


def of_paper(colour: Rgb) -> Reflectance:
    """Returns the reflectance of paper of a colour."""
    return _of(xyz_of_rgb(colour))


def of_black(condition: Condition, colour: Rgb) -> Reflectance:
    """Returns the reflectance of a press's full black on paper of a colour."""
    return _of(table_on(condition, colour)[0, 0, 0, -1])


def of_white_ink(colour: Rgb) -> Reflectance:
    """Returns the reflectance of one hit of white ink on paper of a colour."""
    return of_paper(white_on(colour, 1))


def _of(xyz: NDArray[np.float64]) -> Reflectance:
    red, green, _ = np.clip(_TO_WIDE @ xyz, 0, 1)
    return Reflectance(float(red), float(green), float(xyz[1]))
