"""How different two colours look: CIEDE2000."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

_25_7 = 25.0**7


@dataclass(frozen=True)
class Terms:
    """CIEDE2000 taken apart, each (...): how much lighter, more colourful and turned in hue the
    second is, weighted (dL'/SL, dC'/SC, dH'/SH), and the term that ties the last two."""

    lightness: NDArray[np.float64]
    chroma: NDArray[np.float64]
    hue: NDArray[np.float64]
    tie: NDArray[np.float64]

    @property
    def total(self) -> NDArray[np.float64]:
        """CIEDE2000 (equation 22)."""
        squares = self.lightness**2 + self.chroma**2 + self.hue**2 + self.tie
        return np.sqrt(np.maximum(squares, 0))


def difference(first: NDArray[np.float64], second: NDArray[np.float64]) -> NDArray[np.float64]:
    """Returns CIEDE2000 between CIELAB colours, (..., 3) and (..., 3) to (...), kL = kC = kH = 1.

    Fitted to small differences; do not grade large ones by it. Source: Sharma, Wu, Dalal 2005,
    "The CIEDE2000 Color-Difference Formula", equations 2 to 22.
    """
    return terms(first, second).total


def terms(first: NDArray[np.float64], second: NDArray[np.float64]) -> Terms:
    """Returns the parts of CIEDE2000 from the first colours to the second; see `difference`."""
    lightness1, chroma1, hue1 = _primed(first, second)
    lightness2, chroma2, hue2 = _primed(second, first)
    grey = chroma1 * chroma2 == 0
    turn = (hue2 - hue1 + 180) % 360 - 180
    turn = np.where(turn == -180, 180, turn)  # half a turn, whose sign changes nothing but a term
    half = np.deg2rad(np.where(grey, 0, turn)) / 2
    d_hue = 2 * np.sqrt(chroma1 * chroma2) * np.sin(half)
    hue = np.where(grey, hue1 + hue2, _middle_hue(hue1, hue2))
    lightness, chroma = (lightness1 + lightness2) / 2, (chroma1 + chroma2) / 2
    off = (lightness - 50) ** 2
    of_l = (lightness2 - lightness1) / (1 + 0.015 * off / np.sqrt(20 + off))
    of_c = (chroma2 - chroma1) / (1 + 0.045 * chroma)
    of_h = d_hue / (1 + 0.015 * chroma * _hue_weight(hue))
    return Terms(of_l, of_c, of_h, _rotation(chroma, hue) * of_c * of_h)


def _primed(
    lab: NDArray[np.float64], other: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    """Returns L', C' and h' in degrees (equations 2 to 7)."""
    chroma = (np.hypot(lab[..., 1], lab[..., 2]) + np.hypot(other[..., 1], other[..., 2])) / 2
    a = lab[..., 1] * (1.5 - 0.5 * np.sqrt(chroma**7 / (chroma**7 + _25_7)))
    hue = np.rad2deg(np.arctan2(lab[..., 2], a)) % 360
    return lab[..., 0], np.hypot(a, lab[..., 2]), hue


def _middle_hue(hue1: NDArray[np.float64], hue2: NDArray[np.float64]) -> NDArray[np.float64]:
    """Returns the mean hue, degrees, on the shorter way round (equation 14)."""
    total = hue1 + hue2
    far = np.abs(hue1 - hue2) > 180
    return np.where(far, np.where(total < 360, total + 360, total - 360), total) / 2


def _hue_weight(hue: NDArray[np.float64]) -> NDArray[np.float64]:
    """Returns T (equation 15)."""
    terms = ((-0.17, 1, -30), (0.24, 2, 0), (0.32, 3, 6), (-0.20, 4, -63))
    weight = np.ones_like(hue)
    for share, times, by in terms:
        weight = weight + share * np.cos(np.deg2rad(times * hue + by))
    return weight


def _rotation(chroma: NDArray[np.float64], hue: NDArray[np.float64]) -> NDArray[np.float64]:
    """Returns the term that ties chroma to hue among the blues (equations 16, 17 and 21)."""
    angle = 60 * np.exp(-(((hue - 275) / 25) ** 2))
    weight = 2 * np.sqrt(chroma**7 / (chroma**7 + _25_7))
    return -weight * np.sin(np.deg2rad(angle))
