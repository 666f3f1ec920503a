"""White ink: how much of the paper it hides, and the paper as it looks beneath it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal, get_args

import numpy as np
from numpy.typing import NDArray

from mockup.colour.lab import WIDE_TO_XYZ, rgb_of_xyz, xyz_of_rgb
from mockup.colour.srgb import Rgb

WhiteRule = Literal["plate", "under-art", "art-as-white"]
"""Where white ink goes: where the art's white plate has it; beneath all of the art; in the place
of the art's own inks, as much of it as the heaviest of them."""

RULES: tuple[WhiteRule, ...] = get_args(WhiteRule)
HITS_MOST = 2

OPACITY = 0.55  # of one hit; judgement: makers for films tell 48 to 60 %, nobody measured on paper
_THICK = 0.90  # reflectance of white ink nothing is seen through; assumed
_BODY = 0.89  # TAPPI T 425: opacity is over black against over a white body of this reflectance
_XYZ_TO_WIDE = np.linalg.inv(WIDE_TO_XYZ)


@dataclass(frozen=True)
class WhiteInk:
    """Where white ink goes, and how often the sheet goes through the press for it."""

    rule: WhiteRule = "plate"
    hits: int = 1


BY_PLATE = WhiteInk()
"""Where nothing is said: the art's own white plate, if it has one, in one hit."""


def white_on(paper: Rgb, hits: int) -> Rgb:
    """Returns a paper under white ink.

    Kubelka and Munk's film of thickness X on a ground, in linear Rec. 2020; two hits are twice the
    thickness. Reflection at the surface and what the paper drinks are left out: likely optimistic.
    """
    ground = _XYZ_TO_WIDE @ xyz_of_rgb(paper)
    return rgb_of_xyz(WIDE_TO_XYZ @ over(ground, hits * scattering(OPACITY)))


def over(ground: NDArray[np.float64], scattered: float) -> NDArray[np.float64]:
    """Returns the reflectance of white ink over a ground's; `scattered` is S times X, of the film.

    R = (1 - Rg (a - b coth bSX)) / (a - Rg + b coth bSX), a = (1/Roo + Roo)/2, b = sqrt(a^2 - 1)
    (Kubelka 1948, "New contributions to the optics of intensely light-scattering materials").
    """
    a = (1 / _THICK + _THICK) / 2
    b = np.sqrt(a * a - 1)
    through = b / np.tanh(b * scattered)
    return (1 - ground * (a - through)) / (a - ground + through)


@lru_cache(maxsize=8)
def scattering(opacity: float) -> float:
    """Returns S times X of a film of white ink of an opacity, 0 to 1, by halving."""
    black, body = np.zeros(1), np.full(1, _BODY)
    least, most = 1e-6, 64.0
    for _ in range(60):
        middle = (least + most) / 2
        hidden = float((over(black, middle) / over(body, middle))[0])
        least, most = (middle, most) if hidden < opacity else (least, middle)
    return least
