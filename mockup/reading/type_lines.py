"""Letters gathered into lines of type, live or outlined: what is moved together, and what it says.

A program may set a line in one piece, word by word or letter by letter; here only what stands
together counts.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray

from mockup.artwork.inspection import Painted
from mockup.reading.part import Part
from mockup.reading.parts import Parts
from mockup.trade.tolerances import SIZE_PER_X_HEIGHT
from mockup.units import pt_to_in

ALONG_EMS = 0.4  # judgement: from each letter; together a wide word space, less than a column's gap
ASIDE_EMS = 0.12  # judgement: from each letter, any way: letters along a slope or a curve
SPACE_EMS = 0.15  # judgement: a quarter of an em is usual, letters stand nearer
TEXT_MOST = 40  # judgement: letters told of a line


@dataclass(frozen=True)
class LetterLine:
    """A line of type: its letters as indices into the parts, its size in inches, what it says;
    of outlined type it says nothing."""

    members: tuple[int, ...]
    em_in: float
    text: str


def letter_lines(parts: Parts) -> list[LetterLine]:
    """Returns all lines of type of a page, live ones and outlined."""
    letters = [k for k, part in enumerate(parts.all) if part.is_type or k in parts.lettered]
    if not letters:
        return []
    boxes = np.array([parts.all[k].box for k in letters])
    ems = np.array([_em(parts, k) for k in letters])
    group = _joined(boxes, ems)
    lines: dict[int, list[int]] = {}
    for own, k in zip(group.tolist(), range(len(letters)), strict=True):
        lines.setdefault(own, []).append(k)
    return [
        LetterLine(
            tuple(letters[k] for k in own),
            float(np.median(ems[own])),
            _text([parts.all[letters[k]] for k in own], float(np.median(ems[own]))),
        )
        for own in lines.values()
    ]


def _em(parts: Parts, k: int) -> float:
    lettering = parts.all[k].painted.lettering
    if lettering is not None:
        return pt_to_in(lettering.size_pt)
    return parts.lettered[k].height_in * SIZE_PER_X_HEIGHT


def _joined(boxes: NDArray[np.float64], ems: NDArray[np.float64]) -> NDArray[np.int64]:
    """Returns for each letter which line it is of: those that reach one another along a line."""
    left, top, right, bottom = boxes.T
    along = shapely.box(left - ALONG_EMS * ems, top, right + ALONG_EMS * ems, bottom)
    aside = ASIDE_EMS * ems
    around = shapely.box(left - aside, top - aside, right + aside, bottom + aside)
    pairs = np.concatenate(
        [shapely.STRtree(reach).query(reach, predicate="intersects") for reach in (along, around)],
        axis=1,
    )
    return components(len(boxes), pairs)


def components(count: int, pairs: NDArray[np.int64]) -> NDArray[np.int64]:
    """Returns for each of `count` things the least number of those that (2, n) pairs join it to."""
    label = np.arange(count)
    while True:
        least = label.copy()
        np.minimum.at(least, pairs[0], label[pairs[1]])
        np.minimum.at(least, pairs[1], label[pairs[0]])
        least = least[least]
        if (least == label).all():
            return label
        label = least


def _text(letters: Sequence[Part], em_in: float) -> str:
    """Returns what live letters say, from left to right, words parted where they stand apart."""
    read: dict[tuple[int, int], tuple[float, float, str]] = {}
    runs: dict[int, str] = {}
    for part in sorted(letters, key=lambda each: each.box.left):
        if part.painted.lettering is not None:
            runs.setdefault(part.index, part.painted.lettering.text)
        place = _glyph(part)
        if place is not None:
            glyph, letter = place
            before = read.get((part.index, glyph), (part.box.left, part.box.right, letter))
            left, right = min(before[0], part.box.left), max(before[1], part.box.right)
            read[(part.index, glyph)] = (left, right, letter)
    known = {index for index, _ in read}
    whole = known == set(runs)  # a ligature is one glyph of two letters: then the runs are told
    said = _spaced(sorted(read.values()), em_in) if whole else " ".join(runs.values())
    return said if len(said) <= TEXT_MOST else said[: TEXT_MOST - 1].rstrip() + "…"


def _spaced(letters: Sequence[tuple[float, float, str]], em_in: float) -> str:
    """Returns letters, each with its left and right, as words: letterspaced ones stay words."""
    if not letters:
        return ""
    gaps = [after[0] - before[1] for before, after in pairwise(letters)]
    usual = max(float(np.median(gaps)), 0.0) if gaps else 0.0
    said = letters[0][2]
    for gap, (_, _, letter) in zip(gaps, letters[1:], strict=True):
        apart = gap > usual + SPACE_EMS * em_in and not letter.startswith(" ")
        said += f" {letter}" if apart else letter
    return said.strip()


def _glyph(part: Part) -> tuple[int, str] | None:
    """Returns which glyph of its run a ring is of, and the letter, after a space where the run has
    one; None where that is not known."""
    painted: Painted = part.painted
    if painted.lettering is None or len(painted.glyphs) != len(painted.lettering.text):
        return None
    ring = next((k for k, each in enumerate(painted.rings) if each is part.ring), None)
    if ring is None:
        return None
    glyph = int(np.searchsorted(np.cumsum(painted.glyphs), ring, side="right"))
    said = painted.lettering.text
    parted = glyph > 0 and said[glyph - 1].isspace()
    return glyph, f" {said[glyph]}" if parted else said[glyph]
