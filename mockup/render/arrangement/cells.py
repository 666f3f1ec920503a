"""Plane regions as arrays of grid cells: filled, outlined, spread."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

Mask = NDArray[np.bool_]
"""(rows, columns) bool: the cells of a region."""

Ring = NDArray[np.float64]


def filled(ring: Ring, shape: tuple[int, int]) -> Mask:
    """Returns the cells whose centres lie inside a ring; coordinates in cells, even-odd."""
    rows, columns = shape
    flips = np.zeros((rows, columns + 1), dtype=np.int32)
    for (x0, y0), (x1, y1) in zip(ring, np.roll(ring, -1, axis=0), strict=True):
        if y0 > y1:
            x0, y0, x1, y1 = x1, y1, x0, y0
        first, last = max(0, math.ceil(y0 - 0.5)), min(rows, math.ceil(y1 - 0.5))
        if first >= last:
            continue
        at = np.arange(first, last)
        crossing = x0 + (x1 - x0) * ((at + 0.5 - y0) / (y1 - y0))
        column = np.clip(np.ceil(crossing - 0.5), 0, columns).astype(np.int64)
        flips[at, column] += 1
    return (np.cumsum(flips[:, :columns], axis=1) & 1).astype(np.bool_)


def sampled(ring: Ring, step: float) -> tuple[Ring, NDArray[np.float64]]:
    """Returns points along a ring, at most `step` apart, and the direction of its line at each.

    Directions are degrees, 0 to 180: a line has no sense of going.
    """
    after = np.roll(ring, -1, axis=0)
    along = after - ring
    lengths = np.hypot(along[:, 0], along[:, 1])
    kept = lengths > 0
    ring, along, lengths = ring[kept], along[kept], lengths[kept]
    counts = np.ceil(lengths / step).astype(np.int64)
    index = np.repeat(np.arange(len(ring)), counts)
    starts = np.repeat(np.cumsum(counts) - counts, counts)
    share = (np.arange(len(index)) - starts) / counts[index]
    points = ring[index] + along[index] * share[:, None]
    return points, np.degrees(np.arctan2(along[:, 1], along[:, 0]))[index] % 180.0


def corners(ring: Ring, least_deg: float) -> Ring:
    """Returns the points of a ring where its line turns by `least_deg` or more."""
    into = ring - np.roll(ring, 1, axis=0)
    away = np.roll(ring, -1, axis=0) - ring
    turn = np.degrees(np.arctan2(away[:, 1], away[:, 0]) - np.arctan2(into[:, 1], into[:, 0]))
    return ring[np.abs((turn + 180.0) % 360.0 - 180.0) >= least_deg]


def spread(mask: Mask, reach: int) -> Mask:
    """Returns the cells at most `reach` rows and columns from a region's."""
    out = mask.copy()
    for step in range(1, reach + 1):
        out[step:] |= mask[:-step]
        out[:-step] |= mask[step:]
    tall = out.copy()
    for step in range(1, reach + 1):
        out[:, step:] |= tall[:, :-step]
        out[:, :-step] |= tall[:, step:]
    return out


def thinned(ring: Ring, least: float) -> Ring:
    """Returns a ring without points nearer than `least` to the one before, its corners kept."""
    sharp = {tuple(point) for point in corners(ring, 20.0).tolist()}
    kept = [ring[0]]
    for point in ring[1:]:
        near = math.dist(point, kept[-1]) < least
        if near and tuple(point.tolist()) not in sharp:
            continue
        if near and tuple(kept[-1].tolist()) not in sharp and len(kept) > 1:
            kept.pop()
        kept.append(point)
    return np.array(kept, dtype=np.float64)
