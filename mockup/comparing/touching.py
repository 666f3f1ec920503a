"""Cells of a mask that touch, numbered as one."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Mask = NDArray[np.bool_]
Numbers = NDArray[np.int32]
_Indices = NDArray[np.intp]


def touching(mask: Mask) -> Numbers:
    """Returns a number for each cell of a mask, 1 and up from the top, those that touch by a side
    or a corner sharing one; 0 elsewhere."""
    padded = np.zeros((mask.shape[0], mask.shape[1] + 2), np.int8)
    padded[:, 1:-1] = mask
    row, first = np.nonzero(np.diff(padded, axis=1) == 1)
    _, end = np.nonzero(np.diff(padded, axis=1) == -1)
    root = _joined(row, first, end, mask.shape[0])
    _, number = np.unique(root, return_inverse=True)
    numbers = np.zeros(mask.shape, np.int32)
    for y, left, right, own in zip(row, first, end, number, strict=True):
        numbers[y, left:right] = own + 1
    return numbers


def grown(mask: Mask, across: int, down: int) -> Mask:
    """Returns a mask with all cells within so many columns and rows of one of it."""
    for axis, by in ((0, down), (1, across)):
        count = mask.shape[axis]
        padded = np.pad(mask, [(by, by) if k == axis else (0, 0) for k in (0, 1)])
        parts = [np.take(padded, range(k, k + count), axis) for k in range(2 * by + 1)]
        mask = np.logical_or.reduce(parts)
    return mask


def _joined(row: _Indices, first: _Indices, end: _Indices, rows: int) -> list[int]:
    """Returns for each run of a row the first run of those it touches, through others too."""
    parent = list(range(len(row)))

    def root(k: int) -> int:
        while parent[k] != k:
            parent[k] = parent[parent[k]]
            k = parent[k]
        return k

    starts = np.searchsorted(row, np.arange(rows + 1)).tolist()
    for y in range(1, rows):
        above, here = starts[y - 1], starts[y]
        while above < starts[y] and here < starts[y + 1]:
            if first[here] <= end[above] and first[above] <= end[here]:
                one, other = root(here), root(above)
                parent[max(one, other)] = min(one, other)
            if end[here] < end[above]:
                here += 1
            else:
                above += 1
    return [root(k) for k in range(len(row))]
