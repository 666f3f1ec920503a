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
from mockup.trade.finishes import Finish
from mockup.trade.metals import Metal
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
class FinishPlate:
    """Where a finish lies, 255 in full, on the pixels of its page; the metal of foil, where it is
    known. `flat` is the colour foil from a page of its own is shown in: the art draws none."""

    finish: Finish
    plate: Plate
    metal: Metal | None = None
    flat: Rgb | None = None


@dataclass(frozen=True)
class Plates:
    """A page drawn: for its press; or, where no plates are made of it as it stands, as RGB on
    white paper, (h, w, 3) uint8 sRGB, by its own profiles. Its white ink, if it has any, and where
    foil hides the paper: in the colour it is drawn in, flat. `finished` are its other finishes,
    foil among them, those that are seen in these pixels."""

    drawn: Bytes | Pressed
    white: WhitePlate | None = None
    foil: Plate | None = None
    finished: tuple[FinishPlate, ...] = ()

    @property
    def on_white(self) -> Bytes:
        """Its look on perfectly white paper, (h, w, 3) uint8 sRGB; white ink is not seen there."""
        return self._stamped(self._inks_on(_WHITE))

    def on(self, stock: Rgb) -> Bytes:
        """Returns its look on a stock's colour, (h, w, 3) uint8 sRGB."""
        look = self._inks_on(stock)
        if self.white is not None:
            look = self._laid(look, self.white.plate, white_on(stock, self.white.hits))
        look = look if self.foil is None else self._laid(look, self.foil, _WHITE)
        return self._stamped(look)

    def _stamped(self, look: Bytes) -> Bytes:
        """Returns a look with the foil that the art does not draw."""
        for each in self.finished:
            if each.flat is not None:
                look = np.array(look)
                flat = np.broadcast_to(np.array(each.flat, np.uint8), look.shape)
                _lay(look, flat, each.plate)
        return look

    def _laid(self, look: Bytes, plate: Plate, ground: Rgb) -> Bytes:
        """Returns a look that is as on another ground where a plate lies."""
        rows, columns = (np.flatnonzero(plate.any(axis=axis)) for axis in (1, 0))
        if not rows.size:
            return look
        part = np.s_[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1]
        laid = np.array(look)
        _lay(laid[part], self._part(part)._inks_on(ground), plate[part])
        return laid

    def _part(self, part: tuple[slice, slice]) -> Plates:
        """Returns rows and columns of its inks, as no swatch was measured of them."""
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
