"""The board a layout is sought on: a frame's room, and what every place in it costs.

A layout's cost is a sum over pieces and pairs of pieces, so that, the others lying still, the cost
of every place for one piece is a sum of a few arrays.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from mockup.render.arrangement.evenness import Evenness
from mockup.render.arrangement.meetings import Meetings, Table, Turned
from mockup.render.arrangement.sprites import CELL_IN

# In units of the score, judgement.
EVEN = 8.0  # of the variance of blurred paper over the room, in parts of its mean squared
OFF_MIDDLE = 9.0  # of the main piece, for each frame size off the middle
MIDDLE_FREE = 0.09  # in frame sizes: still reads as the middle
OPTICAL = 0.49  # of the height, from the top
IN_LINE = 0.12  # gained: an edge or an axis in line with another's
NO_ROOM = 1e9

Spot = tuple[int, int]
"""Row and column of a piece's middle."""


@dataclass(frozen=True)
class Pose:
    """How the pieces of one layout are turned, and which lies over which."""

    angles: tuple[float, ...]
    order: tuple[int, ...]
    """Items by index, bottom to top."""


class Terms(NamedTuple):
    """What a layout costs: the meetings of its pieces, unevenness and the main piece's place, and
    what lines in line gain (below nought)."""

    meetings: float
    even: float
    line: float


