"""What a page of artwork prints with: its inks plate by plate, and how it looks."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.colour.icc_reading import Condition
from mockup.colour.ink import on_stock
from mockup.colour.printing import printed
from mockup.colour.srgb import Rgb
from mockup.pixels import Bytes

Plate = NDArray[np.uint8]
"""(h, w) uint8: how much of one ink, 0 none to 255 full."""

_WHITE: Rgb = (255, 255, 255)


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
class Pressed:
    """A page as it goes to its press: (h, w, 4) uint8 of C, M, Y, K, 255 a full ink, spots and
    overprint worked in; the press's condition."""

    process: NDArray[np.uint8]
    condition: Condition


@dataclass(frozen=True)
class Plates:
    """A page drawn: for its press; or, where no plates are made of it as it stands, as RGB on
    white paper, (h, w, 3) uint8 sRGB, by its own profiles."""

    drawn: Bytes | Pressed

    @property
    def on_white(self) -> Bytes:
        """Its look on perfectly white paper, (h, w, 3) uint8 sRGB."""
        return self.on(_WHITE)

    def on(self, stock: Rgb) -> Bytes:
        """Returns its look on a stock's colour, (h, w, 3) uint8 sRGB."""
        if isinstance(self.drawn, Pressed):
            return printed(self.drawn.process, self.drawn.condition, stock)
        return on_stock(self.drawn, stock)
