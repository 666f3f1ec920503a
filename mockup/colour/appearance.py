"""From ink to light: how a page looks printed on a stock. The only way from one to the other."""

from __future__ import annotations

from dataclasses import dataclass

from mockup.colour.ink import on_stock
from mockup.colour.plates import Plates
from mockup.colour.srgb import Rgb
from mockup.pixels import Bytes


@dataclass(frozen=True)
class Press:
    """A printing condition by which inks are shown, as it is named to the reader."""

    name: str


ASSUMED = Press("assumed: web offset on gloss coated paper, the renderer's built-in profile")
"""What MuPDF shows untagged CMYK by."""


def appearance(plates: Plates, stock: Rgb, press: Press = ASSUMED) -> Bytes:
    """Returns a page as printed on a stock's colour: (h, w, 3) uint8 sRGB, opaque.

    Pages are drawn through the assumed press, so that no other can be asked for yet: raises
    ValueError for one.
    """
    if press != ASSUMED:
        raise ValueError(f"{press.name}: pages are drawn by the assumed press only")
    return on_stock(plates.on_white, stock)
