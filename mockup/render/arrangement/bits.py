"""Plane regions as whole numbers: one bit a grid cell, so that areas are counted, not rounded.

A region is one Python int, row after row, `stride` bits a row, lowest bit at the top left.
Moving is shifting, union and overlap are `|` and `&`, an area is `int.bit_count()`: fast, and the
same on every machine.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

Points = Sequence[tuple[float, float]]


def rasterised(rings: Iterable[Points], stride: int, rows: int) -> int:
    """Returns the cells whose centres lie inside any ring; coordinates in cells, even-odd."""
    return _union(_filled(ring, stride, rows) for ring in rings)


def _union(regions: Iterable[int]) -> int:
    total = 0
    for region in regions:
        total |= region
    return total


def _filled(ring: Points, stride: int, rows: int) -> int:
    # Each edge flips, in every row it crosses, all cells to its right; twice flipped is outside.
    row_bits = [0] * rows
    full = (1 << stride) - 1
    for (x0, y0), (x1, y1) in zip(ring, [*ring[1:], ring[0]], strict=True):
        if y0 > y1:
            x0, y0, x1, y1 = x1, y1, x0, y0
        first, last = max(0, math.ceil(y0 - 0.5)), min(rows, math.ceil(y1 - 0.5))
        for row in range(first, last):
            x = x0 + (x1 - x0) * (row + 0.5 - y0) / (y1 - y0)
            column = min(max(math.ceil(x - 0.5), 0), stride)
            row_bits[row] ^= full >> column << column
    total = 0
    for bits in reversed(row_bits):
        total = (total << stride) | bits
    return total


def grown(region: int, radius: float, stride: int) -> int:
    """Returns the cells within `radius` cells of a region; the region must lie clear of the sides.

    Cells above the first row are lost.
    """
    whole = math.floor(radius)
    total, spread, width = 0, region, 0
    for dy in range(whole, -1, -1):  # the disc's rows from its short outer ones to its long middle
        reach = math.isqrt(math.floor(radius * radius - dy * dy))
        while width < reach:
            spread |= (spread << 1) | (spread >> 1)
            width += 1
        total |= (spread << dy * stride) | (spread >> dy * stride)
    return total


def shrunk(region: int, radius: float, stride: int, rows: int) -> int:
    """Returns the cells of a region more than `radius` cells from what lies outside it."""
    everything = (1 << stride * rows) - 1
    return region & ~grown(everything & ~region, radius, stride)


def moved(region: int, columns: int, rows: int, stride: int) -> int:
    """Returns a region moved by whole cells; what leaves the top is lost."""
    shift = rows * stride + columns
    return region << shift if shift >= 0 else region >> -shift


def block(columns: int, rows: int, stride: int) -> int:
    """Returns the rectangle of cells at the top left."""
    row = (1 << columns) - 1
    total, height = row, 1
    while height < rows:  # doubling; the last step overlaps itself
        step = min(height, rows - height)
        total |= total << step * stride
        height += step
    return total
