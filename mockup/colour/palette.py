"""The colours a picture is made of: a few, each with the share of the area it takes.

Solid colours first, for they can be named to the last digit; what then remains, gradients and
photographs, is gathered round its densest places. Nothing is left to chance: the same picture has
the same palette. Pixels on an edge are a mixture of both sides, and are asked for no colour.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.colour.difference import difference
from mockup.colour.runs import run_lengths, run_starts

Numbers = NDArray[np.float64]
Mask = NDArray[np.bool_]

# All of these are judgements, by eye on made and drawn pages.
MOST = 8  # colours of one picture: more is a picture, no palette
LEAST_OF_INK = 0.05  # a colour with less of the inked area is not one the eye keeps
EVEN_LAB = 4.0  # in L*, a*, b*: four pixels further apart than this lie on an edge
SOLID_DE00 = 2.0  # a solid colour keeps within this
AROUND_DE00 = 3.5  # and has next to nothing between there and here
SOLID_SHARE = 0.8  # of what lies within the outer of the two
GATHERED_DE00 = (
    8.0  # of a gradient or a photograph: so far from its middle is one colour to the eye
)
MOVING_DE00 = 5.0  # round this far the middle is looked for
WHOLE_OF_INK = 0.5  # a wash over half of the ink is the picture's colour, solid or not
FEW_EVEN = 0.1  # with less than this share of even pixels it is all hairlines or noise
_STEPS = 8  # of moving to the middle; it is there in three or four
_FINE_LAB, _COARSE_LAB = (1.0, 2.0, 3.0, 4.0), 5.0
_CELLS_MOST = 3000  # more are gathered in larger cells: a photograph has fifty thousand
_DEEP_PX, _DEEP_SHARE = 2, 0.1  # a tint has some places that are even so far around; an edge none
_ASIDE_LAB, _ASIDE_SHARE = 5.0, 0.08  # how far from the line between two colours a mixture lies
_SOME = 20_000  # pixels of one colour that are looked at for how solid it is
_SPREAD_PX = 3  # how far an edge takes its neighbour's colour


@dataclass(frozen=True)
class Dominant:
    """One colour of a picture: CIELAB under D50; its share of the picture and of what is inked;
    whether it is one colour, not a passage through many; a pixel, (row, column), amid it."""

    lab: tuple[float, float, float]
    share: float
    of_ink: float
    solid: bool
    at: tuple[int, int]


@dataclass(frozen=True)
class _Masks:
    """What of a picture is looked at, what of it is paper, and what is inked and on no edge."""

    inside: Mask
    bare: Mask
    even: Mask


def dominant(lab: Numbers, inside: Mask, bare: Mask) -> tuple[Dominant, ...]:
    """Returns the dominant colours of a picture, the largest first; none where nothing is inked.

    lab: (h, w, 3) CIELAB. inside: (h, w), what of it is looked at. bare: (h, w), where it is paper,
    which is no colour of the picture.
    """
    ink = inside & ~bare
    inked = int(ink.sum())
    if inked == 0:
        return ()
    even = _even(lab, inside) & ink
    if even.sum() >= FEW_EVEN * inked:
        cells = _cells(lab[even], np.ones(int(even.sum())))
    else:  # a stroke's fullest colour is where it is farthest from its paper
        even = ink
        far = _from_paper(lab, ink, inside & bare)
        cells = _cells(lab[ink], far**2)
    middles = np.array(_middles(*cells))
    if not len(middles):
        return ()
    masks = _Masks(inside, bare, even)
    labels = _labels(lab, middles, masks)
    mixed = _mixed(lab, middles, labels, masks)
    if mixed.any():  # what was taken for even is an edge after all
        even = even & ~((labels >= 0) & mixed[np.maximum(labels, 0)])
        masks, middles = _Masks(inside, bare, even), middles[~mixed]
        labels = _labels(lab, middles, masks)
    return _measured(lab, middles, labels, masks)


def _even(lab: Numbers, inside: Mask) -> Mask:
    """Returns the pixels of every square of two by two that is of one colour, or nearly."""
    if min(inside.shape) < 2:
        return inside.copy()
    square = np.ones((inside.shape[0] - 1, inside.shape[1] - 1), bool)
    corners = [np.s_[:-1, :-1], np.s_[:-1, 1:], np.s_[1:, :-1], np.s_[1:, 1:]]
    for corner in corners:
        square &= inside[corner]
    for channel in range(3):
        most, least = (_of_squares(lab[..., channel], of) for of in (np.maximum, np.minimum))
        square &= most - least <= EVEN_LAB
    even = np.zeros_like(inside)
    for corner in corners:
        even[corner] |= square
    return even


def _of_squares(values: Numbers, of: np.ufunc) -> Numbers:
    """Returns the most, or the least, of every square of two by two."""
    pairs = of(values[:, :-1], values[:, 1:])
    return of(pairs[:-1], pairs[1:])


def _from_paper(lab: Numbers, ink: Mask, bare: Mask) -> Numbers:
    """Returns how far every inked pixel is from the paper's colour, as a straight line in CIELAB;
    1 for each where no paper is seen."""
    if not bare.any():
        return np.ones(int(ink.sum()))
    return np.linalg.norm(lab[ink] - lab[bare].mean(axis=0), axis=1)


def _cells(colours: Numbers, weights: Numbers) -> tuple[Numbers, Numbers]:
    """Returns colours gathered in small cells of CIELAB: mean colours, (n, 3), and weights."""
    for side in _FINE_LAB:
        colours, weights, _ = _gathered(colours, weights, side)
        if len(weights) <= _CELLS_MOST:
            break
    return colours, weights


def _gathered(
    colours: Numbers, weights: Numbers, side: float
) -> tuple[Numbers, Numbers, NDArray[np.intp]]:
    """Returns the mean colour and the weight of every cell, and which cell each colour is in."""
    starts = run_starts(colours)
    firsts, own = colours[starts], np.add.reduceat(weights, starts)
    steps = np.clip(np.floor(firsts / side).astype(np.int64) + 512, 0, 1023)
    packed = (steps[:, 0] << 20) | (steps[:, 1] << 10) | steps[:, 2]
    _, cell = np.unique(packed, return_inverse=True)
    total = np.bincount(cell, own).astype(np.float64)
    sums = [np.bincount(cell, own * firsts[:, k]) for k in range(3)]
    of_each = np.repeat(cell, run_lengths(starts, len(colours)))
    return np.stack(sums, axis=1) / total[:, None], total, of_each


def _middles(colours: Numbers, weights: Numbers) -> list[Numbers]:
    """Returns the middles of the palette's colours: of solid ones, then of what remains."""
    least = LEAST_OF_INK / 2 * weights.sum()
    left = weights.copy()
    untried = np.ones(len(weights), bool)
    middles: list[Numbers] = []
    for cell in np.argsort(-weights, kind="stable"):
        if weights[cell] * 8 < least or len(middles) == MOST:  # of eight cells a corner may share
            break
        if left[cell] == 0 or not untried[cell]:
            continue
        middle = _moved(colours, left, colours[cell], SOLID_DE00)
        apart = difference(colours, middle)
        untried[apart <= SOLID_DE00] = False
        core, around = left[apart <= SOLID_DE00].sum(), left[apart <= AROUND_DE00].sum()
        if core >= least and core >= SOLID_SHARE * around:
            middles.append(middle)
            left[apart <= AROUND_DE00] = 0
    while len(middles) < 2 * MOST and left.sum() > least:
        coarse, total, _ = _gathered(colours[left > 0], left[left > 0], _COARSE_LAB)
        middle = _moved(colours, left, coarse[int(total.argmax())], MOVING_DE00)
        apart = difference(colours, middle)
        middles.append(middle)
        taken = apart <= GATHERED_DE00
        taken[int(apart.argmin())] = True  # so that it ends
        left[taken] = 0
    return middles


