"""Marks inside images: small shapes on an even ground, as scanned or flattened type is.

Only a picture whose rim is mostly of one colour is read so; in a photograph there is no telling
what matters, and nothing is said. Nor is anything said where several shapes run off the card: those
are splashes or sprigs.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from mockup.artwork.inspection import Inspection
from mockup.geometry.point import Box
from mockup.reading.die_zones import DieZones
from mockup.reading.lettering import letter_chains
from mockup.reading.sight import Sight

# Judgement: share of the rim that has the ground's colour; in photographs less has.
GROUND_LEAST = 0.85
GROUND_WITHIN = 14.0  # judgement: 255ths; the grain of a scan and the noise of JPEG are less
MARK_BEYOND = 60.0  # judgement: 255ths; half-tone edges and shadows are less, type is more
THIN = 5  # judgement: every fifth pixel tells whether there is an even ground
FEWEST = 20  # judgement: of fewer pixels a share says nothing
LEAST_PX = 4  # judgement: a speck of fewer pixels is dust
LARGEST_IN = 2.5  # judgement: larger shapes are pictures, not marks
TEXTURE_OFF = 3  # judgement: one or two may run off by mistake, several are drawn so


@dataclass(frozen=True)
class ImageMark:
    """A shape inside an image, near or over the cut: its ink in card inches, true to half a pixel
    of the picture; whether it runs over the cut; whether it stands in a row as letters do."""

    area: BaseGeometry
    crossing: bool
    is_letter: bool


@dataclass(frozen=True)
class _Runs:
    """Horizontal runs of marked pixels: row, first and last column, and the shape each is of."""

    row: NDArray[np.int64]
    first: NDArray[np.int64]
    last: NDArray[np.int64]
    shape: NDArray[np.int64]


def image_marks(inspection: Inspection, zones: DieZones, sight: Sight) -> list[ImageMark]:
    """Returns the shapes inside placed images that stand too near the cut."""
    found: list[ImageMark] = []
    for painted in inspection.painted:
        if (
            painted.kind != "image"
            or painted.tiled
            or painted.box.width * painted.box.height < 0.02
        ):
            continue
        if zones.safe.contains(shapely.box(*painted.box)):
            continue
        found += _marks_in(painted.box, zones, sight)
    return found


def _marks_in(box: Box, zones: DieZones, sight: Sight) -> list[ImageMark]:
    view = sight.view.within(box)
    if view.width_px < 8 or view.height_px < 8:
        return []
    column, row = view.offset_in(sight.view)
    pixels = sight.picture[row : row + view.height_px, column : column + view.width_px]
    xs = np.asarray(view.left_in + (np.arange(view.width_px) + 0.5) / view.ppi, np.float64)
    ys = np.asarray(view.top_in + (np.arange(view.height_px) + 0.5) / view.ppi, np.float64)
    ground = _ground(pixels[::THIN, ::THIN][_rim(xs[::THIN], ys[::THIN], zones)])
    if ground is None:
        return []
    rim = _rim(xs, ys, zones)
    marked = np.abs(pixels.astype(np.int16) - ground).max(axis=2) > MARK_BEYOND
    return _near(_labelled(marked), rim, (xs, ys), 0.5 / view.ppi, zones)


def _rim(xs: NDArray[np.float64], ys: NDArray[np.float64], zones: DieZones) -> NDArray[np.bool_]:
    """Returns which pixels lie between the safe zone and the cut, (len(ys), len(xs))."""
    grid_x, grid_y = (axis.ravel() for axis in np.meshgrid(xs, ys))
    inside = shapely.contains_xy(zones.cut, grid_x, grid_y)
    inside &= ~shapely.contains_xy(zones.safe, grid_x, grid_y)
    return inside.reshape(len(ys), len(xs))


def _ground(colours: NDArray[np.uint8]) -> NDArray[np.int16] | None:
    if len(colours) < FEWEST:
        return None
    ground = np.median(colours, axis=0).astype(np.int16)
    near = np.abs(colours.astype(np.int16) - ground).max(axis=1) < GROUND_WITHIN
    return ground if near.mean() > GROUND_LEAST else None


def _near(
    runs: _Runs,
    rim: NDArray[np.bool_],
    axes: tuple[NDArray[np.float64], NDArray[np.float64]],
    half_in: float,
    zones: DieZones,
) -> list[ImageMark]:
    xs, ys = axes
    boxes = _boxes(runs, axes, half_in)
    letters = {k for chain in letter_chains(np.array(list(boxes.values()))) for k in chain}
    letters = {shape for k, shape in enumerate(boxes) if k in letters}
    running_off = 0
    found: list[ImageMark] = []
    for shape in boxes:
        own = runs.shape == shape
        row, first, last = runs.row[own], runs.first[own], runs.last[own]
        if (last - first + 1).sum() < LEAST_PX or not (rim[row, first] | rim[row, last]).any():
            continue
        area = shapely.union_all(
            shapely.box(
                xs[first] - half_in, ys[row] - half_in, xs[last] + half_in, ys[row] + half_in
            )
        )
        left, top, right, bottom = area.bounds
        if max(right - left, bottom - top) > LARGEST_IN:
            continue
        if not zones.reached.contains(area):
            running_off += 1
            continue
        crossing = not zones.cut.contains(area)
        found.append(ImageMark(area, crossing, shape in letters))
    return found if running_off < TEXTURE_OFF else [mark for mark in found if mark.is_letter]


def _boxes(
    runs: _Runs, axes: tuple[NDArray[np.float64], NDArray[np.float64]], half_in: float
) -> dict[int, tuple[float, float, float, float]]:
    """Returns the box of every shape, card inches, by its number."""
    xs, ys = axes
    order = np.argsort(runs.shape, kind="stable")
    shapes, first = np.unique(runs.shape[order], return_index=True)
    if not len(shapes):
        return {}
    left = np.minimum.reduceat(xs[runs.first[order]], first) - half_in
    right = np.maximum.reduceat(xs[runs.last[order]], first) + half_in
    top = np.minimum.reduceat(ys[runs.row[order]], first) - half_in
    bottom = np.maximum.reduceat(ys[runs.row[order]], first) + half_in
    sides = zip(left, top, right, bottom, strict=True)
    return {
        int(shape): (float(a), float(b), float(c), float(d))
        for shape, (a, b, c, d) in zip(shapes, sides, strict=True)
    }


def _labelled(marked: NDArray[np.bool_]) -> _Runs:
    """Returns the runs of a mask, those that touch in rows one above the other sharing a shape."""
    padded = np.zeros((marked.shape[0], marked.shape[1] + 2), np.int8)
    padded[:, 1:-1] = marked
    row, first = np.nonzero(np.diff(padded, axis=1) == 1)
    _, last = np.nonzero(np.diff(padded, axis=1) == -1)
    last = last - 1
    parent = list(range(len(row)))

    def root(k: int) -> int:
        while parent[k] != k:
            parent[k] = parent[parent[k]]
            k = parent[k]
        return k

    starts = np.searchsorted(row, np.arange(marked.shape[0] + 1))
    for y in range(1, marked.shape[0]):
        above, here = starts[y - 1], starts[y]
        while above < starts[y] and here < starts[y + 1]:
            if first[here] <= last[above] + 1 and first[above] <= last[here] + 1:
                parent[root(here)] = root(above)
            if last[here] < last[above]:
                here += 1
            else:
                above += 1
    shape = np.array([root(k) for k in range(len(row))], np.int64)
    return _Runs(row, first, last, shape)
