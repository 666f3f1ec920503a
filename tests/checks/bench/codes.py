"""Codes that are read by a machine, good enough to be found: a matrix code, bars."""

from __future__ import annotations

import numpy as np

FINDER = 7  # modules; ISO/IEC 18004: three squares within squares, in three corners


def modules(count: int, seed: int = 1) -> np.ndarray:
    """Returns (count, count) of a matrix code: finder patterns and timing true, the data chance."""
    found = np.random.default_rng(seed).random((count, count)) < 0.5
    finder = np.zeros((FINDER + 1, FINDER + 1), bool)
    finder[:FINDER, :FINDER] = True
    finder[1:6, 1:6] = False
    finder[2:5, 2:5] = True
    found[: FINDER + 1, : FINDER + 1] = finder
    found[: FINDER + 1, -FINDER - 1 :] = finder[:, ::-1]
    found[-FINDER - 1 :, : FINDER + 1] = finder[::-1]
    found[6, 8 : count - 8] = found[8 : count - 8, 6] = np.arange(count - 16) % 2 == 0
    return found


def bars(count: int, seed: int = 2) -> list[tuple[int, int]]:
    """Returns the first module and the width of every bar of a linear code, bars 1 to 3 wide."""
    random = np.random.default_rng(seed)
    at, found = 0, []
    for _ in range(count):
        width = int(random.integers(1, 4))
        found.append((at, width))
        at += width + int(random.integers(1, 4))
    return found
