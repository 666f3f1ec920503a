"""Changed cells gathered into places a person would ring, and what happened in each."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.comparing.evidence import CELL_PX, Cells, Evidence
from mockup.comparing.kinds import Kind, kind_of
from mockup.comparing.touching import grown, touching
from mockup.geometry.point import Box, Point
from mockup.pixels import Bytes

# Judgement, in cells of a fiftieth of an inch: the words of a line are one place, two lines not.
_ACROSS, _DOWN = 5, 1
_LEAST_WEIGHT = 25.0  # half A of benchmarks/changes: the least change has 60, noise 15 at most
_LEAST_CELLS = 16  # of another colour: a dot of a sixteenth of an inch
_MOST = 12  # judgement: a page with more rings than this is hard to read
_ROUND = 3  # cells round a place that are looked at with it


@dataclass(frozen=True)
class Place:
    """A place that changed: its box in inches from the picture's top left, what happened, and for
    what moved how far, inches right and down; how much of it changed, to rank by."""

    box: Box
    kind: Kind
    moved_in: Point
    weight: float


def places(found: Evidence, before: Bytes, after: Bytes, ppi: float) -> tuple[Place, ...]:
    """Returns the places that changed, from the top down, at most twelve: where there would be
    more, those near each other are taken together."""
    changed = _enough(found)
    if not changed.any():
        return ()
    numbers = _gathered(changed)
    each = [_place(found, numbers == k, before, after, ppi) for k in range(1, numbers.max() + 1)]
    return tuple(sorted(each, key=lambda place: (place.box.top, place.box.left)))


def _enough(found: Evidence) -> Cells:
    """Returns the cells of groups that weigh enough to be no accident."""
    changed = found.drawn | found.tinted
    numbers = touching(grown(changed, 1, 1))
    count = numbers.max() + 1
    weight = np.bincount(numbers[found.drawn], found.weight[found.drawn], count)
    cells = np.bincount(numbers[found.tinted], minlength=count)
    kept = (weight >= _LEAST_WEIGHT) | (cells >= _LEAST_CELLS)
    kept[0] = False
    return kept[numbers] & changed


def _gathered(changed: Cells) -> NDArray[np.int32]:
    """Returns the number of the place each changed cell belongs to, 0 for the others."""
    across, down = _ACROSS, _DOWN
    while True:
        numbers = touching(grown(changed, across, down))
        if numbers.max() <= _MOST:
            return np.where(changed, numbers, 0)
        across, down = across * 2, down * 2


def _place(found: Evidence, own: Cells, before: Bytes, after: Bytes, ppi: float) -> Place:
    rows, columns = np.nonzero(own)
    top, left = int(rows.min()), int(columns.min())
    bottom, right = int(rows.max()) + 1, int(columns.max()) + 1
    high, wide = after.shape[:2]
    cell_in = CELL_PX / ppi
    box = Box(left * cell_in, top * cell_in, right * cell_in, bottom * cell_in)
    box = Box(box.left, box.top, min(box.right, wide / ppi), min(box.bottom, high / ppi))
    cut = (
        slice(max(0, top - _ROUND), bottom + _ROUND),
        slice(max(0, left - _ROUND), right + _ROUND),
    )
    pixels = tuple(slice(side.start * CELL_PX, side.stop * CELL_PX) for side in cut)
    crops = before[pixels], after[pixels]
    where = np.repeat(np.repeat(own[cut], CELL_PX, axis=0), CELL_PX, axis=1)
    where = where[: crops[1].shape[0], : crops[1].shape[1]]
    weight = float(found.weight[own].sum())
    kind, far = kind_of(*crops, where, weight >= _LEAST_WEIGHT)
    return Place(box, kind, Point(far[0] / ppi, far[1] / ppi), weight)
