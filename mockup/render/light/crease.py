"""Folds and scores as normals: a soft ridge or valley along a line."""

from __future__ import annotations

import math

import numpy as np

from mockup.render.light.lattice import Field
from mockup.render.light.scene import Crease

_REACH = 3.5  # half widths, beyond which a crease is flat


def creased(nx: Field, ny: Field, crease: Crease, x: Field, y: Field) -> tuple[Field, Field]:
    """Returns normals with a crease added; `x` (1, w) and `y` (h, 1) are the pixels, inches.

    The profile is a Gaussian ridge, whose slope t exp((1 - t^2) / 2) is greatest, 1, at t = 1.
    """
    (ax, ay), (bx, by) = crease.start, crease.end
    length, half = math.hypot(bx - ax, by - ay), crease.width_in / 2
    reach = half * _REACH
    if (
        x[0, -1] < min(ax, bx) - reach
        or x[0, 0] > max(ax, bx) + reach
        or y[-1, 0] < min(ay, by) - reach
        or y[0, 0] > max(ay, by) + reach
        or length == 0
    ):
        return nx, ny
    ux, uy = (bx - ax) / length, (by - ay) / length
    along = (x - ax) * ux + (y - ay) * uy
    across = ((x - ax) * -uy + (y - ay) * ux) / half
    ends = np.clip(np.minimum(along, length - along) / half + 0.5, 0, 1)
    tilt = crease.slope * ends * across * np.exp(0.5 - across * across / 2)
    return nx - tilt * uy, ny + tilt * ux
