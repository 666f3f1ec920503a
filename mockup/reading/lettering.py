"""Type that is drawn as outlines: rows of small shapes that stand on one line as letters do."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.reading.part import Part

# Judgement: the x-height of 2 pt type to a monogram; letters outside are not looked for.
HEIGHT_IN = (0.01, 3.0)
LEAST = 3  # judgement: two shapes in a row are common, three on a line are not
GAP_HEIGHTS = 0.8  # judgement: a wider gap than this many letter heights ends a word
ASPECTS = (0.2, 1.7)  # judgement: usual width over height of letters, condensed to wide faces
WIDEST = 3.0  # judgement: letter heights; a dash is no letter, nor is a line of waves
LIKE_HEIGHT = 0.3  # judgement: of two neighbours: a full stop is no letter to a capital
STANDING = 0.6  # judgement: share of a word's letters that stand on its baseline; g, p, q, y do not
STANDING_WITHIN = 0.15  # judgement: of a letter's height: round letters overshoot by less
SHORT_WORD = 5  # judgement: fewer letters may stand in a row by chance, and are asked more
SHORT_STANDING = 0.75  # judgement: one letter of four may hang below
# Judgement: letters of one word stand nearer, marks in a row further apart.
SHORT_GAP_HEIGHTS = 0.35
# Judgement: ornaments repeat one width to this; of letters fewer than the share do.
SAME_WITHIN = 0.03
SAME_SHARE = 0.75  # judgement: of marks of one width; ornaments repeat, a word's letters do not
AROUND_HEIGHTS = 4.0  # judgement: a line or two; so far round a word its neighbours are looked at
WORDS_SHARE = 0.4  # judgement: of them that are in words; ends of lines and short words are not


@dataclass(frozen=True)
class Row:
    """Letters of one word or line: indices into the parts given, and the usual letter height."""

    members: tuple[int, ...]
    height_in: float


def outlined_rows(parts: Sequence[Part]) -> list[Row]:
    """Returns the words of upright letters among filled sub-paths; their counters are members too.

    A word is a chain of shapes of one ink and like height, close together, most of them standing on
    one baseline, and not all of one width. Type along a curve is not seen as a word.
    """
    counters = _counters(parts)
    inks: dict[object, list[int]] = {}
    for k, part in enumerate(parts):
        if k not in counters and _may_be_letter(part):
            inks.setdefault((part.painted.ink, part.painted.layer), []).append(k)
    inside: dict[int, list[int]] = {}
    for counter, letter in counters.items():
        inside.setdefault(letter, []).append(counter)
    rows: list[Row] = []
    for members in inks.values():
        boxes = np.array([parts[k].box for k in members])
        sizes = np.array([(parts[k].whole_width_in, parts[k].whole_height_in) for k in members])
        chains = [c for c in _chains(boxes) if _stands_as_letters(boxes[c], sizes[c])]
        for chain in _among_words(boxes, chains):
            height = float(np.median(boxes[chain][:, 3] - boxes[chain][:, 1]))
            letters = [members[k] for k in chain]
            within = [c for letter in letters for c in inside.get(letter, [])]
            rows.append(Row((*letters, *within), height))
    return rows


def letter_chains(boxes: NDArray[np.float64]) -> list[NDArray[np.int64]]:
    """Returns which of some boxes (left, top, right, bottom) stand in rows as letters do."""
    if not len(boxes):
        return []
    height = boxes[:, 3] - boxes[:, 1]
    able = np.flatnonzero((height >= HEIGHT_IN[0]) & (height <= HEIGHT_IN[1]))
    sizes = boxes[:, 2:] - boxes[:, :2]
    chains = [able[chain] for chain in _chains(boxes[able])] if len(able) else []
    return _among_words(boxes, [c for c in chains if _stands_as_letters(boxes[c], sizes[c])])


def _counters(parts: Sequence[Part]) -> dict[int, int]:
    """Returns the sub-paths that lie inside another one of the same object, and which one."""
    objects: dict[int, list[int]] = {}
    for k, part in enumerate(parts):
        if part.painted.kind == "path" and part.painted.pen is None:
            objects.setdefault(part.index, []).append(k)
    found: dict[int, int] = {}
    for members in objects.values():
        if len(members) < 2:
            continue
        boxes = np.array([parts[k].box for k in members])
        low = (boxes[:, None, :2] <= boxes[None, :, :2] + 1e-6).all(axis=2)
        high = (boxes[:, None, 2:] >= boxes[None, :, 2:] - 1e-6).all(axis=2)
        small = np.array([parts[k].box.height <= HEIGHT_IN[1] for k in members])
        around = low & high & small[:, None] & ~np.eye(len(members), dtype=bool)
        for inner in np.flatnonzero(around.any(axis=0)):
            found[members[inner]] = members[int(np.argmax(around[:, inner]))]
    return found


def _may_be_letter(part: Part) -> bool:
    if part.painted.kind != "path" or part.painted.pen is not None:
        return False
    height = part.box.height
    return HEIGHT_IN[0] <= height <= HEIGHT_IN[1] and part.box.width <= WIDEST * height


def _chains(boxes: NDArray[np.float64]) -> list[NDArray[np.int64]]:
    """Returns groups of boxes that follow one another from left to right on about one line."""
    rows = boxes.tolist()  # plain numbers: the loop is over single boxes
    open_chains: list[list[int]] = []
    done: list[list[int]] = []
    for k in np.argsort(boxes[:, 0]).tolist():
        box = rows[k]
        joined = False
        still: list[list[int]] = []
        for chain in open_chains:
            gap = box[0] - max(rows[m][2] for m in chain[-4:])
            last = rows[chain[-1]]
            if gap > GAP_HEIGHTS * max(box[3] - box[1], last[3] - last[1]):
                done.append(chain)
                continue
            still.append(chain)
            if not joined and _beside(box, last):
                chain.append(k)
                joined = True
        open_chains = still
        if not joined:
            open_chains.append([k])
    return [np.array(chain) for chain in [*done, *open_chains] if len(chain) >= LEAST]


def _beside(box: Sequence[float], last: Sequence[float]) -> bool:
    """Returns whether two boxes are of like height and stand at about one height."""
    height, before = box[3] - box[1], max(last[3] - last[1], 1e-9)
    shared = min(box[3], last[3]) - max(box[1], last[1])
    return LIKE_HEIGHT < height / before < 1 / LIKE_HEIGHT and shared > 0.4 * min(height, before)


def _stands_as_letters(boxes: NDArray[np.float64], sizes: NDArray[np.float64]) -> bool:
    """Returns whether a chain stands on a baseline, and is of different shapes. `sizes` are widths
    and heights before any clip."""
    widths, heights = boxes[:, 2] - boxes[:, 0], boxes[:, 3] - boxes[:, 1]
    aspects = sizes[:, 0] / np.maximum(sizes[:, 1], 1e-9)
    if not ASPECTS[0] <= np.median(widths / heights) <= ASPECTS[1]:
        return False
    off = np.abs(boxes[:, 3] - np.median(boxes[:, 3]))
    standing = np.mean(off < STANDING_WITHIN * np.median(heights))
    least = STANDING
    if len(boxes) < SHORT_WORD:
        gaps = boxes[1:, 0] - boxes[:-1, 2]
        if np.median(gaps) > SHORT_GAP_HEIGHTS * np.median(heights):
            return False
        least = SHORT_STANDING
    return bool(standing >= least and not _alike(sizes[:, 0]) and not _alike(aspects))


def _alike(values: NDArray[np.float64]) -> bool:
    usual = np.median(values)
    return bool(np.mean(np.abs(values - usual) < SAME_WITHIN * usual) >= SAME_SHARE)


def _among_words(
    boxes: NDArray[np.float64], chains: list[NDArray[np.int64]]
) -> list[NDArray[np.int64]]:
    """Returns the chains round which most marks of like size are in chains too: among specks a row
    comes about by chance."""
    chained = np.zeros(len(boxes), bool)
    for chain in chains:
        chained[chain] = True
    heights = boxes[:, 3] - boxes[:, 1]
    kept: list[NDArray[np.int64]] = []
    for chain in chains:
        height = float(np.median(heights[chain]))
        reach = AROUND_HEIGHTS * height
        left, top = boxes[chain, :2].min(axis=0) - reach
        right, bottom = boxes[chain, 2:].max(axis=0) + reach
        near = (boxes[:, 2] > left) & (boxes[:, 0] < right)
        near &= (boxes[:, 3] > top) & (boxes[:, 1] < bottom)
        near &= (heights > LIKE_HEIGHT * height) & (heights < height / LIKE_HEIGHT)
        near[chain] = False
        if not near.any() or chained[near].mean() >= WORDS_SHARE:
            kept.append(chain)
    return kept
