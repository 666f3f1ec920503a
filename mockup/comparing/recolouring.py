"""One drawing in other colours: the rule that takes each colour of the one to the other's."""

from __future__ import annotations

import numpy as np

from mockup.pixels import Bytes

_BITS = 5  # a channel: 32768 colours, fine enough to part a card's inks, coarse enough to be filled
_SHIFT = 8 - _BITS


def recoloured(before: Bytes, after: Bytes) -> Bytes:
    """Returns the first picture in the colours the second has at the same places, on the mean; both
    (h, w, 3). Steps within a colour of the rule are kept."""
    first = before.astype(np.int32) >> _SHIFT
    colour = ((first[:, :, 0] << 2 * _BITS) | (first[:, :, 1] << _BITS) | first[:, :, 2]).ravel()
    count = np.bincount(colour, minlength=1 << 3 * _BITS)
    found = np.empty_like(before)
    for channel in range(3):
        step = after[:, :, channel].ravel().astype(np.float64) - before[:, :, channel].ravel()
        mean = np.bincount(colour, step, 1 << 3 * _BITS) / np.maximum(count, 1)
        new = before[:, :, channel].ravel() + mean[colour]
        found[:, :, channel] = np.clip(np.rint(new), 0, 255).reshape(before.shape[:2])
    return found
