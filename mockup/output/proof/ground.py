"""What a picture on a page is like where a mark is to stand over it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.colour.srgb import Rgb
from mockup.geometry.point import Box, Point
from mockup.pixels import Bytes
from mockup.render.piece import PAPER_WHITE

_DRAWN = 24  # judgement: levels of 255 from its ground, where something is seen to be drawn


@dataclass(frozen=True)
class Ground:
    """A picture (h, w, 3) uint8 sRGB of a page, from its top left on, at its pixels an inch."""

    picture: Bytes
    at: Point
    ppi: float

    def drawn_share(self, box: Box) -> float:
        """Returns in which share of a box on the page the picture is otherwise than most of it
        there; what lies beside the picture is blank."""
        part = self._within(box)
        if not len(part):
            return 0.0
        apart = np.abs(part - np.median(part, axis=0)).max(axis=1)
        return float((apart > _DRAWN).sum() / (box.width * box.height * self.ppi**2))

    def colour(self, box: Box) -> Rgb:
        """Returns what most of a box on the page is like: white beside the picture."""
        part = self._within(box)
        if not len(part):
            return PAPER_WHITE
        red, green, blue = (round(float(each)) for each in np.median(part, axis=0))
        return red, green, blue

    def _within(self, box: Box) -> NDArray[np.int16]:
        left, top, right, bottom = (
            max(0, round((side - self.at[k % 2]) * self.ppi)) for k, side in enumerate(box)
        )
        return self.picture[top:bottom, left:right].reshape(-1, 3).astype(np.int16)
