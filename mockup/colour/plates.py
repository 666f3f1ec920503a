"""What a page of artwork prints with: its inks plate by plate, and how it looks."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.colour.icc_reading import Condition
from mockup.colour.ink import on_stock
from mockup.colour.printing import printed
from mockup.colour.srgb import Rgb, decode, encode
from mockup.colour.white_ink import white_on
from mockup.pixels import BAND_ROWS, Bytes
from mockup.trade.swatch import Swatch

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
    overprint worked in; the press's condition; a swatch of it measured on the paper, if any."""

    process: NDArray[np.uint8]
    condition: Condition
    swatch: Swatch | None = None


@dataclass(frozen=True)
class WhitePlate:
    """Where white ink lies beneath a page's other inks, and in how many hits."""

    plate: Plate
    hits: int


@dataclass(frozen=True)
class Plates:
    """A page drawn: for its press; or, where no plates are made of it as it stands, as RGB on
    white paper, (h, w, 3) uint8 sRGB, by its own profiles. Its white ink, if it has any."""

    drawn: Bytes | Pressed
    white: WhitePlate | None = None

    @property
    def on_white(self) -> Bytes:
        """Its look on perfectly white paper, (h, w, 3) uint8 sRGB; white ink is not seen there."""
        return self._inks_on(_WHITE)

    def on(self, stock: Rgb) -> Bytes:
        """Returns its look on a stock's colour, (h, w, 3) uint8 sRGB."""
        bare = self._inks_on(stock)
        if self.white is None:
            return bare
        rows, columns = (np.flatnonzero(self.white.plate.any(axis=axis)) for axis in (1, 0))
        if not rows.size:
            return bare
        part = np.s_[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1]
        look = np.array(bare)
        whitened = self.part(part)._inks_on(white_on(stock, self.white.hits))
        _lay(look[part], whitened, self.white.plate[part])
        return look

    def part(self, part: tuple[slice, slice]) -> Plates:
        """Returns rows and columns of it, without its white ink."""
        if isinstance(self.drawn, Pressed):
            drawn = self.drawn
            return Plates(Pressed(drawn.process[part], drawn.condition))
        return Plates(self.drawn[part])

    def _inks_on(self, stock: Rgb) -> Bytes:
        if isinstance(self.drawn, Pressed):
            drawn = self.drawn
            return printed(drawn.process, drawn.condition, stock, drawn.swatch)
        return on_stock(self.drawn, stock)


def _lay(look: Bytes, whitened: Bytes, plate: Plate) -> None:
    """Lays one look over another in place, by a plate's share, in linear light."""
    for top in range(0, len(look), BAND_ROWS):
        rows = np.s_[top : top + BAND_ROWS]
        full, some = plate[rows] == 255, (plate[rows] > 0) & (plate[rows] < 255)
        look[rows][full] = whitened[rows][full]
        share = plate[rows][some][:, None].astype(np.float32) / 255
        below, above = decode(look[rows][some]), decode(whitened[rows][some])
        look[rows][some] = encode(below + (above - below) * share)
