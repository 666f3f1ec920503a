"""A sheet's own relief, too steep for the straight-line model of grain: light by where it faces.

Wax, twine and leaves turn their faces far from upright. For them the window's light and its mirror
image are tabled against the normal, at the middle of the picture, and looked up pixel by pixel.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.render.light.edge import arriving
from mockup.render.light.interface import Interface, lobe
from mockup.render.light.lamps import solid_angle, window_points
from mockup.render.light.lattice import Field
from mockup.render.light.scene import LitScene, Relief

_SIDE = 41  # nodes along each axis of the disc of normals
_STEEPEST = 0.98  # sine of the steepest face tabled


@dataclass(frozen=True)
class FacingLight:
    """Light on a face by the x and y of its unit normal, (3, _SIDE, _SIDE) float32.

    Channels: irradiance as a ratio to the level face's, mirrored radiance per unit of window
    radiance, and the sky's light as a ratio.
    """

    values: NDArray[np.float32]


def facing_light(
    scene: LitScene, surface: Interface, at: tuple[float, float, float] | None = None
) -> FacingLight:
    """Returns the light on faces of a material at a place, inches, or in the picture's middle; the
    level face it is compared with lies on the table there."""
    points, area = window_points(scene, 6, 9, 1.0)
    place = np.array(at or (scene.width_in / 2, scene.height_in / 2, 0.0))
    ray, angle = solid_angle(points, area, scene, place)
    below = solid_angle(points, area, scene, place * (1, 1, 0))
    level = float(arriving(*below, np.array([0.0, 0.0, 1.0]), surface))
    axis = np.linspace(-1, 1, _SIDE)
    values = np.zeros((3, _SIDE, _SIDE), np.float32)
    for row, y in enumerate(axis):
        for column, x in enumerate(axis):
            short = min(1.0, _STEEPEST / max(float(np.hypot(x, y)), 1e-9))
            n = np.array([x * short, y * short, 0.0])
            n[2] = np.sqrt(1 - n[0] ** 2 - n[1] ** 2)
            values[0, row, column] = arriving(ray, angle, n, surface) / level
            values[1, row, column] = lobe(ray, n, surface) @ angle
            values[2, row, column] = (1 + n[2]) / 2
    return FacingLight(values)


def faced(light: FacingLight, nx: Field, ny: Field) -> Field:
    """Returns the three channels for normals (nx, ny, 1) of any length, (3, h, w) float32."""
    scale = np.float32((_SIDE - 1) / 2) / np.sqrt(1 + nx * nx + ny * ny)
    half = np.float32((_SIDE - 1) / 2)
    u = np.clip(nx * scale + half, 0, _SIDE - 1.001)
    v = np.clip(ny * scale + half, 0, _SIDE - 1.001)
    i, j = u.astype(np.intp), v.astype(np.intp)
    u, v = u - i, v - j
    table = light.values
    low = table[:, j, i] * (1 - u) + table[:, j, i + 1] * u
    high = table[:, j + 1, i] * (1 - u) + table[:, j + 1, i + 1] * u
    return low * (1 - v) + high * v


def relief_at(
    relief: Relief, rows: tuple[int, int], columns: tuple[int, int]
) -> NDArray[np.float32]:
    """Returns a relief over a block of picture pixels, (3, h, w); level and open outside it."""
    height, width = relief.values.shape[1:]
    out = np.zeros((3, rows[1] - rows[0], columns[1] - columns[0]), np.float32)
    out[2] = 1
    y0, y1 = max(rows[0], relief.top_px), min(rows[1], relief.top_px + height)
    x0, x1 = max(columns[0], relief.left_px), min(columns[1], relief.left_px + width)
    if y0 < y1 and x0 < x1:
        inner = np.s_[
            :, y0 - relief.top_px : y1 - relief.top_px, x0 - relief.left_px : x1 - relief.left_px
        ]
        out[:, y0 - rows[0] : y1 - rows[0], x0 - columns[0] : x1 - columns[0]] = relief.values[
            inner
        ]
    return out
