"""Type that is drawn as outlines: rows of small shapes that stand on one line as letters do."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.checks.parts import Part

HEIGHT_IN = (0.02, 1.0)  # letters outside these heights are not looked for
LEAST = 3
GAP_HEIGHTS = 1.2  # a wider gap than this many letter heights ends a row
ALIKE = 0.06  # ornaments repeat the same shape; letters of a word differ in width by more


@dataclass(frozen=True)
class Row:
    """Letters of one word or line: indices into the parts given, and the usual letter height."""

    members: tuple[int, ...]
    height_in: float


def outlined_rows(parts: Sequence[Part]) -> list[Row]:
    """Returns the rows of letters among filled sub-paths; upright, or lying along one line.

    A row is a chain of shapes of one ink and like height, close together, most of them standing on
    one baseline, and not all the same shape. Type along a curve is not seen as a row.
    """
    able = [k for k, part in enumerate(parts) if _may_be_letter(part)]
    rows: list[Row] = []
    inks: dict[object, list[int]] = {}
    for k in able:
        inks.setdefault((parts[k].painted.ink, parts[k].painted.layer), []).append(k)
    for members in inks.values():
        boxes = np.array([parts[k].box for k in members])
        for chain in _chains(boxes):
            if _stands_as_letters(boxes[chain]):
                height = float(np.median(boxes[chain][:, 3] - boxes[chain][:, 1]))
                rows.append(Row(tuple(members[k] for k in chain), height))
    return rows


def _may_be_letter(part: Part) -> bool:
    if part.painted.kind != "path" or part.painted.pen is not None:
        return False
    return HEIGHT_IN[0] <= part.box.height <= HEIGHT_IN[1] and part.box.width <= 2 * HEIGHT_IN[1]


def _chains(boxes: NDArray[np.float64]) -> list[NDArray[np.int64]]:
    """Returns groups of boxes that follow one another from left to right on about one line."""
    order = np.argsort(boxes[:, 0])
    open_rows: list[list[int]] = []
    done: list[list[int]] = []
    for k in order:
        left, top, _, bottom = boxes[k]
        height = bottom - top
        joined = False
        still: list[list[int]] = []
        for row in open_rows:
            last = boxes[row[-1]]
            reach = max(float(boxes[m][2]) for m in row[-4:])
            tall = max(height, last[3] - last[1])
            if left - reach > GAP_HEIGHTS * tall and left - reach > 0.15:
                done.append(row)
                continue
            still.append(row)
            shared = min(bottom, last[3]) - max(top, last[1])
            like = 0.3 < height / max(last[3] - last[1], 1e-9) < 3.3
            near = left - reach <= GAP_HEIGHTS * tall
            if not joined and like and near and shared > 0.4 * min(height, last[3] - last[1]):
                row.append(int(k))
                joined = True
        open_rows = still
        if not joined:
            open_rows.append([int(k)])
    return [np.array(row) for row in [*done, *open_rows] if len(row) >= LEAST]


def _stands_as_letters(boxes: NDArray[np.float64]) -> bool:
    widths, heights = boxes[:, 2] - boxes[:, 0], boxes[:, 3] - boxes[:, 1]
    aspect = np.median(widths / heights)
    if not 0.2 <= aspect <= 1.7:
        return False
    height = np.median(heights)
    baseline = np.median(boxes[:, 3])
    standing = np.mean(np.abs(boxes[:, 3] - baseline) < 0.15 * height)
    varied = np.std(widths) / np.mean(widths) > ALIKE
    return bool(standing >= 0.5 and varied)
