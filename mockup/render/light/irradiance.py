"""The window's light on an open table, coarse, per kind of interface: falloff and drift for free.

Per grid point the window is summed over 8 x 12 points (solid angle times cosine times what the
interface lets in), once as a vector, so that any normal near the vertical is one dot product, and
once as a specular lobe with its two slopes.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.render.light.interface import Interface, interface, lobe
from mockup.render.light.lamps import solid_angle, window_points
from mockup.render.light.lattice import Field
from mockup.render.light.scene import LitScene, Material

COLUMNS, ROWS = 9, 7
_ACROSS, _UP = 8, 12
_TILT = 0.08  # the slope the lobe's steepness is measured over: about the grain's own


@dataclass(frozen=True)
class OpenLight:
    """Light per unit of window radiance on a coarse grid, spread over the picture's columns.

    `values` is (7, ROWS, width) float32: irradiance for the upright normal and its two slopes,
    the mirrored radiance towards the camera and its two slopes, and the share that the window
    takes of what an even sky would send in. Slopes are per unit of the normal's x and y.
    """

    values: Field
    surface: Interface
    height_px: int


def open_light(scene: LitScene, material: Material, width_px: int, height_px: int) -> OpenLight:
    """Returns the window's light over a picture of the given size for a material's interface."""
    surface = interface(material.ior, material.roughness)
    points, area = window_points(scene, _ACROSS, _UP, 1.0)
    x = np.linspace(0, scene.width_in, COLUMNS)
    y = np.linspace(0, scene.height_in, ROWS)
    grid = np.zeros((7, ROWS, COLUMNS))
    for row in range(ROWS):
        for column in range(COLUMNS):
            at = np.array([x[column], y[row], 0.0])
            ray, angle = solid_angle(points, area, scene, at)
            grid[:, row, column] = _summed(ray, angle, surface)
    place = (np.arange(width_px) + 0.5) / width_px * (COLUMNS - 1)
    base = np.minimum(place.astype(int), COLUMNS - 2)
    mix = place - base
    wide = grid[:, :, base] * (1 - mix) + grid[:, :, base + 1] * mix
    return OpenLight(wide.astype(np.float32), surface, height_px)


def _summed(
    ray: NDArray[np.float64], angle: NDArray[np.float64], surface: Interface
) -> NDArray[np.float64]:
    arriving = angle * surface.let_in(ray[:, 2])
    vector = arriving @ ray
    shine = [float(lobe(ray, _tilted(nx, ny), surface) @ angle) for nx, ny in _TILTS]
    fill = float(vector[2]) / (np.pi * surface.transmit_sky)
    return np.array(
        [
            vector[2],
            vector[0],
            vector[1],
            shine[0],
            (shine[1] - shine[2]) / (2 * _TILT),
            (shine[3] - shine[4]) / (2 * _TILT),
            fill,
        ]
    )


_TILTS = ((0.0, 0.0), (_TILT, 0.0), (-_TILT, 0.0), (0.0, _TILT), (0.0, -_TILT))


def _tilted(nx: float, ny: float) -> NDArray[np.float64]:
    n = np.array([nx, ny, 1.0])
    return n / np.linalg.norm(n)


def at_block(light: OpenLight, rows: tuple[int, int], columns: tuple[int, int]) -> Field:
    """Returns the seven channels at a block of pixels, (7, h, w) float32."""
    place = (np.arange(*rows) + 0.5) / light.height_px * (ROWS - 1)
    base = np.minimum(place.astype(int), ROWS - 2)
    mix = (place - base).astype(np.float32)[:, None]
    part = light.values[:, :, columns[0] : columns[1]]
    out = np.empty((len(part), len(base), part.shape[2]), np.float32)
    for row in range(base[0], base[-1] + 1):
        here = np.flatnonzero(base == row)
        span = np.s_[:, here[0] : here[-1] + 1]
        step = part[:, row + 1] - part[:, row]
        np.multiply(step[:, None], mix[here], out=out[span])
        out[span] += part[:, row][:, None]
    return out
