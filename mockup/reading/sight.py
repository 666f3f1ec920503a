"""How a page looks: its picture on white and its inks, read at places in card inches."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.pixels import Bytes, View


@dataclass(frozen=True)
class Sight:
    """A page drawn on white: `picture` is (h, w, 3) uint8 sRGB, as `view` lies in card inches."""

    picture: Bytes
    view: View

    def colours_at(self, points: NDArray[np.float64]) -> NDArray[np.float32]:
        """Returns the (n, 3) sRGB bytes, as float32, of the picture at (n, 2) card inches."""
        return self._pixels_at(points).astype(np.float32)

    def darkest_at(self, points: NDArray[np.float64]) -> NDArray[np.uint8]:
        """Returns the least of the three sRGB bytes of the picture at (n, 2) card inches."""
        red, green, blue = self._pixels_at(points).T
        return np.minimum(np.minimum(red, green), blue)

    def colours_between(self, points: NDArray[np.float64]) -> NDArray[np.float32]:
        """Returns (n, 3) colours between pixel centres, by bilinear interpolation, 255ths."""
        view, picture = self.view, self.picture
        x = np.clip((points[:, 0] - view.left_in) * view.ppi - 0.5, 0, view.width_px - 1.001)
        y = np.clip((points[:, 1] - view.top_in) * view.ppi - 0.5, 0, view.height_px - 1.001)
        column, row = x.astype(int), y.astype(int)
        fx, fy = (x - column)[:, None].astype(np.float32), (y - row)[:, None].astype(np.float32)
        top = picture[row, column] * (1 - fx) + picture[row, column + 1] * fx
        bottom = picture[row + 1, column] * (1 - fx) + picture[row + 1, column + 1] * fx
        return (top * (1 - fy) + bottom * fy).astype(np.float32)

    def _pixels_at(self, points: NDArray[np.float64]) -> Bytes:
        columns = ((points[:, 0] - self.view.left_in) * self.view.ppi).astype(np.intp)
        rows = ((points[:, 1] - self.view.top_in) * self.view.ppi).astype(np.intp)
        columns = np.clip(columns, 0, self.view.width_px - 1)
        rows = np.clip(rows, 0, self.view.height_px - 1)
        return self.picture.reshape(-1, 3)[rows * self.view.width_px + columns]


@dataclass(frozen=True)
class Inked:
    """A page's inks: (h, w, n) uint8, 255 a full ink; C, M, Y, K, then its spot inks."""

    inks: NDArray[np.uint8]
    view: View
