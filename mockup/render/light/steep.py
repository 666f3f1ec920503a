"""Where light meets a sheet that stands: a plane in space, met from both sides.

Paper that lies is nearly level, and is met at the height it has overhead; a panel of a folded card
that is raised by its fold is not.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from mockup.render.light.lattice import Field
from mockup.render.light.scene import Plane, height

LEAST_RISE_IN = 0.002
FAR_IN = 1e4  # where light that misses a plane is said to meet it: off every sheet

Array = NDArray[np.float64]
Box = tuple[float, float, float, float]


def met(
    at: tuple[Field, Field, Field], slope: tuple[Field, Field], top: Plane
) -> tuple[Field, Field, Field]:
    """Returns where rays from points meet a plane in space: x, y, and the rise to it, inches.

    `slope` is a ray's run per rise in x and y. One that goes along the plane or away from it meets
    nothing, and is put far off.
    """
    (x, y, z), (sx, sy) = at, slope
    over = height(top, None, x, y) - z
    lean = 1 - np.float32(top.gx) * sx - np.float32(top.gy) * sy
    rise = over / np.where(np.abs(lean) < 1e-4, np.float32(1e-4), lean)
    missed = rise < LEAST_RISE_IN
    rise = np.where(missed, np.float32(LEAST_RISE_IN), rise)
    hit_x = np.where(missed, np.float32(FAR_IN), x + rise * sx)
    hit_y = np.where(missed, np.float32(FAR_IN), y + rise * sy)
    return hit_x, hit_y, rise


def all_corners(values: Field) -> Field:
    """Returns the middle and the four corners of tiles, from the middle and two (n, 3, 1)."""
    middle, some = values[:, :1], values[:, 1:]
    return np.concatenate([middle, some, 2 * middle - some], axis=1)


def reach_over(
    top: Plane, box: Box, at: tuple[Field, Field, Field], away: Field
) -> tuple[Field, Field]:
    """Returns for points how far up a standing sheet reaches over them, and how near it comes.

    `away` is how far outside the sheet's box each lies.
    """
    x, y, z = at
    left, head, right, foot = box
    corners = [(left, head), (right, head), (left, foot), (right, foot)]
    highest = max(top.z0_in + top.gx * px + top.gy * py for px, py in corners)
    over = np.abs(height(top, None, x, y) - z)
    near = np.maximum(over, np.float32(0.5) * away)
    least = np.float32(LEAST_RISE_IN)
    return np.maximum(np.float32(highest) - z, least), np.maximum(near, least)


def normal_of(plane: Plane) -> Array:
    """Returns the unit normal of a plane's upper face."""
    toward = np.array([-plane.gx, -plane.gy, 1.0])
    return toward / np.linalg.norm(toward)
