"""Two pictures of one piece compared: the same, changed in places, or changed all over."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import hypot

import numpy as np

from mockup.comparing.evidence import CELL_PX, Evidence, evidence, thick, within
from mockup.comparing.places import Place, places
from mockup.comparing.recolouring import recoloured
from mockup.comparing.registration import Laid, laid_over, resampled
from mockup.geometry.point import Point
from mockup.pixels import Bytes

PPI = 300.0
"""What pictures to be compared are drawn at: a full stop of 6 pt type is two pixels wide."""

OPAQUE = 255
_ALL_OVER = 0.4  # judgement: share of the cells with a drawing in them
_MUCH = 0.05  # judgement: of them, from where on it is asked whether all of it moved
_TIMES = 3  # the fit is made anew from where it led: blocks overlap better
_MOVED_IN = 0.006  # judgement: a sixth of a millimetre; programs round a page by as much

_BETTER = 0.9  # judgement: of the evidence that laying it otherwise leaves; blocks agree besides
_EXPLAINED = 0.25  # judgement: of the cells that differ, where one rule of colours leaves less
_ROUNDED_PX = 2  # sizes that differ by the rounding of a page's box are one size


_NOWHERE = Point(0, 0)


@dataclass(frozen=True)
class Comparison:
    """How a piece changed. What happened to all of it stands first; `places` are what is left to
    ring when that is allowed for. Both empty, nothing a person could see has changed."""

    places: tuple[Place, ...] = ()
    scaled: float = 1.0
    """By how much all of it is larger."""
    moved_in: Point = _NOWHERE
    """How far all of it lies to the right and down, inches."""
    recoloured: float = 0.0
    """CIEDE2000, where all of it, or its ground, has another colour."""
    redrawn: bool = False
    """Whether most of it is drawn otherwise."""
    resized: bool = False
    """Whether the pictures have two sizes: they are laid middle on middle."""

    @property
    def same(self) -> bool:
        """Whether nothing that could be seen has changed."""
        return not self.places and not self.throughout and not self.resized

    @property
    def throughout(self) -> bool:
        """Whether all of it changed."""
        moved = self.moved_in != _NOWHERE
        return moved or self.redrawn or self.scaled != 1 or self.recoloured > 0


def compare(before: Bytes, after: Bytes, ppi: float = PPI) -> Comparison:
    """Returns how a piece changed, of two pictures of it as printed, (h, w, 3) uint8 sRGB, both at
    `ppi`, 200 to 400. Places are in inches from the top left of the second picture.

    Drawing the same page by another program's file is no change: edges within a pixel, colours
    rounded by two steps, pictures compressed lightly once more.
    """
    resized = _differ(before, after)
    before = _fitted(before, after)
    if np.array_equal(before, after):
        return Comparison(resized=resized)
    found = evidence(before, after)
    laid = Laid()
    if resized or _share(found) >= _MUCH:
        laid, before, found = _laid(before, after, found)
    apart = 0.0
    if _share(found) >= _ALL_OVER or found.tinted.mean() >= _ALL_OVER:
        apart, before, found = _recoloured(before, after, found)
    ringed = places(found, before, after, ppi)
    redrawn = bool(ringed) and _share(found) >= _ALL_OVER
    moved = Point(laid.right_px / ppi, laid.down_px / ppi)
    if hypot(*moved) < _MOVED_IN:
        moved = _NOWHERE
    edge_in = abs(laid.larger) * max(after.shape[:2]) / 2 / ppi
    scaled = 1.0 if edge_in < _MOVED_IN else 1 + laid.larger
    return Comparison(ringed, scaled, moved, apart, redrawn, resized)


def compare_cut(before: Bytes, after: Bytes, ppi: float = PPI) -> Comparison:
    """Returns how a piece changed within its cut, of two pictures (h, w, 4), clear outside it.

    What lies outside either cut is left aside: that a die changed is known by its name.
    """
    before_fitted = _fitted(before, after)
    inside = (before_fitted[:, :, 3:] == OPAQUE) & (after[:, :, 3:] == OPAQUE)
    first, second = (
        np.where(inside, each[:, :, :3], OPAQUE).astype(np.uint8) for each in (before_fitted, after)
    )
    return replace(compare(first, second, ppi), resized=_differ(before, after))


def _differ(before: Bytes, after: Bytes) -> bool:
    pairs = zip(before.shape[:2], after.shape[:2], strict=True)
    return any(abs(one - other) > _ROUNDED_PX for one, other in pairs)


def _fitted(before: Bytes, after: Bytes) -> Bytes:
    """Returns the first picture at the second's size, middle on middle, its edges repeated."""
    for axis in (0, 1):
        have, want = before.shape[axis], after.shape[axis]
        at = np.arange(want) + (have - want) // 2
        before = np.take(before, np.clip(at, 0, have - 1), axis)
    return before


def _share(found: Evidence) -> float:
    """Returns the share of the cells with a drawing in them that changed."""
    changed = found.drawn | found.tinted
    return float((changed & found.detailed).sum() / max(1, found.detailed.sum()))


def _laid(before: Bytes, after: Bytes, found: Evidence) -> tuple[Laid, Bytes, Evidence]:
    """Returns how the first picture is best laid over the second, it laid so, and what differs."""
    laid, moved = Laid(), before
    for _ in range(_TIMES):
        more = laid_over(moved, after)
        if more is None:
            break
        laid = laid.then(more)
        moved = resampled(before, laid)
    if laid == Laid():
        return laid, before, found
    anew = within(evidence(moved, after), -(-round(laid.reach_px(*after.shape[:2])) // CELL_PX))
    if laid.larger:
        anew = thick(anew)
    if anew.weight.sum() > _BETTER * found.weight.sum():
        return Laid(), before, found
    return laid, moved, anew


def _recoloured(before: Bytes, after: Bytes, found: Evidence) -> tuple[float, Bytes, Evidence]:
    """Returns how far apart the colours are where one rule of colours explains most of what
    differs, the first picture in the other's colours, and what differs still."""
    told = recoloured(before, after)
    anew = evidence(told, after)
    changed = found.drawn | found.tinted
    left = anew.drawn | anew.tinted
    if left.sum() > _EXPLAINED * changed.sum():
        return 0.0, before, found
    return float(np.median(found.apart[changed])), told, anew
