"""Fibres strewn over a seamless tile: kraft is known by them, and oak by its pores."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from mockup.render.light.lattice import Field
from mockup.render.light.scene import Fibres

_BEND = 0.9  # radians a fibre may turn from end to end; judgement, by eye
_STEP_PX = 0.5


def strewn(
    fibres: Fibres, shape: tuple[int, int], ppi: float, angle_deg: float, rng: np.random.Generator
) -> NDArray[np.float32]:
    """Returns what fibres add to the reflectance of a seamless tile (h, w), 0 between them.

    `angle_deg` is the sheet's turn. A fibre thinner than a pixel tints it by the share it covers, a
    wider one is laid in strands.
    """
    height, width = shape
    count = rng.poisson(fibres.per_in2 * height * width / ppi**2)
    strands = max(1, math.ceil(fibres.width_in * ppi))
    steps = max(2, math.ceil(1.5 * fibres.length_in * ppi / _STEP_PX))
    length = fibres.length_in * ppi * rng.uniform(0.5, 1.5, (count, 1))
    spread = math.radians(fibres.spread_deg)
    turn = math.radians(angle_deg) + rng.uniform(-spread, spread, (count, 1))
    bend = rng.uniform(-_BEND, _BEND, (count, 1)) * min(1.0, spread)
    along = (np.arange(steps) + 0.5) / steps
    way = turn + bend * along
    x = rng.uniform(0, width, (count, 1)) + np.cumsum(np.cos(way), axis=1) * length / steps
    y = rng.uniform(0, height, (count, 1)) + np.cumsum(np.sin(way), axis=1) * length / steps
    depth = fibres.tone * rng.uniform(0.4, 1.0, (count, 1))
    share = depth * (fibres.width_in * ppi / strands) * length / steps
    total = np.zeros(height * width)
    for strand in range(strands):
        off = (strand + 0.5) / strands * fibres.width_in * ppi - fibres.width_in * ppi / 2
        _laid(total, shape, x - off * np.sin(way), y + off * np.cos(way), share)
    return total.reshape(shape).astype(np.float32)


def _laid(total: Field, shape: tuple[int, int], x: Field, y: Field, share: Field) -> None:
    """Adds points' shares to the four pixels each falls between, round the tile's ends."""
    height, width = shape
    i, j = np.floor(x).astype(np.intp), np.floor(y).astype(np.intp)
    u, v = x - i, y - j
    for down, rows in ((0, 1 - v), (1, v)):
        for right, columns in ((0, 1 - u), (1, u)):
            at = (j + down) % height * width + (i + right) % width
            total += np.bincount(at.ravel(), (share * rows * columns).ravel(), height * width)
