"""What a page of artwork prints with: its inks plate by plate, and how it looks on white."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.pixels import Bytes

Plate = NDArray[np.uint8]
"""(h, w) uint8: how much of one ink, 0 none to 255 full."""


@dataclass(frozen=True)
class Spot:
    """The plate of a named ink beside the process inks."""

    name: str
    plate: Plate


@dataclass(frozen=True)
class InkPlates:
    """The process inks, (h, w, 4) uint8 in the order C, M, Y, K, 255 a full ink; the spots."""

    process: NDArray[np.uint8]
    spots: tuple[Spot, ...] = ()


@dataclass(frozen=True)
class Plates:
    """A page drawn: `on_white` is its look on white paper, (h, w, 3) uint8 sRGB, by its own
    profiles and, where it has none, by a press that is assumed. `inks` are there when asked for."""

    on_white: Bytes
    inks: InkPlates | None = None
