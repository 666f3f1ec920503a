"""A press's table on a paper of which a swatch was measured: bare paper and four solid inks.

The model of ink on paper goes before; what was measured then mends it, ink by ink. It promises the
five patches as measured, and that tints keep the dot gain of the press; inks over one another are
a guess between the two.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from mockup.colour.ink import FLOOR
from mockup.colour.lab import WIDE_TO_XYZ, xyz_of_lab
from mockup.trade.swatch import Lab, Swatch

Numbers = NDArray[np.float64]

_XYZ_TO_WIDE = np.linalg.inv(WIDE_TO_XYZ)
_BLACK = 3


def mended(table: Numbers, swatch: Swatch) -> Numbers:
    """Returns a press's table on a swatch's paper, (g, g, g, g, 3) XYZ under D50, as measured.

    `table` is the model's, its first node the swatch's paper. Along each ink's ramp every channel
    of linear Rec. 2020 is stretched between the paper and the measured solid; a mix takes what all
    its inks gain by that, added in cube roots, and black hides what the others gain. Of six ways to
    add them the one nearest to nine sets of measured patches (benchmarks/colour/swatches.py).
    """
    wide = np.maximum(table @ _XYZ_TO_WIDE.T, FLOOR)
    paper = wide[0, 0, 0, 0]
    gains = np.zeros_like(wide)
    for ink, solid in enumerate(swatch.solids):
        at: list[int | slice] = [0, 0, 0, 0]
        at[ink] = slice(None)
        ramp = wide[tuple(at)]
        gain = np.cbrt(_stretched(ramp, paper, _wide(solid))) - np.cbrt(ramp)
        if ink == _BLACK:
            gains *= 1 - _along(_share_gone(ramp, paper), ink)
        gains += _along(gain, ink)
    return np.maximum(np.cbrt(wide) + gains, np.cbrt(FLOOR)) ** 3 @ WIDE_TO_XYZ.T


def _along(ramp: Numbers, ink: int) -> Numbers:
    """Returns a ramp, (n, m), laid along an ink's axis of the table."""
    shape = [1, 1, 1, 1, ramp.shape[1]]
    shape[ink] = len(ramp)
    return ramp.reshape(shape)


def _share_gone(ramp: Numbers, paper: Numbers) -> Numbers:
    """Returns how far a ramp has gone from the paper to its solid, (n, 1), 0 to 1."""
    gone = (paper - ramp).mean(axis=1, keepdims=True)
    return np.clip(gone / max(float(gone[-1, 0]), FLOOR), 0, 1)


def _stretched(ramp: Numbers, paper: Numbers, solid: Numbers) -> Numbers:
    """Returns a ramp from paper to a solid ink, (n, 3), that ends at another solid.

    The share of the way gone is each channel's own; where a channel hardly moves, that of the
    channel which moves the most.
    """
    gone = paper - ramp
    whole = gone[-1]
    most = int(np.abs(whole).argmax())
    own = np.abs(whole) > FLOOR
    shares = gone / np.where(own, whole, 1)
    shares = np.where(own, shares, (gone[:, most] / (whole[most] or 1))[:, None])
    return np.maximum(paper + (solid - paper) * shares, FLOOR)


def _wide(lab: Lab) -> Numbers:
    return np.maximum(_XYZ_TO_WIDE @ xyz_of_lab(np.array(lab, np.float64)), FLOOR)
