"""Exact coverage: the share of every pixel's square inside a polygon, to the last bit of a float.

Each edge is cut where it crosses the pixel grid; every bit then lies in one pixel and adds the
area to its right within the pixel's row. A running sum along the row turns these into coverage
(the signed-area accumulation used by font rasterisers).
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from mockup.pixels import Coverage, View


def coverage(rings: Iterable[NDArray[np.float64]], view: View) -> Coverage:
    """Returns the (h, w) float32 coverage, 0 to 1, of closed polygons over a view.

    `rings` are (n, 2) float64 arrays in inches, outer and holes in any winding: overlaps cancel
    by the even-odd rule only where whole rings nest, which is what a shape with holes is.
    """
    height, width = view.height_px, view.width_px
    total = np.zeros((height, width), np.float32)
    if height == 0 or width == 0:
        return total
    for ring in rings:
        inside = np.abs(_ring_coverage(ring, view))
        total = np.abs(total - inside)
    return np.clip(total, 0.0, 1.0)


def _ring_coverage(ring: NDArray[np.float64], view: View) -> NDArray[np.float32]:
    height, width = view.height_px, view.width_px
    points = (ring - (view.left_in, view.top_in)) * view.ppi
    ends = np.roll(points, -1, axis=0)
    # Edges wholly above or below the view fill nothing in it.
    meets = (np.maximum(points[:, 1], ends[:, 1]) > 0) & (
        np.minimum(points[:, 1], ends[:, 1]) < height
    )
    x0, y0, x1, y1 = _bits(points[meets], ends[meets], width, height)
    # What lies left of the view still fills the row; what lies right of it never does.
    x0, x1 = np.clip(x0, 0, width), np.clip(x1, 0, width)
    row = np.floor((y0 + y1) / 2).astype(np.int64)
    middle = (x0 + x1) / 2
    column = np.minimum(np.floor(middle).astype(np.int64), width - 1)
    rise = y1 - y0
    keep = (row >= 0) & (row < height) & (rise != 0)
    row, column, middle, rise = row[keep], column[keep], middle[keep], rise[keep]
    here = rise * (1 - (middle - column))  # the share right of the bit inside its own pixel
    stride = width + 1  # one spare column takes what spills over the right edge
    cells = row * stride + column
    flat = np.bincount(cells, here, height * stride)
    flat += np.bincount(cells + 1, rise - here, height * stride)
    rows = flat.reshape(height, stride)[:, :width]
    return np.cumsum(rows, axis=1).astype(np.float32)


def _bits(
    start: NDArray[np.float64], end: NDArray[np.float64], width: int, height: int
) -> tuple[NDArray[np.float64], ...]:
    """Returns the edges cut at every grid line of the view: x0, y0, x1, y1, in pixels."""
    edges, cuts = _crossings(start, end, width, height)
    edges = np.concatenate([edges, np.arange(len(start)), np.arange(len(start))])
    cuts = np.concatenate([cuts, np.zeros(len(start)), np.ones(len(start))])
    order = np.lexsort((cuts, edges))
    edges, cuts = edges[order], cuts[order]
    same = edges[1:] == edges[:-1]
    edge, t0, t1 = edges[:-1][same], cuts[:-1][same], cuts[1:][same]
    step = end - start
    a = start[edge] + t0[:, None] * step[edge]
    b = start[edge] + t1[:, None] * step[edge]
    return a[:, 0], a[:, 1], b[:, 0], b[:, 1]


def _crossings(
    start: NDArray[np.float64], end: NDArray[np.float64], width: int, height: int
) -> tuple[NDArray[np.int64], NDArray[np.float64]]:
    """Returns where edges cross whole pixel lines of the view: edge numbers and parameters."""
    edges: list[NDArray[np.int64]] = []
    cuts: list[NDArray[np.float64]] = []
    for axis, size in ((0, width), (1, height)):
        low = np.minimum(start[:, axis], end[:, axis])
        high = np.maximum(start[:, axis], end[:, axis])
        first = np.clip(np.floor(low).astype(np.int64) + 1, 0, size + 1)
        last = np.clip(np.ceil(high).astype(np.int64) - 1, -1, size)
        count = np.maximum(last - first + 1, 0)
        edge = np.repeat(np.arange(len(start)), count)
        before = np.repeat(np.cumsum(count) - count, count)
        line = first[edge] + np.arange(count.sum()) - before
        step = end[edge, axis] - start[edge, axis]
        edges.append(edge)
        cuts.append((line - start[edge, axis]) / step)
    return np.concatenate(edges), np.concatenate(cuts)
