"""Items made ready for meeting: each turn of each item as regions of grid cells.

All regions lie on one canvas that has the item's middle at its centre; a region's value is a whole
number, so that what is counted is the same on every machine.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.geometry.point import Box
from mockup.render.arrangement.cells import Mask, Ring, corners, filled, sampled, spread, thinned
from mockup.render.arrangement.model import Item, ring_of

CELL_IN = 0.125  # of the grid on which places are sought
REACH = 2  # cells: lines so near in rows and columns may be under a quarter inch apart
AIR_IN = 0.19  # around what must stay in sight: an eighth of an inch and half a cell
BIN_DEG = 7.5  # lines whose directions fall into one bin run nearly parallel
CORNER_DEG = 30.0
HEAD = 0.35  # of the height, from the top: where dies have their character
UNIT = 1000  # of one fault of the score, in whole numbers

# What it costs to hide a piece altogether, in units of the score; judgement: the main piece is
# seen nearly whole, cards mostly, and of an envelope enough to be known by.
WHOLE_HIDDEN = {"main": 7.0, "card": 2.2, "envelope": 0.7}
HEAD_MORE = {"main": 8.0, "card": 0.0, "envelope": 2.5}
SHOW_HIDDEN = 10.0
CLEAR_HIDDEN = 0.6  # a cell; far more than anything else gains by it


@dataclass(frozen=True)
class Sprite:
    """One item at one angle, on the canvas."""

    body: Mask
    value: NDArray[np.int64]
    """What hiding each cell costs, in thousandths of the score."""
    lines: dict[int, Mask]
    """The outline by the direction of its parts."""
    points: Mask
    """Its corners."""
    extent: tuple[int, int, int, int]
    """Left, top, right, bottom from the middle, in cells, outward."""
    size: tuple[float, float]
    """Width and height of the turned outline, inches."""
    area_in2: float


def about_middle(item: Item, ring: Ring, angle_deg: float) -> Ring:
    """Returns a ring of an item turned about the middle of its box, which becomes the origin."""
    centre = item.box.centre
    cos, sin = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))
    x, y = ring[:, 0] - centre.x, ring[:, 1] - centre.y
    return np.column_stack((x * cos - y * sin, x * sin + y * cos))


def sprite(item: Item, angle_deg: float, canvas: tuple[int, int]) -> Sprite:
    """Returns an item at an angle on a canvas of rows and columns."""
    middle = np.array([canvas[1] // 2, canvas[0] // 2], dtype=np.float64)
    outline = about_middle(item, thinned(item.outline, 0.04), angle_deg)

    def region(rings: Iterable[Ring | Box]) -> Mask:
        out = np.zeros(canvas, dtype=np.bool_)
        for each in rings:
            turned = about_middle(item, ring_of(each), angle_deg)
            out |= filled(turned / CELL_IN + middle, canvas)
        return out

    body = filled(outline / CELL_IN + middle, canvas)
    points, directions = sampled(outline / CELL_IN + middle, 1 / 3)
    bins = np.round(directions / BIN_DEG).astype(np.int64) % round(180 / BIN_DEG)
    low, high = outline.min(axis=0), outline.max(axis=0)
    left, top = (math.ceil(round(-each / CELL_IN, 6)) for each in low)
    right, bottom = (math.ceil(round(each / CELL_IN, 6)) for each in high)
    clear = [grown(each, AIR_IN) for each in item.keep_clear]
    return Sprite(
        body,
        _value(item, body, region(clear), region(item.show), region([_head(item)])),
        {int(each): _marked(points[bins == each], canvas) for each in np.unique(bins)},
        _marked(corners(outline, CORNER_DEG) / CELL_IN + middle, canvas),
        (left, top, right, bottom),
        (float(high[0] - low[0]), float(high[1] - low[1])),
        area_of(outline),
    )


def grown(region: Ring | Box, by_in: float) -> Box:
    """Returns the box around a region with air around it; marks are read as boxes."""
    if isinstance(region, Box):
        return region.grown(by_in)
    (left, top), (right, bottom) = region.min(axis=0), region.max(axis=0)
    return Box(float(left), float(top), float(right), float(bottom)).grown(by_in)


def area_of(ring: Ring) -> float:
    """Returns the area a ring encloses."""
    x, y = ring[:, 0], ring[:, 1]
    return abs(math.fsum(x * np.roll(y, -1) - y * np.roll(x, -1))) / 2


def _value(item: Item, body: Mask, clear: Mask, show: Mask, head: Mask) -> NDArray[np.int64]:
    value = np.zeros(body.shape, dtype=np.int64)
    value[clear & body] += round(CLEAR_HIDDEN * UNIT)
    for mask, worth in (
        (body, WHOLE_HIDDEN[item.role]),
        (show & body, SHOW_HIDDEN),
        (head & body, HEAD_MORE[item.role]),
    ):
        cells = int(mask.sum())
        if cells and worth:
            value[mask] += max(1, round(worth * UNIT / cells))
    return value


def _head(item: Item) -> Box:
    left, top, right, bottom = item.box
    return Box(left, top, right, top + HEAD * (bottom - top))


def _marked(points: Ring, canvas: tuple[int, int]) -> Mask:
    mask = np.zeros(canvas, dtype=np.bool_)
    at = np.floor(points + 1e-6).astype(np.int64)  # what lies on a cell's edge up to last bits
    mask[at[:, 1], at[:, 0]] = True
    return mask


def dilated(mask: Mask) -> Mask:
    """Returns the cells too near to a line's."""
    return spread(mask, REACH)
