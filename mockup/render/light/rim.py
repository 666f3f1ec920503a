"""A coat's own outline where the wall under it is narrow: which part of the wall a pixel shows.

A mirror shows every slope apart: at its outline, half way down the wall, a foil is steepest and
mirrors the table; at the wall's foot it mirrors the window. A pixel the outline crosses holds the
part of the wall from the outline on, as far as the coat covers the pixel; the next one the rest.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.render.light.finish import Coat, Press, plate_at
from mockup.render.light.lattice import Field
from mockup.render.light.pressed import FACINGS, Block

MOST_PX = 2.0  # walls that are wider are seen well enough by the plate's slope
_STEPS = 12  # from the outline to the wall's foot


@dataclass(frozen=True)
class Rim:
    """The inner half of a wall: `half_px` wide, `sign` above nought where it is pressed.

    `summed` is (_STEPS + 1, channels, facings + 1) float32: what it mirrors, summed from the
    outline on, by the way it faces; the last is the mean.
    """

    half_px: float
    sign: float
    summed: Field


def rim(press: Press, ppi: float, light_of: Callable[[Field, Field], Field]) -> Rim | None:
    """Returns a press's rim at some pixels an inch, or None where its wall is wide enough without.

    `light_of` gives channels (channels, n) for normals' x and y per unit of z, (n,).
    """
    if press.flank_in * ppi > MOST_PX:
        return None
    turn = np.linspace(0, 2 * math.pi, FACINGS + 1)[:, None]
    down = 0.5 + (np.arange(_STEPS) + 0.5) / (2 * _STEPS)
    steep = math.pi / 2 * abs(press.depth_in) / press.flank_in * np.sin(math.pi * down)
    light = light_of((np.cos(turn) * steep).ravel(), (np.sin(turn) * steep).ravel())
    by_step = light.reshape(len(light), FACINGS + 1, _STEPS).transpose(2, 0, 1) / _STEPS
    summed = np.concatenate([np.zeros_like(by_step[:1]), np.cumsum(by_step, axis=0)])
    sign = math.copysign(1.0, press.depth_in)
    return Rim(press.flank_in * ppi / 2, sign, summed.astype(np.float32))


def rim_light(
    found: Rim, coat: Coat, block: Block, index: NDArray[np.intp], facing: Field
) -> tuple[Field, Field]:
    """Returns how much of a coat's part of some pixels of a block is wall, (n,), and its light.

    The light is (channels, n). `facing` is which way the wall at the pixels faces.
    """
    begins, covers = _depth(found, coat, block, index, facing)
    begins = np.minimum(begins, found.half_px)
    ends = np.minimum(begins + covers, found.half_px)
    wall = np.maximum(ends - begins, 1e-6)
    light = _up_to(found, ends, facing) - _up_to(found, begins, facing)
    light *= np.float32(found.half_px) / wall
    return wall / covers, light


def _depth(
    found: Rim, coat: Coat, block: Block, index: NDArray[np.intp], facing: Field
) -> tuple[Field, Field]:
    """Returns how far inside the outline each pixel's part of the coat begins, px, and the part.

    A pixel's that is all coat begins as far inside as the next one outwards is covered.
    """
    (y0, y1), (x0, x1) = block
    plate = plate_at(coat, (y0 - 2, y1 + 3), (x0 - 2, x1 + 3))
    assert plate is not None  # there are pixels that it covers
    j, i = np.divmod(index, x1 - x0)
    turn = facing * np.float32(2 * math.pi / FACINGS)
    v = j + 2 - np.float32(found.sign) * np.sin(turn)
    u = i + 2 - np.float32(found.sign) * np.cos(turn)
    row, column = v.astype(np.intp), u.astype(np.intp)
    v, u = v - row, u - column
    upper = plate[row, column] * (1 - u) + plate[row, column + 1] * u
    lower = plate[row + 1, column] * (1 - u) + plate[row + 1, column + 1] * u
    out = (upper * (1 - v) + lower * v) / np.float32(255)
    own = plate[j + 2, i + 2].astype(np.float32) / np.float32(255)
    return np.where(own < 1, 0, out).astype(np.float32), own


def _up_to(found: Rim, inside_px: Field, facing: Field) -> Field:
    """Returns the light summed from the outline to so far inside it, (channels, n)."""
    place = inside_px * np.float32(_STEPS / found.half_px)
    step = np.minimum(place.astype(np.intp), _STEPS - 1)
    base = np.minimum(facing.astype(np.intp), FACINGS - 1)
    on, turned = place - step, facing - base
    near, far = (
        found.summed[step, :, at].T * (1 - on) + found.summed[step + 1, :, at].T * on
        for at in (base, base + 1)
    )
    return near * (1 - turned) + far * turned
