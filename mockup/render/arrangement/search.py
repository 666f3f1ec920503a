"""Layouts found: pieces thrown on a board, then each in turn laid where it is best, over and over.

At first chance has a say in what is best, less in every round; all of it comes from one seed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

import numpy as np

from mockup.render.arrangement.board import Board, Spot
from mockup.render.arrangement.meetings import Table

ROUNDS = 9  # with chance, each of less
SETTLING = 6  # without; fewer when nothing moves any more
CHANCE = 2.5  # at first, in units of the score
HELD = 12.0  # for each frame size that a piece leaves a spot it is held to
NOISE = 512  # rows and columns of the pool that chance is cut from


@dataclass(frozen=True)
class Draft:
    """A layout on the grid: where the middle of every piece lies."""

    spots: tuple[Spot, ...]


class Chance:
    """A seeded source: whole numbers, and cuts from one pool of noise, 0 to 1.

    Only what every version of Python and numpy draws alike is used: `Random.random`, and the raw
    numbers of PCG64.
    """

    def __init__(self, seed: str) -> None:
        self._made = Random(seed)
        raw = np.random.PCG64(self._made.getrandbits(64)).random_raw(NOISE * NOISE)
        self._pool = (raw >> np.uint64(11)).astype(np.float64).reshape(NOISE, NOISE) / 2.0**53

    def below(self, count: int) -> int:
        """Returns a whole number from 0 up to but without `count`."""
        return int(self._made.random() * count)

    def share(self) -> float:
        """Returns a number from 0 to 1."""
        return self._made.random()

    def shuffled(self, count: int) -> list[int]:
        """Returns the numbers below `count` in any order."""
        order = list(range(count))
        for last in range(count - 1, 0, -1):
            other = self.below(last + 1)
            order[last], order[other] = order[other], order[last]
        return order

    def noise(self, rows: int, columns: int) -> Table:
        """Returns noise for a board's places."""
        tall, wide = min(rows, NOISE), min(columns, NOISE)
        y, x = self.below(NOISE - tall + 1), self.below(NOISE - wide + 1)
        cut = self._pool[y : y + tall, x : x + wide]
        if (tall, wide) == (rows, columns):
            return cut
        return np.resize(cut, (rows, columns))


def drafted(board: Board, chance: Chance) -> Draft:
    """Returns one layout; nothing gains by moving any one piece of it."""
    count = len(board.pieces)
    spots = [_thrown(board, index, chance) for index in range(count)]
    for step in range(ROUNDS):
        left = 1 - step / ROUNDS
        for index in chance.shuffled(count):
            costs = board.costs(index, spots)
            costs += (CHANCE * left * left) * chance.noise(*costs.shape)
            spots[index] = _least(board, index, costs)
    return Draft(_settled(board, spots, None))


def resettled(board: Board, spots: Sequence[Spot]) -> Draft:
    """Returns a layout from spots found on another board, no piece farther from its own than the
    rules ask."""
    return Draft(_settled(board, [_inside(board, *each) for each in enumerate(spots)], spots))


def _settled(board: Board, spots: list[Spot], held: Sequence[Spot] | None) -> tuple[Spot, ...]:
    """Returns spots of which none gains by moving alone; it costs to leave the spots held to."""
    for _ in range(SETTLING):
        before = list(spots)
        for index in range(len(spots)):
            costs = board.costs(index, spots)
            if held is not None:
                costs += _away(board, index, held[index])
            spots[index] = _least(board, index, costs)
        if spots == before:
            break
    return tuple(spots)


def _away(board: Board, index: int, spot: Spot) -> Table:
    """Returns what it costs a piece to lie away from a spot."""
    top, bottom, left, right = board.range_of(index)
    down = np.abs(np.arange(top, bottom + 1) - spot[0])
    across = np.abs(np.arange(left, right + 1) - spot[1])
    return (down[:, None] + across[None, :]) * (HELD / (board.rows * board.columns) ** 0.5)


def _inside(board: Board, index: int, spot: Spot) -> Spot:
    top, bottom, left, right = board.range_of(index)
    return min(max(spot[0], top), bottom), min(max(spot[1], left), right)


def _thrown(board: Board, index: int, chance: Chance) -> Spot:
    top, bottom, left, right = board.range_of(index)
    return top + chance.below(bottom - top + 1), left + chance.below(right - left + 1)


def _least(board: Board, index: int, costs: Table) -> Spot:
    top, _, left, _ = board.range_of(index)
    at = int(costs.argmin())
    return top + at // costs.shape[1], left + at % costs.shape[1]
