"""From ink to light: how a page looks printed on a stock. The only way from one to the other."""

from __future__ import annotations

from mockup.colour.plates import Plates
from mockup.colour.srgb import Rgb
from mockup.pixels import Bytes


def appearance(plates: Plates, stock: Rgb) -> Bytes:
    """Returns a page as printed on a stock's colour: (h, w, 3) uint8 sRGB, opaque.

    By the press its plates are for, the stock worked into that press's table; a page of RGB alone
    by its own profiles, the stock beneath it.
    """
    return plates.on(stock)
