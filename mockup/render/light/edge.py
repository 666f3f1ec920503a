"""The upper edge of a sheet as a quarter round: what makes paper thick.

Seen from above, the normal tips from upright (inner rim) to level (outline) with its sine equal to
the share of the way across; light is averaged over that, per direction the edge faces.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.render.light.interface import Interface, lobe
from mockup.render.light.lamps import solid_angle, window_points
from mockup.render.light.lattice import Field
from mockup.render.light.scene import LitScene

_FACINGS = 24
_RIM = 8  # normals from upright to level


@dataclass(frozen=True)
class EdgeLight:
    """Light on the quarter round by the direction it faces, against the flat sheet's.

    `direct` (facings + 1,) is the ratio of irradiance, `shine` the mirrored radiance per unit of
    window radiance, `sky` the ratio of the sky's.
    """

    direct: NDArray[np.float32]
    shine: NDArray[np.float32]
    sky: float


def edge_light(scene: LitScene, surface: Interface) -> EdgeLight:
    """Returns the light on a quarter-round edge at the middle of the picture."""
    points, area = window_points(scene, 6, 9, 1.0)
    middle = np.array([scene.width_in / 2, scene.height_in / 2, 0.0])
    ray, angle = solid_angle(points, area, scene, middle)
    flat = float(arriving(ray, angle, np.array([0.0, 0.0, 1.0]), surface))
    turn = np.linspace(0, 2 * np.pi, _FACINGS + 1)
    sines = (np.arange(_RIM) + 0.5) / _RIM
    direct, shine = np.zeros((2, _FACINGS + 1))
    for number, facing in enumerate(turn):
        for s in sines:
            n = np.array([s * np.cos(facing), s * np.sin(facing), np.sqrt(1 - s * s)])
            direct[number] += arriving(ray, angle, n, surface) / flat / _RIM
            shine[number] += float(lobe(ray, n, surface) @ angle) / _RIM
    sky = float(np.mean((1 + np.sqrt(1 - sines**2)) / 2))
    return EdgeLight(direct.astype(np.float32), shine.astype(np.float32), sky)


def arriving(
    ray: NDArray[np.float64],
    angle: NDArray[np.float64],
    normal: NDArray[np.float64],
    surface: Interface,
) -> float:
    """Returns what the interface lets in of the window's light on a face with a unit normal."""
    cosine = np.maximum(ray @ normal, 0)
    return float(np.sum(angle * cosine * surface.let_in(cosine)))


@dataclass(frozen=True)
class EdgePixels:
    """The pixels of a block that the quarter round touches, and what it does to each."""

    index: NDArray[np.intp]
    share: Field
    direct: Field
    shine: Field
    sky: Field


def edge_pixels(
    distance: Field, bevel_in: float, pixel_in: float, light: EdgeLight
) -> EdgePixels | None:
    """Returns the edge's pixels in a block, from its signed distance (h, w), inches; or None.

    `share` is how much of the pixel's covered part lies on the quarter round.
    """
    near = (distance > -pixel_in) & (distance < bevel_in + pixel_in)
    index = np.flatnonzero(near)
    if not len(index):
        return None
    gy, gx = np.gradient(distance) if min(distance.shape) > 1 else (distance * 0, distance * 0)
    d = distance.ravel()[index]
    covered = np.clip(d / pixel_in + 0.5, 0, 1)
    inner = np.clip((d - bevel_in) / pixel_in + 0.5, 0, 1)
    share = (covered - inner) / np.maximum(covered, 1e-3)
    facing = np.arctan2(-gy.ravel()[index], -gx.ravel()[index])
    place = (facing % (2 * np.pi)) * (_FACINGS / (2 * np.pi))
    base = np.minimum(place.astype(np.intp), _FACINGS - 1)
    mix = (place - base).astype(np.float32)
    direct = light.direct[base] + (light.direct[base + 1] - light.direct[base]) * mix
    shine = light.shine[base] + (light.shine[base + 1] - light.shine[base]) * mix
    sky = np.full(len(index), light.sky, np.float32)
    return EdgePixels(index, share.astype(np.float32), direct, shine, sky)
