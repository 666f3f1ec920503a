"""Where two pictures differ by more than drawing a page twice does, in cells of a fiftieth inch.

Two kinds of evidence: a thing drawn otherwise is far beyond what edges explain, measured by the
contrast round it; a thing in another colour differs by little, but everywhere the same way.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from mockup.colour.difference import difference
from mockup.colour.lab import SRGB_TO_XYZ, lab_of_xyz
from mockup.colour.srgb import to_light
from mockup.comparing.nearby import apart, averaged, largest, most
from mockup.comparing.touching import grown
from mockup.pixels import Bytes

Cells = NDArray[np.bool_]

CELL_PX = 6
"""The side of a cell, pixels: a fiftieth of an inch at 300 ppi."""

# Judgement, from half of the pairs of benchmarks/changes, here and below: edges that two programs
# draw differ by up to a seventh of their contrast, and pictures kept as JPEG by up to 8 steps.
_SHARE = 0.15
_LEAST_STEP = 12
_THIN = 3  # a line of a pixel, averaged over three, keeps a third of what it differs by
_ROUNDED = 2  # steps: colours rounded once more
_CALM_STEP = 12  # steps of contrast: under it a cell shows its ground alone
_REACH = 4  # cells whose contrast counts: JPEG rings over 8 pixels
_PATCH = 2  # cells: a patch that colours are averaged over is three times this wide
_LEAST_PX = 24  # of a patch, that have to differ
_ONE_WAY = 0.8  # 1 where all pixels of a patch differ alike, 0 where they cancel out
_SAVED_STEP = 4.5  # a program that saves a page again was met to shift dark colours by four steps
SEEN = 2.4
"""CIEDE2000: below it two colours are held to be one. Common practice takes 2 to 3 for just seen
side by side, and colours asked to differ by 3 are rounded to bytes."""


@dataclass(frozen=True)
class Evidence:
    """What differs, cell by cell, (rows, columns): drawn otherwise, and with which weight; in
    another colour; and which cells have more than their ground in either picture."""

    drawn: Cells
    weight: NDArray[np.float32]
    """Pixels beyond what edges explain, each by its share of the contrast round it."""
    tinted: Cells
    apart: NDArray[np.float32]
    """CIEDE2000 of the cells tinted."""
    detailed: Cells


def evidence(before: Bytes, after: Bytes) -> Evidence:
    """Returns what differs between two pictures of one size, (h, w, 3) sRGB at about 300 ppi."""
    sharp = apart(after, before)
    soft = most(largest(apart(averaged(after), averaged(before))))
    sharpest = largest(sharp)
    contrast = _contrast(before, after)
    weight = _weights(np.minimum(most(sharpest), soft), contrast)
    kept = (soft > _ROUNDED) & (sharpest > 0)
    kept &= sharpest <= _THIN * soft.astype(np.int16) + _ROUNDED
    tinted, apart_by = _tinted(sharp, kept, after)
    return Evidence(weight > 0, weight, tinted, apart_by, contrast > _CALM_STEP)


def within(found: Evidence, margin: int) -> Evidence:
    """Returns the evidence without that of the cells nearer than so many to the edge."""
    rows, columns = found.drawn.shape
    inner = np.zeros((rows, columns), np.bool_)
    inner[margin : rows - margin, margin : columns - margin] = True
    weight = np.where(inner, found.weight, 0).astype(np.float32)
    return replace(found, drawn=found.drawn & inner, tinted=found.tinted & inner, weight=weight)


def thick(found: Evidence) -> Evidence:
    """Returns the evidence without colour that differs along a thin line: drawn between pixels, all
    of such a line is a little lighter."""
    core = ~grown(~found.tinted, 1, 1)
    return replace(found, tinted=found.tinted & grown(core, 1, 1))


def _weights(size: Bytes, contrast: NDArray[np.int16]) -> NDArray[np.float32]:
    """Returns for every cell the sum of what is beyond the limit that the contrast round it sets,
    each pixel by its share of the limit."""
    limit = np.maximum(_LEAST_STEP, _SHARE * _widest(contrast, _REACH)).astype(np.float32)
    y, x = np.nonzero(size > _LEAST_STEP)
    row, column = y // CELL_PX, x // CELL_PX
    share = size[y, x] / limit[row, column]
    share[share <= 1] = 0
    return _gathered(row, column, (contrast.shape[0], contrast.shape[1]), share)


def _gathered(
    row: NDArray[np.intp],
    column: NDArray[np.intp],
    shape: tuple[int, int],
    values: NDArray[np.floating] | Bytes,
) -> NDArray[np.float32]:
    """Returns the sum of values over the cells they lie in."""
    rows, columns = shape
    sums = np.bincount(row * columns + column, values, rows * columns)
    return sums.reshape(rows, columns).astype(np.float32)


def _contrast(before: Bytes, after: Bytes) -> NDArray[np.int16]:
    """Returns the span of the lightest and darkest value in each cell of either picture."""
    spans = [
        _blocks(picture, np.maximum).astype(np.int16) - _blocks(picture, np.minimum)
        for picture in (before, after)
    ]
    return np.maximum(spans[0], spans[1]).max(axis=2)


def _blocks(picture: Bytes, extreme: np.ufunc) -> Bytes:
    """Returns the extreme of every cell; those cut off by the picture's end have what is there."""
    for axis in (0, 1):
        short = -picture.shape[axis] % CELL_PX
        if short:
            width = [(0, short) if k == axis else (0, 0) for k in range(3)]
            picture = np.pad(picture, width, mode="edge")
        first = [slice(None)] * axis
        parts = [picture[(*first, slice(k, None, CELL_PX))] for k in range(CELL_PX)]
        picture = parts[0].copy()
        for part in parts[1:]:
            extreme(picture, part, out=picture)
    return picture


