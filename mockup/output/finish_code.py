"""The flat code finishes are shown in where they have to be told apart: a colour and a hatch each.

The same on every page. Colours are of a set that people with any of the usual kinds of colour
blindness tell apart (Okabe and Ito 2008, "Color Universal Design"; values by Wong 2011, Nature
Methods 8:441), the hatch tells them apart without any colour.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from mockup.colour.plates import FinishPlate, Plates
from mockup.colour.srgb import LUMINANCE, Rgb
from mockup.pixels import Bytes
from mockup.trade.finishes import Finish
from mockup.trade.metals import Metal

Grid = NDArray[np.int64]
Hatch = Callable[[Grid, Grid], NDArray[np.bool_]]
"""Which pixels a hatch inks, by row and column."""

_STEP_PX = 8  # from one line of a hatch to the next
_LINE_PX = 3
_BETWEEN = 0.45  # how strong a plate's colour is between the lines of its hatch
_GHOST = 0.22  # how strong the print is beneath, in grey, to know where one is


Coded = tuple[Bytes, Sequence[FinishPlate]]
"""A page's look, and its finishes on the same pixels."""


@dataclass(frozen=True)
class Code:
    """How a finish is shown flat: its name in the trade, its colour, its hatch."""

    name: str
    colour: Rgb
    hatch: Hatch


def _solid(row: Grid, column: Grid) -> NDArray[np.bool_]:
    return np.ones(np.broadcast_shapes(row.shape, column.shape), bool)


def _level(row: Grid, column: Grid) -> NDArray[np.bool_]:
    return np.broadcast_to(row % _STEP_PX < _LINE_PX, np.broadcast_shapes(row.shape, column.shape))


def _rising(row: Grid, column: Grid) -> NDArray[np.bool_]:
    return (row + column) % _STEP_PX < _LINE_PX


def _falling(row: Grid, column: Grid) -> NDArray[np.bool_]:
    return (row - column) % _STEP_PX < _LINE_PX


def _crossed(row: Grid, column: Grid) -> NDArray[np.bool_]:
    return _rising(row, column) | _falling(row, column)


def _dots(row: Grid, column: Grid) -> NDArray[np.bool_]:
    return (row % _STEP_PX < _LINE_PX + 1) & (column % _STEP_PX < _LINE_PX + 1)


CODES: dict[Finish, Code] = {
    "white": Code("white ink", (120, 120, 120), _dots),
    "foil": Code("foil", (140, 140, 140), _solid),
    "varnish": Code("spot gloss", (86, 180, 233), _level),
    "letterpress": Code("letterpress", (0, 158, 115), _rising),
    "deboss": Code("blind deboss", (0, 114, 178), _falling),
    "emboss": Code("blind emboss", (204, 121, 167), _crossed),
}
_METALS: dict[Metal, Rgb] = {
    "gold": (230, 159, 0),
    "rose-gold": (232, 153, 141),
    "silver": (140, 140, 140),
    "copper": (213, 94, 0),
    "bronze": (128, 92, 20),
    "black": (0, 0, 0),
    "white": (200, 200, 200),
    "clear": (240, 228, 66),
}


def code_of(finish: Finish, metal: Metal | None = None) -> Code:
    """Returns how a finish is shown; foil by its metal."""
    code = CODES[finish]
    if metal is None:
        return code
    return Code(f"{metal.replace('-', ' ')} {code.name}", _METALS[metal], code.hatch)


def finishes_in(plates: Plates) -> tuple[FinishPlate, ...]:
    """Returns all of a page's finishes that are seen in its pixels, white ink first."""
    white = plates.white
    seen = white is not None and bool(white.plate.any())
    first = (FinishPlate("white", white.plate),) if white is not None and seen else ()
    return (*first, *plates.finished)


def coded(look: Bytes, finishes: Sequence[FinishPlate]) -> Bytes:
    """Returns a page's finishes in their code over its print, which is pale and grey: (h, w, 3)
    uint8 sRGB."""
    grey = look.astype(np.float32) @ LUMINANCE
    picture = np.repeat((255 - _GHOST * (255 - grey))[:, :, None], 3, axis=2)
    row, column = np.ogrid[: look.shape[0], : look.shape[1]]
    for each in finishes:
        picture = _over(picture, each.plate, code_of(each.finish, each.metal), row, column)
    return np.rint(picture).astype(np.uint8)


def smaller(look: Bytes, finishes: Sequence[FinishPlate], by: int) -> Coded:
    """Returns a page and its plates `by` times smaller; of a plate the fullest pixel stays, so that
    fine lines of a finish are seen."""
    high, wide = (side // by * by for side in look.shape[:2])

    def fullest(plate: NDArray[np.uint8]) -> NDArray[np.uint8]:
        return plate[:high, :wide].reshape(high // by, by, wide // by, by).max(axis=(1, 3))

    return look[:high:by, :wide:by], [replace(f, plate=fullest(f.plate)) for f in finishes]


def swatch(code: Code, height_px: int, width_px: int) -> Bytes:
    """Returns a field of a code, (h, w, 3) uint8 sRGB."""
    row, column = np.ogrid[:height_px, :width_px]
    full = np.full((height_px, width_px), 255, np.uint8)
    white = np.full((height_px, width_px, 3), 255, np.float32)
    return np.rint(_over(white, full, code, row, column)).astype(np.uint8)


def _over(
    picture: NDArray[np.float32], plate: NDArray[np.uint8], code: Code, row: Grid, column: Grid
) -> NDArray[np.float32]:
    strength = np.where(code.hatch(row, column), 1.0, _BETWEEN).astype(np.float32)
    share = (strength * plate / 255)[:, :, None].astype(np.float32)
    toward = np.array(code.colour, np.float32) - picture
    return (picture + toward * share).astype(np.float32)