def _moved(colours: Numbers, weights: Numbers, start: Numbers, reach: float) -> Numbers:
    """Returns the mean of what lies within reach, from there the mean again, until it rests."""
    middle = start
    for _ in range(_STEPS):
        own = np.where(difference(colours, middle) <= reach, weights, 0)
        if own.sum() == 0:
            return middle
        further = own @ colours / own.sum()
        if np.abs(further - middle).max() < 0.01:
            return further
        middle = further
    return middle


def _measured(
    lab: Numbers, middles: Numbers, labels: NDArray[np.int16], masks: _Masks
) -> tuple[Dominant, ...]:
    """Returns the colours about the middles with the areas they take."""
    counts = np.bincount(labels[labels >= 0], minlength=len(middles))
    inked, looked_at = int((masks.inside & (labels != _BARE)).sum()), int(masks.inside.sum())
    found: list[Dominant] = []
    for number in np.argsort(-counts, kind="stable")[:MOST]:
        of_ink = float(counts[number] / inked)
        own = (labels == number) & masks.even
        if of_ink < LEAST_OF_INK or not own.any():
            continue
        some = lab[own][:: max(1, int(own.sum()) // _SOME)]
        near = float((difference(some, middles[number]) <= SOLID_DE00).mean())
        lightness, a, b = (float(value) for value in middles[number])
        solid = near >= SOLID_SHARE or of_ink >= WHOLE_OF_INK
        share = float(counts[number] / looked_at)
        found.append(Dominant((lightness, a, b), share, of_ink, solid, _amid(own)))
    return tuple(found)


def _mixed(
    lab: Numbers, middles: Numbers, labels: NDArray[np.int16], masks: _Masks
) -> NDArray[np.bool_]:
    """Returns which middles are those of edges: on the line between two others, or between paper
    and another, and nowhere even for more than a pixel or two."""
    ends = list(middles)
    if (paper := masks.inside & masks.bare).any():
        ends.append(lab[paper].mean(axis=0))
    deep = masks.even
    for _ in range(_DEEP_PX):
        deep = deep & np.roll(deep, 1, 0) & np.roll(deep, -1, 0)
        deep = deep & np.roll(deep, 1, 1) & np.roll(deep, -1, 1)
    mixed = np.zeros(len(middles), bool)
    for number, middle in enumerate(middles):
        own = labels == number
        if (own & deep).sum() >= _DEEP_SHARE * own.sum():
            continue
        others = [end for k, end in enumerate(ends) if k != number]
        mixed[number] = any(
            _is_between(middle, one, other)
            for k, one in enumerate(others)
            for other in others[k + 1 :]
        )
    return mixed


def _is_between(colour: Numbers, one: Numbers, other: Numbers) -> bool:
    line = other - one
    length = float(np.linalg.norm(line))
    if length == 0:
        return False
    along = float((colour - one) @ line) / length**2
    aside = float(np.linalg.norm(colour - one - along * line))
    return 0 < along < 1 and aside <= _ASIDE_LAB + _ASIDE_SHARE * length


_BARE, _UNKNOWN = -1, -2


def _labels(lab: Numbers, middles: Numbers, masks: _Masks) -> NDArray[np.int16]:
    """Returns which colour every pixel is of, (h, w): its number, or less than nought.

    Even pixels are of the nearest colour. A pixel on an edge is of what lies beside it, and by
    itself only where nothing does.
    """
    inside, even = masks.inside, masks.even
    labels = np.full(inside.shape, _UNKNOWN, np.int16)
    labels[even] = _nearest(lab[even], middles, 1.5 * GATHERED_DE00)
    labels[inside & masks.bare] = _BARE
    edge = inside & (labels == _UNKNOWN) & ~even
    for _ in range(_SPREAD_PX):
        for axis, step in ((1, 1), (0, 1), (1, -1), (0, -1)):
            beside = np.roll(labels, step, axis)
            taken = edge & (labels == _UNKNOWN) & (beside != _UNKNOWN)
            labels[taken] = beside[taken]
    rest = edge & (labels == _UNKNOWN)
    labels[rest] = _nearest(lab[rest], middles, np.inf)
    return labels


def _nearest(colours: Numbers, middles: Numbers, reach: float) -> NDArray[np.int16]:
    """Returns the number of the nearest middle, -2 where none is within reach."""
    if len(colours) == 0:
        return np.zeros(0, np.int16)
    means, _, cell = _gathered(colours, np.ones(len(colours)), 1.0)
    apart = np.stack([difference(means, middle) for middle in middles], axis=1)
    nearest = apart.argmin(axis=1)
    nearest[apart.min(axis=1) > reach] = _UNKNOWN
    return nearest.astype(np.int16)[cell]


def _amid(own: Mask) -> tuple[int, int]:
    """Returns a pixel of a mask in its fullest place."""
    step = 16
    rows, columns = np.nonzero(own)
    cells = (rows // step) * (own.shape[1] // step + 1) + columns // step
    fullest = np.flatnonzero(cells == np.bincount(cells).argmax())
    middle = fullest[len(fullest) // 2]
    return int(rows[middle]), int(columns[middle])
