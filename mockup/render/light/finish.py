"""What a sheet bears beside its ink: where it is pressed or raised, and what is laid over it.

Plates are (h, w) uint8, 255 full, at the output's own resolution, placed by pixel as art is.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Rgb = tuple[float, float, float]


@dataclass(frozen=True)
class Press:
    """A plate's mark in the paper: `depth_in` below its face, or above it where negative.

    The wall between face and floor is `flank_in` wide; the paper's grain loses the share `irons`
    of its relief where it is pressed.
    """

    plate: NDArray[np.uint8]
    left_px: int
    top_px: int
    depth_in: float
    flank_in: float
    irons: float = 0.0


@dataclass(frozen=True)
class Skin:
    """A smooth surface: what it mirrors, how sharply, and what is seen beneath it.

    `mirrors` is the share of light sent back straight on, linear sRGB; `roughness` the GGX alpha;
    `irons` how much of the paper's relief is gone under it. A metal has no body (`body` None); a
    pigment's `body` is its linear reflectance; a `clear` skin shows what it lies on.
    """

    mirrors: Rgb
    roughness: float
    irons: float
    body: Rgb | None = None
    clear: bool = False


@dataclass(frozen=True)
class Coat:
    """A skin where its plate lies."""

    plate: NDArray[np.uint8]
    left_px: int
    top_px: int
    skin: Skin


def plate_at(
    placed: Press | Coat, rows: tuple[int, int], columns: tuple[int, int]
) -> NDArray[np.uint8] | None:
    """Returns a plate over a block of picture pixels, nought outside its own; None if all is."""
    height, width = placed.plate.shape
    top, left = placed.top_px, placed.left_px
    y0, y1 = max(rows[0], top), min(rows[1], top + height)
    x0, x1 = max(columns[0], left), min(columns[1], left + width)
    if y0 >= y1 or x0 >= x1:
        return None
    part = placed.plate[y0 - top : y1 - top, x0 - left : x1 - left]
    if not part.any():
        return None
    if part.shape == (rows[1] - rows[0], columns[1] - columns[0]):
        return part
    out = np.zeros((rows[1] - rows[0], columns[1] - columns[0]), np.uint8)
    out[y0 - rows[0] : y1 - rows[0], x0 - columns[0] : x1 - columns[0]] = part
    return out
