"""The lattice light is computed on: every f-th pixel centre, and the way back to pixels.

Light on paper has no detail finer than a sheet is thick, so above some density a node every few
pixels is enough. Fields are kept per receiver, never over the composed picture, so that plain
bilinear interpolation cannot bleed over an outline.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.pixels import View

Field = NDArray[np.floating]
"""float32 throughout; named wider because array arithmetic is typed wider than it computes."""
TILE = 8  # nodes along the side of a tile
FINEST_PER_IN = 160.0  # nodes per inch, at most: half the thickness of a thin sheet


@dataclass(frozen=True)
class Lattice:
    """A rectangle of nodes of a picture: node (i, j) is the centre of pixel (i f, j f).

    The first node is (left, top), in nodes; `width` and `height` are whole tiles and one more.
    """

    ppi: float
    factor: int
    left: int
    top: int
    width: int
    height: int

    @property
    def spacing_in(self) -> float:
        """The distance between nodes, inches."""
        return self.factor / self.ppi

    @property
    def left_in(self) -> np.float32:
        """The x of the first nodes, inches."""
        return np.float32((self.left * self.factor + 0.5) / self.ppi)

    @property
    def top_in(self) -> np.float32:
        """The y of the first nodes, inches."""
        return np.float32((self.top * self.factor + 0.5) / self.ppi)

    def x_in(self) -> Field:
        """Returns the nodes' x, inches, (width,)."""
        return self._inches(self.left, self.width)

    def y_in(self) -> Field:
        """Returns the nodes' y, inches, (height,)."""
        return self._inches(self.top, self.height)

    def _inches(self, first: int, count: int) -> Field:
        index = np.arange(first, first + count, dtype=np.float64)
        return ((index * self.factor + 0.5) / self.ppi).astype(np.float32)

    def view(self) -> View:
        """Returns the view whose pixels are centred on the nodes."""
        half = self.spacing_in / 2
        left = (self.left * self.factor + 0.5) / self.ppi - half
        top = (self.top * self.factor + 0.5) / self.ppi - half
        return View(left, top, self.width, self.height, self.ppi / self.factor)


def lattice_over(box: tuple[float, float, float, float], ppi: float, margin_in: float) -> Lattice:
    """Returns the lattice of whole tiles over a box (left, top, right, bottom) and a margin."""
    factor = max(1, math.ceil(ppi / FINEST_PER_IN - 0.01))
    span = factor * TILE
    left = math.floor(((box[0] - margin_in) * ppi - 0.5) / span) * TILE
    top = math.floor(((box[1] - margin_in) * ppi - 0.5) / span) * TILE
    right = math.ceil(((box[2] + margin_in) * ppi + 0.5) / span) * TILE
    bottom = math.ceil(((box[3] + margin_in) * ppi + 0.5) / span) * TILE
    return Lattice(ppi, factor, left, top, right - left + 1, bottom - top + 1)


def pixels(
    values: Field, lattice: Lattice, rows: tuple[int, int], columns: tuple[int, int]
) -> Field:
    """Returns a field (..., height, width) at a block of picture pixels, bilinear.

    `rows` and `columns` are (first, last + 1) in picture pixels and must lie on the lattice.
    """
    f = lattice.factor
    y0, x0 = rows[0] - lattice.top * f, columns[0] - lattice.left * f
    height, width = rows[1] - rows[0], columns[1] - columns[0]
    if f == 1:
        return values[..., y0 : y0 + height, x0 : x0 + width]
    part = nodes(values, lattice, rows, columns)
    wide = np.empty((*part.shape[:-1], (part.shape[-1] - 1) * f), part.dtype)
    step = part[..., 1:] - part[..., :-1]
    for k in range(f):
        wide[..., k::f] = part[..., :-1] + step * np.float32(k / f)
    wide = wide[..., x0 % f : x0 % f + width]
    tall = np.empty((*wide.shape[:-2], (wide.shape[-2] - 1) * f, width), part.dtype)
    step = wide[..., 1:, :] - wide[..., :-1, :]
    for k in range(f):
        tall[..., k::f, :] = wide[..., :-1, :] + step * np.float32(k / f)
    return tall[..., y0 % f : y0 % f + height, :]


def nodes(
    values: Field, lattice: Lattice, rows: tuple[int, int], columns: tuple[int, int]
) -> Field:
    """Returns a view of the nodes that a block of picture pixels is interpolated from."""
    f = lattice.factor
    top, left = rows[0] // f - lattice.top, columns[0] // f - lattice.left
    below, right = (rows[1] - 1) // f - lattice.top + 2, (columns[1] - 1) // f - lattice.left + 2
    return values[..., top:below, left:right]
