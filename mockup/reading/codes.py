"""Codes that machines read: matrix codes known by their three finder patterns, and rows of bars.

Found in the picture, so that it makes no difference whether a code was drawn or placed.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import permutations
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from mockup.artwork.inspection import Inspection, Ring
from mockup.colour.srgb import LUMINANCE, decode
from mockup.geometry.point import Box
from mockup.reading.sight import Sight

FINDER = (1, 1, 3, 1, 1)  # dark and light through a finder's middle, ISO/IEC 18004
FINDER_MODULES = 7
HALF = 0.5  # ISO/IEC 18004: a run may be half a module off
LEAST_ROWS = 2  # judgement: rows of pixels that have to show a finder; one comes about by chance
LEAST_MODULE_PX = 1.8  # judgement: finer is not to be told from grain at 300 pixels an inch
HITS_MOST = 2000  # judgement: a page of codes has fewer rows through finders; more is a pattern
LIKE_MODULE = 0.3  # judgement: modules of one code differ by less, as pixels round them
SQUARE = 0.12  # judgement: how far three finders may be off a right angle with even sides
GROUND_PARTS = 25  # judgement: a row of bars has 12 or more, a matrix over a hundred
SIDES_IN = (0.1, 3.0)  # judgement: the smallest and the largest codes that are looked for
BARS = 24  # changes from light to dark and back: twelve bars are the fewest of a usual code
BOX_FILLED = 0.95  # judgement: share of its box that an upright rectangle fills
BARS_ALIKE = 0.97  # judgement: share of a row of bars that is the same in every row of pixels
BARS_VARY = 1.7  # judgement: a code has bars of two widths or more; stripes have one
BAR_WIDEST_IN = 0.05  # judgement: thicker ones are stripes

PATTERN_LEAST = 45  # judgement: of 49 modules of a finder; pixels may blur a few
_RING = np.maximum(*np.abs(np.mgrid[-3:4, -3:4]))
_PATTERN = _RING != 2  # ISO/IEC 18004: a dark square, a light ring, a dark ring

Dark = NDArray[np.bool_]


@dataclass(frozen=True)
class Code:
    """A code on the card: where, its narrowest element in inches, and its colours.

    `contrast` is the difference of reflectance of its light and its dark, 0 to 1; `reversed_` says
    that it is light on dark.
    """

    kind: Literal["matrix", "bars"]
    box: Box
    module_in: float
    contrast: float
    reversed_: bool


def find_codes(inspection: Inspection, sight: Sight) -> list[Code]:
    """Returns the codes on a page, as far as a scanner of 300 pixels an inch would know them."""
    regions = _regions(inspection)
    lightness = _lightness(sight) if regions else np.empty((0, 0), np.float32)
    found: list[Code] = []
    for region in regions:
        view = sight.view.within(region)
        if view.width_px < 2 * FINDER_MODULES or view.height_px < 2 * FINDER_MODULES:
            continue
        column, row = view.offset_in(sight.view)
        light = lightness[row : row + view.height_px, column : column + view.width_px]
        corner = (view.left_in, view.top_in)
        for code in _in_region(light, corner, view.ppi, region):
            if not any(_same(code.box, other.box) for other in found):
                found.append(code)
    return found


def _lightness(sight: Sight) -> NDArray[np.float32]:
    """Returns (h, w) relative luminance, 0 to 1, of the picture."""
    return decode(sight.picture) @ LUMINANCE


def _regions(inspection: Inspection) -> list[Box]:
    """Returns where a code may lie: placed images, and shapes of one ink drawn side by side."""
    boxes = [p.box for p in inspection.painted if p.kind == "image" and not p.tiled]
    rows: dict[object, list[Box]] = {}
    for painted in inspection.painted:
        if painted.kind != "path" or painted.tiled:
            continue
        if len(painted.rings) >= GROUND_PARTS and _is_sized(painted.box):
            boxes.append(painted.box)
        elif all(_is_box(ring) for ring in painted.rings):
            rows.setdefault((painted.ink, painted.layer), []).append(painted.box)
    for own in rows.values():
        if len(own) >= BARS // 2:
            around = np.array(own)
            box = Box(*map(float, (*around[:, :2].min(axis=0), *around[:, 2:].max(axis=0))))
            boxes += [box] if _is_sized(box) else []
    return boxes


def _is_box(ring: Ring) -> bool:
    """Returns whether a ring is an upright rectangle, or a line."""
    x, y = ring.T
    area = abs(float(x @ np.roll(y, 1) - y @ np.roll(x, 1))) / 2
    return area >= BOX_FILLED * float(np.ptp(x) * np.ptp(y))


def _is_sized(box: Box) -> bool:
    return SIDES_IN[0] <= box.width <= SIDES_IN[1] and SIDES_IN[0] <= box.height <= SIDES_IN[1]


def _in_region(
    light: NDArray[np.float32], corner: tuple[float, float], ppi: float, region: Box
) -> Iterable[Code]:
    low, high = np.percentile(light, (1, 99))
    if high - low < 0.02:  # judgement: nothing is seen in it
        return
    middle = (low + high) / 2
    for reversed_, dark in ((False, light < middle), (True, light > middle)):
        for triple in _squares([spot for spot in _finders(dark) if _is_finder(dark, spot)]):
            box, module_px = _whole(triple)
            yield _code("matrix", light, box, module_px, corner, ppi, reversed_)
    if _is_sized(region):
        module_px = _bar_module(light < middle)
        if module_px is not None and module_px / ppi < BAR_WIDEST_IN:
            box = Box(0, 0, light.shape[1], light.shape[0])
            yield _code("bars", light, box, module_px, corner, ppi, False)


def _code(
    kind: Literal["matrix", "bars"],
    light: NDArray[np.float32],
    box_px: Box,
    module_px: float,
    corner: tuple[float, float],
    ppi: float,
    reversed_: bool,
) -> Code:
    rows = slice(max(0, round(box_px.top)), max(1, round(box_px.bottom)))
    columns = slice(max(0, round(box_px.left)), max(1, round(box_px.right)))
    dark, pale = np.percentile(light[rows, columns], (5, 95))
    left, top, right, bottom = (v / ppi for v in box_px)
    box = Box(left + corner[0], top + corner[1], right + corner[0], bottom + corner[1])
    return Code(kind, box, module_px / ppi, float(pale - dark), reversed_)


Spot = tuple[float, float, float]
"""A finder's middle, across and down, and its module; pixels."""


