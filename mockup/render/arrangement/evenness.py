"""How evenly paper is spread over a room, as eyes half closed see it.

Pieces are read as boxes, each as dense as it fills its box; boxes and room are blurred, and what
counts is the variance of the blurred paper about its mean. Squared out, that is a sum over pairs of
what two blurred boxes have in common. A box blurred down and across is a product, and so is what
two have in common: a number for every offset down, times one for every offset across.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from mockup.render.arrangement.meetings import Turned

BLUR = 0.13  # of the frame's size, judgement: about half a card
DENSEST = 16  # densities are told in sixteenths
FINE = 256  # parts of a cell: whole numbers, so that sums are exact in any order

Numbers = NDArray[np.float64]


@dataclass(frozen=True)
class Evenness:
    """The evenness of pieces in a room of rows and columns of cells."""

    pieces: Sequence[Turned]
    rows: int
    columns: int

    @cached_property
    def scale(self) -> float:
        """What a product of two numbers is worth, in parts of the mean squared over the room."""
        room = float(self.rows * self.columns)
        return room / (float(FINE) ** 2 * float(self._paper) ** 2)

    @cached_property
    def pairs(self) -> list[list[tuple[Numbers, Numbers]]]:
        """For two pieces, what they have in common by offset down and across."""
        dense = self._dense
        return [
            [
                (
                    self._common(tall, tall_b, self.rows) * float(dense[a] * dense[b]),
                    self._common(wide, wide_b, self.columns),
                )
                for b, (tall_b, wide_b) in enumerate(self._sizes)
            ]
            for a, (tall, wide) in enumerate(self._sizes)
        ]

    @cached_property
    def constant(self) -> float:
        """What does not depend on where the pieces lie."""
        mean = self._paper / (self.rows * self.columns)
        whole = self._at_one(self.rows, self.columns)
        single = sum(
            self._at_one(*size) * d * d for size, d in zip(self._sizes, self._dense, strict=True)
        )
        return self.scale * (whole * mean * mean + single) / 2

    def drawn(self, index: int, rows: Numbers, columns: Numbers) -> Numbers:
        """Returns how much the room itself draws a piece, by where its middle lies."""
        tall, wide = self._sizes[index]
        down = self._common(tall, self.rows, self.rows)
        across = self._common(wide, self.columns, self.columns)
        mass = self._dense[index] * self._paper / (self.rows * self.columns)
        at_y = down[np.floor(rows - self.rows / 2).astype(np.int64) + self.rows]
        at_x = across[np.floor(columns - self.columns / 2).astype(np.int64) + self.columns]
        return -self.scale * mass * at_y[:, None] * at_x[None, :]

    @cached_property
    def _sizes(self) -> list[tuple[int, int]]:
        extents = [piece.sprite.extent for piece in self.pieces]
        return [(top + bottom, left + right) for left, top, right, bottom in extents]

    @cached_property
    def _dense(self) -> list[int]:
        """How much of its box each piece fills, by its visual mass."""
        return [
            max(1, round(DENSEST * piece.item.weight * piece.cells / (tall * wide)))
            for piece, (tall, wide) in zip(self.pieces, self._sizes, strict=True)
        ]

    @cached_property
    def _paper(self) -> int:
        return sum(t * w * d for (t, w), d in zip(self._sizes, self._dense, strict=True))

    @cached_property
    def _soft(self) -> Numbers:
        kernel = np.ones(max(3, round(BLUR * (self.rows * self.columns) ** 0.5)))
        return np.convolve(np.convolve(kernel, kernel), np.convolve(kernel, kernel))

    @cached_property
    def _known(self) -> dict[tuple[int, int, int], Numbers]:
        return {}

    def _at_one(self, tall: int, wide: int) -> float:
        """Returns what a box has in common with another of its size in its place."""
        return float(self._common(tall, tall, 0)[0] * self._common(wide, wide, 0)[0])

    def _common(self, a: int, b: int, reach: int) -> Numbers:
        """Returns what two blurred lengths have in common, in parts of a cell, for offsets of their
        middles from -reach to reach."""
        key = (min(a, b), max(a, b), reach)
        if key not in self._known:
            both = np.convolve(np.convolve(np.ones(a), np.ones(b)), self._soft)
            told = np.rint(both * (FINE / float(self._soft.sum())))
            out = np.zeros(2 * reach + 1)
            middle = len(told) // 2
            near = min(reach, middle, len(told) - 1 - middle)
            out[reach - near : reach + near + 1] = told[middle - near : middle + near + 1]
            self._known[key] = out
        return self._known[key]
