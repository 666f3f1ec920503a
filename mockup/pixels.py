"""The kinds of array passed between rooms, and the view that says where their pixels lie."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

Bytes = NDArray[np.uint8]
"""(h, w, 3) or (h, w, 4) uint8, sRGB encoded (IEC 61966-2-1), straight alpha."""

Light = NDArray[np.float32]
"""(h, w, 3) or (h, w, 4) float32, linear sRGB primaries; with four channels, premultiplied."""

Coverage = NDArray[np.float32]
"""(h, w) float32, 0 to 1: the share of each pixel's square that a shape covers."""

BAND_ROWS = 256
"""Rows worked on at once where a whole picture in floating point would need gigabytes."""


@dataclass(frozen=True)
class View:
    """A rectangle of pixels laid over a plane measured in inches.

    Pixel (column i, row j) covers the square from `left_in + i / ppi` to `left_in + (i + 1) / ppi`,
    and the same downwards.
    """

    left_in: float
    top_in: float
    width_px: int
    height_px: int
    ppi: float

    @property
    def width_in(self) -> float:
        """The width of the view, inches."""
        return self.width_px / self.ppi

    @property
    def height_in(self) -> float:
        """The height of the view, inches."""
        return self.height_px / self.ppi

    def within(self, box: tuple[float, float, float, float], margin_px: int = 0) -> View:
        """Returns the smallest view on the same pixel grid that holds a box given in inches.

        `box` is (left, top, right, bottom). The answer is cut to this view; it may be empty.
        """
        left = math.floor(_snapped((box[0] - self.left_in) * self.ppi)) - margin_px
        top = math.floor(_snapped((box[1] - self.top_in) * self.ppi)) - margin_px
        right = math.ceil(_snapped((box[2] - self.left_in) * self.ppi)) + margin_px
        bottom = math.ceil(_snapped((box[3] - self.top_in) * self.ppi)) + margin_px
        left, right = (min(max(v, 0), self.width_px) for v in (left, right))
        top, bottom = (min(max(v, 0), self.height_px) for v in (top, bottom))
        return View(
            self.left_in + left / self.ppi,
            self.top_in + top / self.ppi,
            max(right - left, 0),
            max(bottom - top, 0),
            self.ppi,
        )

    def bands(self, rows: int = BAND_ROWS) -> Iterator[tuple[slice, View]]:
        """Yields the view in bands of rows, top to bottom: which rows of it, and their view."""
        for top in range(0, self.height_px, rows):
            part = slice(top, min(top + rows, self.height_px))
            top_in = self.top_in + top / self.ppi
            yield part, replace(self, top_in=top_in, height_px=part.stop - part.start)

    def offset_in(self, other: View) -> tuple[int, int]:
        """Returns (column, row) of this view's first pixel in `other`, which shares its grid."""
        return (
            round((self.left_in - other.left_in) * self.ppi),
            round((self.top_in - other.top_in) * self.ppi),
        )


def view_around(box: tuple[float, float, float, float], ppi: float, margin_in: float = 0.0) -> View:
    """Returns the view at `ppi` that holds `box` (inches: left, top, right, bottom) and a margin.

    The top-left pixel corner lies exactly at (left - margin, top - margin).
    """
    left, top = box[0] - margin_in, box[1] - margin_in
    width = math.ceil(_snapped((box[2] + margin_in - left) * ppi))
    height = math.ceil(_snapped((box[3] + margin_in - top) * ppi))
    return View(left, top, width, height, ppi)


def _snapped(value_px: float) -> float:
    # A box that ends on a pixel edge must not gain a pixel from the last bit of a float.
    nearest = round(value_px)
    return nearest if abs(value_px - nearest) < 1e-6 else value_px
