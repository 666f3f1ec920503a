"""A pixel against its neighbours in another picture: how far it lies beyond all they could be.

Two programs that draw one page differ along every edge, by less than a pixel. So a pixel is not
held against the same pixel of the other picture but against the span, channel by channel, from the
least to the most of those within a pixel of it. That alone takes a line thinner than a pixel and a
half for another where it straddles two; the pictures averaged over 3 x 3 pixels keep the ink of
such a line whatever it straddles, but not the core of a broader one. What neither explains differs.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from mockup.pixels import Bytes


def least(values: Bytes) -> Bytes:
    """Returns the least of every pixel and those round it, (h, w, ...) as given."""
    return _spread(values, np.minimum)


def most(values: Bytes) -> Bytes:
    """Returns the most of every pixel and those round it, (h, w, ...) as given."""
    return _spread(values, np.maximum)


def averaged(picture: Bytes) -> Bytes:
    """Returns the mean of every pixel and those round it, the edges repeated outward."""
    total = picture.astype(np.uint16)
    for axis in (0, 1):
        total = _three(total, axis)
    return ((total + 4) // 9).astype(np.uint8)


def beyond(picture: Bytes, other: Bytes) -> tuple[Bytes, Bytes]:
    """Returns by how much each value lies over, and under, all that `other` has within a pixel;
    each (h, w, 3), sRGB steps."""
    over = picture - np.minimum(picture, most(other))
    low = least(other)
    return over, low - np.minimum(picture, low)


def apart(one: Bytes, other: Bytes) -> tuple[Bytes, Bytes]:
    """Returns by how much each value of the first is more, and is less, than the second's beyond
    what a pixel round it explains in both; each (h, w, 3), sRGB steps."""
    over, under = beyond(one, other)
    less, more = beyond(other, one)
    return np.maximum(over, more), np.maximum(under, less)


def largest(signed: tuple[Bytes, Bytes]) -> Bytes:
    """Returns the largest difference of any channel, either way, (h, w)."""
    first, second = signed
    either = np.maximum(first, second)
    return np.maximum(np.maximum(either[:, :, 0], either[:, :, 1]), either[:, :, 2])


def _three(total: NDArray[np.uint16], axis: int) -> NDArray[np.uint16]:
    before, after = _neighbours(total, axis)
    return total + before + after


def _neighbours(values: NDArray[np.uint16], axis: int) -> tuple[NDArray[np.uint16], ...]:
    if axis == 0:
        return (
            np.concatenate([values[:1], values[:-1]]),
            np.concatenate([values[1:], values[-1:]]),
        )
    return (
        np.concatenate([values[:, :1], values[:, :-1]], axis=1),
        np.concatenate([values[:, 1:], values[:, -1:]], axis=1),
    )


def _spread(values: Bytes, extreme: np.ufunc) -> Bytes:
    down = values.copy()
    extreme(down[1:], values[:-1], out=down[1:])
    extreme(down[:-1], values[1:], out=down[:-1])
    across = down.copy()
    extreme(across[:, 1:], down[:, :-1], out=across[:, 1:])
    extreme(across[:, :-1], down[:, 1:], out=across[:, :-1])
    return across
