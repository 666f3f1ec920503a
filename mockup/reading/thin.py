"""How thin parts of a plate are: what a disc of a width does not fit into (Serra 1982, opening)."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

Mask = NDArray[np.bool_]

TIP = 2.0  # judgement: of a disc's own square; less is a corner or a serif's tip, and no line


@dataclass(frozen=True)
class Spot:
    """A place where a mask is thinner than a disc: the middle pixel, and how many of them."""

    row: float
    column: float
    pixels: int


def opened(mask: Mask, diameter_px: int) -> Mask:
    """Returns the part of a mask that a disc of an odd diameter fits into; beyond the picture the
    mask goes on as at its edge."""
    reach = diameter_px // 2
    padded = np.pad(mask, 2 * reach, mode="edge")
    kept = ~_grown(~padded, diameter_px)
    whole = _grown(kept, diameter_px)
    inner = np.s_[2 * reach : padded.shape[0] - 2 * reach, 2 * reach : padded.shape[1] - 2 * reach]
    return whole[inner]


def thin(mask: Mask, diameter_px: int) -> Mask:
    """Returns the part of a mask that a disc does not fit into."""
    return mask & ~opened(mask, diameter_px)


def thin_spots(
    mask: Mask, diameter_px: int, block_px: int, among: Sequence[Spot] | None = None
) -> list[Spot]:
    """Returns the blocks of a grid where enough of a mask is thinner than a disc to be a line, the
    largest first; `among` are those where a larger disc did not fit, if that is known. Of blocks
    that are all full or all empty nothing is worked out."""
    least = TIP * diameter_px**2
    if among is None:
        among = [each for each in _blocks(mask, block_px) if least <= each.pixels < block_px**2]
    found = [replace(each, pixels=_thin_in(mask, diameter_px, each, block_px)) for each in among]
    return _largest(each for each in found if each.pixels >= least)


def wide_spots(mask: Mask, diameter_px: int, block_px: int) -> list[Spot]:
    """Returns the blocks of a grid where a disc fits into a mask, the largest first."""
    found = [
        replace(each, pixels=each.pixels - _thin_in(mask, diameter_px, each, block_px))
        for each in _blocks(mask, block_px)
    ]
    return _largest(each for each in found if each.pixels >= diameter_px**2)


def width_px(mask: Mask, most_px: int) -> int | None:
    """Returns the width of the thinnest line of a small mask, odd pixels: the last disc that fits
    all of it but corners; None where one of `most_px` does."""
    for diameter in range(3, most_px + 1, 2):
        if thin(mask, diameter).sum() >= TIP * diameter**2:
            return diameter - 2
    return None


def _thin_in(mask: Mask, diameter_px: int, block: Spot, side_px: int) -> int:
    """Returns how many pixels of a block of a mask a disc does not fit into, what lies round the
    block seen as well."""
    inner: list[slice] = []
    outer: list[slice] = []
    for middle, length in zip((block.row, block.column), mask.shape, strict=True):
        start = round(middle - side_px / 2)
        low, high = max(0, start - diameter_px), min(length, start + side_px + diameter_px)
        outer.append(slice(low, high))
        inner.append(slice(start - low, min(start + side_px, length) - low))
    return int(thin(mask[tuple(outer)], diameter_px)[tuple(inner)].sum())


def _largest(spots: Iterable[Spot]) -> list[Spot]:
    return sorted(spots, key=lambda spot: -spot.pixels)


def _blocks(mask: Mask, block_px: int) -> list[Spot]:
    """Returns the blocks of a grid over a mask that are not empty, and how full they are."""
    high, wide = (-side % block_px for side in mask.shape)
    padded = np.pad(mask, ((0, high), (0, wide)))
    rows, columns = (side // block_px for side in padded.shape)
    counted = padded.reshape(rows, block_px, columns, block_px).sum(axis=(1, 3), dtype=np.int64)
    return [
        Spot((r + 0.5) * block_px, (c + 0.5) * block_px, int(counted[r, c]))
        for r, c in zip(*(each.tolist() for each in np.nonzero(counted)), strict=True)
    ]


def _grown(mask: Mask, diameter_px: int) -> Mask:
    """Returns a mask grown by a disc, row of the disc after row; what lies beyond is not there."""
    radius = diameter_px // 2
    found = np.zeros_like(mask)
    for rise in range(radius + 1):
        half = int(np.sqrt((radius + 0.25) ** 2 - rise**2))
        wide = _widened(mask, half)
        below, above = mask.shape[0] - rise, rise
        found[above:] |= wide[:below]
        found[:below] |= wide[above:]
    return found


def _widened(mask: Mask, half: int) -> Mask:
    """Returns a mask grown to left and right by `half` pixels."""
    found = mask.copy()
    reached = 0
    while reached < half:
        step = min(max(reached, 1), half - reached)
        grown = found.copy()
        grown[:, step:] |= found[:, :-step]
        grown[:, :-step] |= found[:, step:]
        found, reached = grown, reached + step
    return found
