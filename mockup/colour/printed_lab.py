"""From ink to measured colour: what a press prints on a stock, as CIELAB that no screen has cut."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.colour.icc_reading import Condition
from mockup.colour.lab import SRGB_TO_XYZ, lab_of_xyz, xyz_of_rgb
from mockup.colour.plates import Plates, Pressed
from mockup.colour.printing import table_on
from mockup.colour.runs import distinct
from mockup.colour.srgb import Rgb, decode
from mockup.trade.swatch import Swatch

Numbers = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Printing:
    """A press printing on a stock. curves: (4, n), from an ink's share to its place on the grid.
    table: (g, g, g, g, 3) CIELAB under D50, in the order C, M, Y, K."""

    curves: Numbers
    table: Numbers

    def lab(self, inks: Numbers) -> Numbers:
        """Returns CIELAB of inks, (n, 4) shares 0 to 1, between the table's nodes straight."""
        most = self.table.shape[0] - 1
        at = np.linspace(0, 1, self.curves.shape[1])
        places = [np.interp(inks[:, k], at, self.curves[k]) * most for k in range(4)]
        low = [np.clip(np.floor(place).astype(np.int64), 0, most - 1) for place in places]
        over = [place - start for place, start in zip(places, low, strict=True)]
        found = np.zeros((len(inks), 3))
        for corner in np.ndindex(2, 2, 2, 2):
            weight = np.ones(len(inks))
            for up, share in zip(corner, over, strict=True):
                weight = weight * (share if up else 1 - share)
            node = tuple(start + up for start, up in zip(low, corner, strict=True))
            found += weight[:, None] * self.table[node]
        return found


def printing_on(condition: Condition, stock: Rgb, swatch: Swatch | None = None) -> Printing:
    """Returns a press printing on a stock's colour, or as a swatch of it was measured."""
    table = lab_of_xyz(np.maximum(table_on(condition, stock, swatch), 0))
    return Printing(condition.curves, table)


def printed_lab(plates: Plates, stock: Rgb) -> Numbers:
    """Returns a page as printed on a stock, (h, w, 3) CIELAB under D50.

    Through its press's table, so that inks a screen cannot show keep their colour; where white ink
    or foil lies beneath, and a page of RGB alone, as it is shown.
    """
    if not isinstance(plates.drawn, Pressed):
        return lab_of_bytes(plates.on(stock))
    lab = _pressed_lab(plates.drawn, stock)
    covers = [plates.white.plate] if plates.white is not None else []
    covers += [plates.foil] if plates.foil is not None else []
    covers += [each.plate for each in plates.finished if each.flat is not None]
    if covers:
        covered = np.maximum.reduce(covers) > 0
        lab[covered] = lab_of_bytes(plates.on(stock))[covered]
    return lab


def _pressed_lab(drawn: Pressed, stock: Rgb) -> Numbers:
    process = np.ascontiguousarray(drawn.process)
    mixes, cell = distinct(process.view(np.uint32).reshape(-1))
    inks = np.ascontiguousarray(mixes).view(np.uint8).reshape(-1, 4) / 255
    lab = printing_on(drawn.condition, stock, drawn.swatch).lab(inks)
    return lab[cell].reshape(*process.shape[:2], 3)


def lab_of_bytes(picture: NDArray[np.uint8]) -> Numbers:
    """Returns CIELAB under D50 of an sRGB picture, (h, w, 3) uint8."""
    packed = picture.astype(np.uint32) @ np.array([1 << 16, 1 << 8, 1], np.uint32)
    values, cell = distinct(packed.reshape(-1))
    colours = np.stack([values >> 16, (values >> 8) & 255, values & 255], axis=1).astype(np.uint8)
    lab = lab_of_xyz(decode(colours).astype(np.float64) @ SRGB_TO_XYZ.T)
    return lab[cell.reshape(packed.shape)]


def lab_of_rgb(colour: Rgb) -> Numbers:
    """Returns CIELAB under D50 of an sRGB colour, (3,)."""
    return lab_of_xyz(xyz_of_rgb(colour))
