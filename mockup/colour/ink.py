"""Ink on coloured stock: what a picture drawn on white looks like printed on another paper.

Transparent ink multiplies the paper's reflectance; the surface adds a floor no ink goes under.
Worked in linear Rec. 2020, whose wide primaries behave more like spectral bands than sRGB's.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageFilter

from mockup.colour.srgb import Rgb, from_light, linear, to_light
from mockup.pixels import BAND_ROWS, Bytes

FLOOR = 0.003  # share of light the paper's surface returns through any ink; a judgement
_GRID = 33

# Linear sRGB to linear Rec. 2020, both D65 (ITU-R BT.2087-0, table 4).
_BT2087 = np.array(
    [[0.6274, 0.3293, 0.0433], [0.0691, 0.9195, 0.0114], [0.0164, 0.0880, 0.8956]], np.float64
)
_TO_WIDE = _BT2087 / _BT2087.sum(axis=1, keepdims=True)  # white stays white to the last digit
_FROM_WIDE = np.linalg.inv(_TO_WIDE)


def on_stock(picture: Bytes, stock: Rgb) -> Bytes:
    """Returns an opaque (h, w, 3) sRGB picture, drawn on white, as printed on a stock's colour.

    The multiplication of reflectances (transparent ink, any dot gain alike) with a surface floor;
    on strongly coloured paper expect the print to differ by 3 to 6 dE00. White stock changes
    nothing.
    """
    if stock == (255, 255, 255):
        return picture
    table = ImageFilter.Color3DLUT(_GRID, _table(stock).ravel().tolist())
    out = np.empty_like(picture)
    for top in range(0, len(picture), BAND_ROWS):
        band = Image.fromarray(picture[top : top + BAND_ROWS])
        out[top : top + BAND_ROWS] = np.asarray(band.filter(table))
    return out


def printed(ink: NDArray[np.float64], paper: NDArray[np.float64]) -> NDArray[np.float64]:
    """Returns linear sRGB of ink on paper from linear sRGB of the ink on white, and of the paper.

    Both (..., 3) float64; worked in linear Rec. 2020.
    """
    return on_paper(ink @ _TO_WIDE.T, np.ones(3), paper @ _TO_WIDE.T) @ _FROM_WIDE.T


def not_printed(light: NDArray[np.float64], paper: NDArray[np.float64]) -> NDArray[np.float64]:
    """Returns linear sRGB of the ink on white that gives a light on a paper, `printed` backwards.

    What lies outside 0 to 1 cannot be printed on it.
    """
    return on_paper(light @ _TO_WIDE.T, paper @ _TO_WIDE.T, np.ones(3)) @ _FROM_WIDE.T


def on_paper(
    ink: NDArray[np.float64], own: NDArray[np.float64], other: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Returns the light of ink on another paper than its own, all (..., 3) in linear Rec. 2020.

    R2 = f + (R1 - f)(P2 - f)/(P1 - f): exact for transparent ink of any dot gain, but for the
    floor, f, of light that the surface returns.
    """
    over, bare, beneath = (np.maximum(each, FLOOR) - FLOOR for each in (ink, other, own))
    return FLOOR + over * bare / np.maximum(beneath, FLOOR)


def _table(stock: Rgb) -> NDArray[np.float64]:
    grid = to_light(np.linspace(0, 1, _GRID))
    blue, green, red = np.meshgrid(grid, grid, grid, indexing="ij")
    light = printed(np.stack([red, green, blue], axis=-1), linear(stock).astype(np.float64))
    return from_light(np.clip(light, 0, 1))