class Board:
    """The room of a frame, in cells, for items in one pose."""

    def __init__(self, meetings: Meetings, pose: Pose, rows: int, columns: int) -> None:
        self.rows, self.columns, self.pose = rows, columns, pose
        self.pieces: list[Turned] = [
            meetings.turned(index, angle) for index, angle in enumerate(pose.angles)
        ]
        layer = {index: at for at, index in enumerate(pose.order)}
        count = len(self.pieces)
        self._costs: dict[tuple[int, int], Table] = {}
        for a in range(count):
            for b in range(a):
                low, high = (a, b) if layer[a] < layer[b] else (b, a)
                cost = meetings.cost(low, pose.angles[low], high, pose.angles[high])
                self._costs[low, high] = cost
                self._costs[high, low] = cost[::-1, ::-1]
        self._even = Evenness(self.pieces, rows, columns)
        self._even_scale = EVEN * self._even.scale
        self._own = [self._alone(index) for index in range(count)]
        straight = not any(pose.angles)
        self._lines = [[_in_line(a, b, straight) for b in self.pieces] for a in self.pieces]

    def range_of(self, index: int) -> tuple[int, int, int, int]:
        """Returns first and last row and column a piece's middle may have; empty where none."""
        left, top, right, bottom = self.pieces[index].sprite.extent
        return top, self.rows - bottom, left, self.columns - right

    def has_room(self) -> bool:
        """Returns whether every piece fits into the room."""
        ranges = (self.range_of(index) for index in range(len(self.pieces)))
        return all(top <= bottom and left <= right for top, bottom, left, right in ranges)

    def costs(self, index: int, spots: Sequence[Spot]) -> Table:
        """Returns what each place of a piece's range costs with the others at their spots."""
        top, bottom, left, right = self.range_of(index)
        others = [other for other in range(len(spots)) if other != index]
        far_y, far_x = self.rows, self.columns
        ys, xs = [], []
        line_y = np.zeros(bottom - top + 1)
        line_x = np.zeros(right - left + 1)
        for other in others:
            row, column = spots[other]
            dy, dx = top - row + far_y, left - column + far_x
            by_row, by_column = self._even.pairs[index][other]
            ys.append(by_row[dy : dy + len(line_y)])
            xs.append(by_column[dx : dx + len(line_x)])
            _add_lines(line_y, self._lines[index][other][0], top - row)
            _add_lines(line_x, self._lines[index][other][1], left - column)
        cost = self._own[index] + (line_y[:, None] + line_x[None, :])
        if others:
            # Whole numbers, exact in any order; no library's threads are wanted for so little.
            cost += self._even_scale * np.einsum("ij,ik->jk", np.array(ys), np.array(xs))
        for other in others:
            self._meet(cost, index, other, spots[other])
        return cost

    def _meet(self, cost: Table, index: int, other: int, spot: Spot) -> None:
        """Adds what meeting another piece costs, where the two are near enough to meet."""
        table = self._costs[index, other]
        top, bottom, left, right = self.range_of(index)
        middle_y, middle_x = table.shape[0] // 2, table.shape[1] // 2
        first_y, first_x = max(top, spot[0] - middle_y), max(left, spot[1] - middle_x)
        last_y, last_x = min(bottom, spot[0] + middle_y), min(right, spot[1] + middle_x)
        if first_y > last_y or first_x > last_x:
            return
        from_y, from_x = first_y - spot[0] + middle_y, first_x - spot[1] + middle_x
        tall, wide = last_y - first_y + 1, last_x - first_x + 1
        cost[first_y - top : first_y - top + tall, first_x - left : first_x - left + wide] += table[
            from_y : from_y + tall, from_x : from_x + wide
        ]

    def terms(self, spots: Sequence[Spot]) -> Terms:
        """Returns what a whole layout costs, by kind: sums in a fixed order."""
        pairs = [(a, b) for a in range(len(spots)) for b in range(a)]
        own = sum(self._own_cost(index, spot) for index, spot in enumerate(spots))
        return Terms(
            sum(self.met(a, b, spots) for a, b in pairs),
            EVEN * self._even.constant + own + sum(self._even_cost(a, b, spots) for a, b in pairs),
            -IN_LINE * sum(self._lined(a, b, spots) for a, b in pairs),
        )

    def met(self, a: int, b: int, spots: Sequence[Spot]) -> float:
        """Returns what the meeting of two pieces costs."""
        table = self._costs[a, b]
        y = spots[a][0] - spots[b][0] + table.shape[0] // 2
        x = spots[a][1] - spots[b][1] + table.shape[1] // 2
        near = 0 <= y < table.shape[0] and 0 <= x < table.shape[1]
        return float(table[y, x]) if near else 0.0

    def _even_cost(self, a: int, b: int, spots: Sequence[Spot]) -> float:
        dy, dx = spots[a][0] - spots[b][0], spots[a][1] - spots[b][1]
        by_row, by_column = self._even.pairs[a][b]
        return self._even_scale * float(by_row[dy + self.rows] * by_column[dx + self.columns])

    def _lined(self, a: int, b: int, spots: Sequence[Spot]) -> int:
        down, across = self._lines[a][b]
        return (spots[a][0] - spots[b][0] in down) + (spots[a][1] - spots[b][1] in across)

    def _own_cost(self, index: int, spot: Spot) -> float:
        top, _, left, _ = self.range_of(index)
        return float(self._own[index][spot[0] - top, spot[1] - left])

    def _alone(self, index: int) -> Table:
        top, bottom, left, right = self.range_of(index)
        if top > bottom or left > right:
            return np.full((1, 1), NO_ROOM)
        rows, columns = np.arange(top, bottom + 1), np.arange(left, right + 1)
        own = EVEN * self._even.drawn(index, rows.astype(np.float64), columns.astype(np.float64))
        if self.pieces[index].item.role == "main":
            size = (self.rows * self.columns) ** 0.5
            off_y = np.maximum(np.abs(rows - OPTICAL * self.rows) / size - MIDDLE_FREE, 0.0)
            off_x = np.maximum(np.abs(columns - self.columns / 2) / size - MIDDLE_FREE, 0.0)
            own = own + OFF_MIDDLE * (off_y[:, None] + off_x[None, :])
        return own


def _in_line(a: Turned, b: Turned, straight: bool) -> tuple[frozenset[int], frozenset[int]]:
    """Returns the offsets, down and across, at which two pieces have an edge or axis in line."""
    if not straight or a is b:
        return frozenset(), frozenset()
    found: list[frozenset[int]] = []
    for k in (1, 0):
        half, other = a.sprite.size[k] / 2, b.sprite.size[k] / 2
        exact = (other - half, half - other, 0.0)
        found.append(frozenset(round(each / CELL_IN) for each in exact))
    return found[0], found[1]


def _add_lines(line: NDArray[np.float64], offsets: frozenset[int], first: int) -> None:
    for offset in offsets:
        at = offset - first
        if 0 <= at < len(line):
            line[at] -= IN_LINE