def _widest(contrast: NDArray[np.int16], reach: int) -> NDArray[np.int16]:
    """Returns the largest contrast within `reach` cells of each."""
    widest = contrast
    for axis in (0, 1):
        padded = np.pad(widest, [(reach, reach) if k == axis else (0, 0) for k in (0, 1)])
        count = widest.shape[axis]
        parts = [np.take(padded, range(k, k + count), axis) for k in range(2 * reach + 1)]
        widest = np.maximum.reduce(parts)
    return widest


def _tinted(
    sharp: tuple[Bytes, Bytes], kept: NDArray[np.bool_], after: Bytes
) -> tuple[Cells, NDArray[np.float32]]:
    """Returns the cells whose pixels differ the same way by a difference that is seen, and by how
    much. Large differences weigh more: a letter's core shows its ink, its edges do not."""
    y, x = np.nonzero(kept)
    row, column = y // CELL_PX, x // CELL_PX
    shape = (-(-kept.shape[0] // CELL_PX), -(-kept.shape[1] // CELL_PX))
    steps = sharp[0][y, x].astype(np.float32) - sharp[1][y, x]
    length = np.sqrt((steps**2).sum(axis=1))

    def summed(values: NDArray[np.floating] | Bytes) -> NDArray[np.float32]:
        return _patches(_gathered(row, column, shape, values))

    count, lengths = summed(np.ones(len(y))), summed(length)
    way = np.dstack([summed(steps[:, k]) for k in range(3)])
    likely = (count >= _LEAST_PX) & (np.sqrt((way**2).sum(axis=2)) >= _ONE_WAY * lengths)
    by = np.dstack([summed(steps[:, k] * length) for k in range(3)])[likely]
    ground = np.dstack([summed(after[y, x, k]) for k in range(3)])[likely]
    ground /= count[likely][:, None]
    apart_by = np.zeros(shape, np.float32)
    by /= lengths[likely][:, None]
    seen = difference(_lab(ground), _lab(ground - by))
    apart_by[likely] = np.where(np.abs(by).max(axis=1) > _SAVED_STEP, seen, 0)
    own = _gathered(row, column, shape, np.ones(len(y))) > 0
    return (apart_by >= SEEN) & own, apart_by


def _lab(values: NDArray[np.float32]) -> NDArray[np.float64]:
    encoded = np.clip(values.astype(np.float64) / 255, 0, 1)
    return lab_of_xyz(to_light(encoded) @ SRGB_TO_XYZ.T)


def _patches(cells: NDArray[np.float32]) -> NDArray[np.float32]:
    """Returns the sum of every cell and those within `_PATCH` of it."""
    for axis in (0, 1):
        width = [(_PATCH + 1, _PATCH) if k == axis else (0, 0) for k in range(cells.ndim)]
        running = np.cumsum(np.pad(cells, width), axis=axis, dtype=np.float64)
        count = cells.shape[axis]
        far = np.take(running, range(2 * _PATCH + 1, 2 * _PATCH + 1 + count), axis)
        cells = (far - np.take(running, range(count), axis)).astype(np.float32)
    return cells
