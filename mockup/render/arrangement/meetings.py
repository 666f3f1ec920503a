"""What a pair of pieces makes of each other, for every place one may have beside the other.

One look-up table a pair: overlap, what is hidden, lines that run too near. Tables are correlations
of whole numbers, found by Fourier transform and rounded to the whole numbers they are, so that no
machine finds others.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from mockup.render.arrangement.model import Item
from mockup.render.arrangement.sprites import CELL_IN, REACH, UNIT, Sprite, dilated, sprite

# In units of the score, judgement: what a look at the table makes of a meeting.
NEAR_LINES = 6.0  # lines that run or end too near each other, and more the longer they do
NEAR_A_CELL = 0.05
SLIGHT = 2.5  # an overlap so small that it reads as an accident
SLIGHT_SHARE = 0.08  # of the smaller piece
FULL_SHARE = 0.2  # and more: plainly meant
JOINED = 0.4  # gained: two pieces lie together, plainly
ON_ENVELOPE = 0.9  # gained: the main piece lies on an envelope
ASKED = 1.5  # gained: the overlap the designer asked for
BURIED = 4.0  # times the share of the lower piece past what may lie under a single other
BURIED_FROM = {"main": 0.08, "card": 0.3, "envelope": 0.55}

Table = NDArray[np.float64] | NDArray[np.float32]
_Spectrum = NDArray[np.complex128]


class Turned:
    """An item at an angle with the transforms of its regions, each made when first asked for."""

    def __init__(self, item: Item, angle_deg: float, canvas: tuple[int, int]) -> None:
        self.item, self.angle_deg = item, angle_deg
        self.sprite: Sprite = sprite(item, angle_deg, canvas)
        self.cells = int(self.sprite.body.sum())
        self._lines: dict[int, tuple[_Spectrum, _Spectrum]] = {}

    @cached_property
    def body(self) -> _Spectrum:
        """Of all its cells."""
        return _transformed(self.sprite.body)

    @cached_property
    def value(self) -> _Spectrum:
        """Of what hiding them costs."""
        return _transformed(self.sprite.value)

    @cached_property
    def points(self) -> _Spectrum:
        """Of the surroundings of its corners."""
        return _transformed(dilated(self.sprite.points))

    @cached_property
    def outline(self) -> _Spectrum:
        """Of its whole outline."""
        lines = list(self.sprite.lines.values())
        return _transformed(np.logical_or.reduce(lines))

    def line(self, direction: int) -> tuple[_Spectrum, _Spectrum]:
        """Of the lines of one direction, and of their surroundings."""
        if direction not in self._lines:
            mask = self.sprite.lines[direction]
            self._lines[direction] = (_transformed(mask), _transformed(dilated(mask)))
        return self._lines[direction]


def _transformed(region: NDArray[np.generic]) -> _Spectrum:
    return np.fft.rfft2(region.astype(np.float64))


@dataclass
class Meetings:
    """The tables of a suite, made when first asked for. Index 0, 0 of a table is `first`."""

    items: Sequence[Item]
    canvas: tuple[int, int]
    asked: frozenset[tuple[int, int]] = frozenset()
    _turned: dict[tuple[int, float], Turned] = field(
        default_factory=dict[tuple[int, float], Turned]
    )
    _tables: dict[tuple[int, float, int, float], Table] = field(
        default_factory=dict[tuple[int, float, int, float], Table]
    )
    _shared: dict[tuple[int, float, int, float], tuple[Table, Table]] = field(
        default_factory=dict[tuple[int, float, int, float], tuple[Table, Table]]
    )

    def with_items(self, items: Sequence[Item]) -> Meetings:
        """Returns the tables of other items in these items' places; what is alike is kept."""
        same = {k for k, item in enumerate(items) if item is self.items[k]}
        return Meetings(
            items,
            self.canvas,
            self.asked,
            {key: each for key, each in self._turned.items() if key[0] in same},
            {key: each for key, each in self._tables.items() if {key[0], key[2]} <= same},
            {key: each for key, each in self._shared.items() if {key[0], key[2]} <= same},
        )

    def turned(self, index: int, angle_deg: float) -> Turned:
        """Returns an item at an angle."""
        key = (index, angle_deg)
        if key not in self._turned:
            self._turned[key] = Turned(self.items[index], angle_deg, self.canvas)
        return self._turned[key]

    def near(self, a: int, a_deg: float, b: int, b_deg: float) -> tuple[Table, Table]:
        """Returns cells of overlap and cells too near, by where `a` lies from `b`."""
        if a > b:
            overlap, close = self.near(b, b_deg, a, a_deg)
            return overlap[::-1, ::-1], close[::-1, ::-1]
        key = (a, a_deg, b, b_deg)
        if key not in self._shared:
            one, other = self.turned(a, a_deg), self.turned(b, b_deg)
            close = np.conj(one.points) * other.outline + np.conj(one.outline) * other.points
            for direction in one.sprite.lines.keys() & other.sprite.lines.keys():
                close += np.conj(one.line(direction)[0]) * other.line(direction)[1]
            reach = _reach(one, other)
            self._shared[key] = (
                self._table(np.conj(one.body) * other.body, reach),
                self._table(close, reach),
            )
        return self._shared[key]

    def cost(self, low: int, low_deg: float, high: int, high_deg: float) -> Table:
        """Returns what a meeting costs with one piece over another, by where `low` lies from
        `high`; rows and columns from the least to the most, the middle one where both agree; beyond
        them nothing is met."""
        key = (low, low_deg, high, high_deg)
        if key not in self._tables:
            one, other = self.turned(low, low_deg), self.turned(high, high_deg)
            overlap, close = self.near(low, low_deg, high, high_deg)
            cost = self._table(np.conj(one.value) * other.body, _reach(one, other)) / UNIT
            cost += (close > 0) * NEAR_LINES + np.minimum(close, 200) * NEAR_A_CELL
            wish = self._wish(low, high, one, other, overlap)
            self._tables[key] = (cost + wish).astype(np.float32)
        return self._tables[key]

    def _wish(self, low: int, high: int, one: Turned, other: Turned, overlap: Table) -> Table:
        share = overlap / min(one.cells, other.cells)
        slight = (overlap > 0) & (share < SLIGHT_SHARE)
        roles = {one.item.role, other.item.role}
        gain = ON_ENVELOPE if roles == {"main", "envelope"} else JOINED
        gain = ASKED if (low, high) in self.asked else gain
        buried = np.maximum(overlap / one.cells - BURIED_FROM[one.item.role], 0.0)
        plain = np.minimum(share / FULL_SHARE, 1.0) * ~slight
        return slight * SLIGHT - gain * plain + BURIED * buried

    def _table(self, product: _Spectrum, reach: tuple[int, int]) -> Table:
        """Returns a transform's table for places up to so many rows and columns away."""
        found = np.rint(np.fft.irfft2(product, s=self.canvas))
        down, across = (np.arange(-far, far + 1) for far in reach)
        return found[np.ix_(down, across)]  # what lies before the first place stands at the end


def _reach(one: Turned, other: Turned) -> tuple[int, int]:
    """Returns how many rows and columns apart two middles may be for the pieces to meet."""
    (left, top, right, bottom), (a, b, c, d) = one.sprite.extent, other.sprite.extent
    near = REACH + 1
    return max(top, bottom) + max(b, d) + near, max(left, right) + max(a, c) + near


def canvas_for(items: Sequence[Item]) -> tuple[int, int]:
    """Returns rows and columns, both even, that hold any two of the items side by side, turned."""
    reach = max(float(np.hypot(item.box.width, item.box.height)) for item in items)
    wide = max(item.box.width + 0.15 * item.box.height for item in items)
    tall = max(item.box.height + 0.15 * item.box.width for item in items)
    return _handy(2 * min(tall, reach) / CELL_IN + 12), _handy(2 * min(wide, reach) / CELL_IN + 12)


def _handy(least: float) -> int:
    """Returns an even number without large prime factors, which transforms are quick for."""
    number = 2 * int(np.ceil(least / 2))
    while True:
        rest = number
        for prime in (2, 3, 5):
            while rest % prime == 0:
                rest //= prime
        if rest == 1:
            return number
        number += 2
