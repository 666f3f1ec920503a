"""What happened at a place: something came, went, moved, changed its colour, or is another."""

from __future__ import annotations

from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from mockup.comparing.nearby import apart, averaged, largest, most
from mockup.comparing.registration import Laid, resampled, shifted
from mockup.pixels import Bytes

_EMPTY = 0.3  # judgement: share of the other's contrast; a ground's own pattern may be left
_ALIKE = 0.92  # judgement: correlation of edges, 1 for one drawing in two colours
_SHARE = 0.15  # as in evidence
_MOST_LEFT = 0.2  # judgement: of what differs, where a thing is only moved


class Kind(StrEnum):
    """What happened at a place."""

    APPEARED = "appeared"
    VANISHED = "vanished"
    MOVED = "moved"
    RECOLOURED = "recoloured"
    CHANGED = "changed"


def kind_of(
    before: Bytes, after: Bytes, where: NDArray[np.bool_], drawn: bool
) -> tuple[Kind, tuple[float, float]]:
    """Returns what happened, of two crops (h, w, 3) and a mask of the pixels that changed; for what
    moved how far, pixels right and down. `drawn` is False where only colour differs."""
    nowhere = (0.0, 0.0)
    if not drawn or _alike(before, after, where) >= _ALIKE:
        return Kind.RECOLOURED, nowhere
    first, second = _contrast(before, where), _contrast(after, where)
    if first <= _EMPTY * second:
        return Kind.APPEARED, nowhere
    if second <= _EMPTY * first:
        return Kind.VANISHED, nowhere
    far = shifted(before, after)
    if far is not None and _left(before, after, where, far) <= _MOST_LEFT:
        return Kind.MOVED, far
    return Kind.CHANGED, nowhere


def _contrast(picture: Bytes, where: NDArray[np.bool_]) -> float:
    low, high = np.percentile(picture[where], (2, 98), axis=0)
    return float((high - low).max())


def _alike(before: Bytes, after: Bytes, where: NDArray[np.bool_]) -> float:
    """Returns how far the edges of two crops go together where they changed and beside it, 0 to 1;
    1 where neither has any."""
    near = most(where.view(np.uint8)).view(np.bool_)
    one, other = (_edges(averaged(each))[near] for each in (before, after))
    if not one.any() and not other.any():
        return 1.0
    size = float(np.sqrt((one**2).sum() * (other**2).sum()))
    return float((one * other).sum()) / size if size else 0.0


def _edges(picture: Bytes) -> NDArray[np.float32]:
    """Returns how steep a picture is, in its channel of most contrast."""
    down, across = np.gradient(picture.astype(np.float32), axis=(0, 1))
    return np.hypot(down, across).max(axis=2)


def _left(before: Bytes, after: Bytes, where: NDArray[np.bool_], far: tuple[float, float]) -> float:
    """Returns which share of what differs is left when the first crop is moved."""
    moved = resampled(before, Laid(round(far[0]), round(far[1])))
    limit = _SHARE * float(np.ptp(after[where].astype(np.int16)))
    unmoved, left = (
        int(((largest(apart(each, after)) > limit) & where).sum()) for each in (before, moved)
    )
    return left / unmoved if unmoved else 1.0