def _finders(dark: Dark) -> list[Spot]:
    """Returns the finder patterns of a picture: seen along rows, and again down their columns."""
    spots: list[tuple[Spot, int]] = []
    for row, start, lengths in _fives(dark):
        module = lengths.sum() / FINDER_MODULES
        x = start + lengths[:2].sum() + lengths[2] / 2
        down = _down(dark[:, min(int(x), dark.shape[1] - 1)], row, module)
        if down is None:
            continue
        y, module_down = down
        spot = (x, y, (module + module_down) / 2)
        for k, (other, count) in enumerate(spots):
            if abs(other[0] - x) < 2 * module and abs(other[1] - y) < 2 * module:
                mean = tuple(
                    (a * count + b) / (count + 1) for a, b in zip(other, spot, strict=True)
                )
                spots[k] = ((mean[0], mean[1], mean[2]), count + 1)
                break
        else:
            spots.append((spot, 1))
    return [spot for spot, count in spots if count >= LEAST_ROWS]


def _fives(dark: Dark) -> Iterable[tuple[int, int, NDArray[np.int64]]]:
    """Yields where five runs in a row of pixels stand as through a finder: row, start, lengths."""
    padded = np.zeros((dark.shape[0], dark.shape[1] + 2), np.int8)
    padded[:, 1:-1] = dark
    rows, edges = np.nonzero(np.diff(padded, axis=1))  # begins and ends of dark, by turns
    lengths = np.diff(edges)
    if len(lengths) < 5:
        return
    same = rows[5:] == rows[:-5]
    five = np.stack([lengths[k : len(lengths) - 4 + k] for k in range(5)], axis=1)
    starts_dark = padded[rows[:-5], edges[:-5] + 1] == 1
    module = five.sum(axis=1) / FINDER_MODULES
    off = np.abs(five - module[:, None] * np.array(FINDER))
    fits = (off <= HALF * module[:, None] * np.array((1, 1, 1.6, 1, 1)) + 0.5).all(axis=1)
    hits = np.flatnonzero(same & starts_dark & fits & (module >= LEAST_MODULE_PX))
    middles = edges[hits] + five[hits, :2].sum(axis=1) + five[hits, 2] / 2
    # Through a finder many rows in a row say the same; grain in a photograph does so by chance.
    cells = np.stack([middles // 4, rows[hits] // (3 * LEAST_ROWS)], axis=1).astype(np.int64)
    _, which, counts = np.unique(cells, axis=0, return_inverse=True, return_counts=True)
    for k in hits[counts[which.ravel()] >= LEAST_ROWS][:HITS_MOST]:
        yield int(rows[k]), int(edges[k]), five[k]


def _down(column: Dark, row: int, module: float) -> tuple[float, float] | None:
    """Returns a finder's middle and module down a column through it, or None where it is none."""
    padded = np.concatenate([[0], column.astype(np.int8), [0]])
    edges = np.flatnonzero(np.diff(padded))
    k = int(np.searchsorted(edges, row, side="right")) - 1
    if k < 2 or k + 3 >= len(edges) or k % 2:
        return None
    lengths = np.diff(edges[k - 2 : k + 4])
    own = lengths.sum() / FINDER_MODULES
    off = np.abs(lengths - own * np.array(FINDER))
    if abs(own - module) > LIKE_MODULE * module + 0.5:
        return None
    if (off > HALF * own * np.array((1, 1, 1.6, 1, 1)) + 0.5).any():
        return None
    return float(edges[k] + lengths[2] / 2), float(own)


def _is_finder(dark: Dark, spot: Spot) -> bool:
    """Returns whether a square in a ring is seen at a place, module by module, whichever way up."""
    x, y, module = spot
    steps = (np.arange(FINDER_MODULES) - FINDER_MODULES // 2) * module
    columns = np.rint(x - 0.5 + steps).astype(int)
    rows = np.rint(y - 0.5 + steps).astype(int)
    if min(columns[0], rows[0]) < 0 or columns[-1] >= dark.shape[1] or rows[-1] >= dark.shape[0]:
        return False
    return bool((dark[np.ix_(rows, columns)] == _PATTERN).sum() >= PATTERN_LEAST)


def _squares(spots: Sequence[Spot]) -> list[tuple[Spot, Spot, Spot]]:
    """Returns the threes that are three corners of a square, the one between the others first."""
    found: list[tuple[Spot, Spot, Spot]] = []
    for middle, one, other in permutations(spots[:40], 3):  # judgement: no page has more
        modules = np.array([middle[2], one[2], other[2]])
        if np.ptp(modules) > LIKE_MODULE * modules.mean() + 0.5:
            continue
        a = np.array(one[:2]) - middle[:2]
        b = np.array(other[:2]) - middle[:2]
        side = np.hypot(*a)
        even = abs(side - np.hypot(*b)) < SQUARE * side
        square = abs(a @ b) < SQUARE * side**2 and a[0] * b[1] - a[1] * b[0] > 0
        if even and square and side > 10 * modules.mean():  # 21 modules are the fewest
            found.append((middle, one, other))
    return found


def _whole(triple: tuple[Spot, Spot, Spot]) -> tuple[Box, float]:
    """Returns the box of a code from its finders, and its module, pixels."""
    middle, one, other = (np.array(spot[:2]) for spot in triple)
    side = float(np.hypot(*(one - middle)))
    module = float(np.mean([spot[2] for spot in triple]))
    count = round((side / module + FINDER_MODULES - 17) / 4) * 4 + 17  # ISO/IEC 18004: 17 + 4 v
    module = side / (max(count, 21) - FINDER_MODULES)
    points = np.array([middle, one, other, one + other - middle])
    low, high = points.min(axis=0) - 3.5 * module, points.max(axis=0) + 3.5 * module
    return Box(float(low[0]), float(low[1]), float(high[0]), float(high[1])), module


def _bar_module(dark: Dark) -> float | None:
    """Returns the narrowest bar or gap, pixels, where all a region is one row of bars, upright or
    lying; None where it is none."""
    for picture in (dark, dark.T):
        height = picture.shape[0]
        inner = picture[height // 5 : height - height // 5]
        if len(inner) < 5:
            continue
        usual = inner.mean(axis=0) > 0.5
        if (inner == usual).mean() < BARS_ALIKE:
            continue
        edges = np.flatnonzero(np.diff(usual.astype(np.int8)))
        widths = np.diff(edges)
        if len(edges) < BARS:
            continue
        narrow, wide = np.percentile(widths, (20, 90))
        if wide >= BARS_VARY * narrow:
            return float(narrow)
    return None


def _same(box: Box, other: Box) -> bool:
    centre = box.centre
    return other.left < centre.x < other.right and other.top < centre.y < other.bottom
