"""Paper pressed or raised by a plate: walls that turn to the light, floors in their shade.

Everything is linear in the plate's own antialiased coverage, so that a wall narrower than a pixel
still shades by its share of the pixel: its share is its width times the plate's slope, its light
the mean over its profile by the way it faces. A light at slope s (run per rise) leaves dark what
lies on the floor within depth times s of the wall before it: the plate less the plate moved by so
much, where that is positive.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.render.light.edge import arriving
from mockup.render.light.finish import Press, plate_at
from mockup.render.light.interface import Interface, lobe
from mockup.render.light.lamps import solid_angle, window_points
from mockup.render.light.lattice import Field
from mockup.render.light.scene import LitScene

FACINGS = 48
_PROFILE = 24  # slopes from face to floor
_SKY = ((0.577, 0.5), (1.732, 0.5))  # slope and share of rings of sky: squared radii 1/4 and 3/4
_SKY_SPOKES = 6
# Of a cosine's slope the spread about its middle is 0.218 of its width; of a box's, 0.289.
_COSINE, _BOX = 0.218, 0.289

Block = tuple[tuple[int, int], tuple[int, int]]


@dataclass(frozen=True)
class Moves:
    """Where the plate is read again for each light: pixels (n, 2) in y and x, and shares (n,)."""

    by_px: NDArray[np.float64]
    share: NDArray[np.float64]


@dataclass(frozen=True)
class PressLight:
    """A press ready to be shaded at some pixels an inch.

    `walls` is (3, FACINGS + 1) float32 by the way a wall faces: its irradiance as a ratio to the
    level face's, its mirrored radiance per unit of the window's, and the sky's light as a ratio.
    """

    press: Press
    walls: Field
    window: Moves
    sky: Moves
    ppi: float
    margin_px: int


@dataclass(frozen=True)
class Walls:
    """A press over a block: what part of each pixel is wall (a little below nought beside one) and
    which way it faces (0 to FACINGS), and the shares of the window and of the sky that the walls
    hide; all (h, w)."""

    share: Field
    facing: Field
    no_window: Field
    no_sky: Field


def press_light(press: Press, scene: LitScene, surface: Interface, ppi: float) -> PressLight:
    """Returns a press with the light on its walls at the middle of the picture."""
    points, area = window_points(scene, 2, 3, 1.0)
    middle = np.array([scene.width_in / 2, scene.height_in / 2, 0.0])
    ray, angle = solid_angle(points, area, scene, middle)
    share = angle * ray[:, 2] * surface.let_in(ray[:, 2])
    window = _moves(press, ray[:, :2] / ray[:, 2:], share / share.sum(), ppi)
    turn = (np.arange(_SKY_SPOKES) + 0.5) / _SKY_SPOKES * 2 * math.pi
    slopes = np.concatenate([s * np.column_stack([np.cos(turn), np.sin(turn)]) for s, _ in _SKY])
    shares = np.repeat([part / _SKY_SPOKES for _, part in _SKY], _SKY_SPOKES)
    sky = _moves(press, slopes, shares, ppi)
    reach = max(float(np.abs(moves.by_px).max(initial=0)) for moves in (window, sky))
    margin = math.ceil(max(reach, 3 * _COSINE * press.flank_in * ppi)) + 2
    return PressLight(press, _walls(press, scene, surface), window, sky, ppi, margin)


def wall_slopes(press: Press) -> NDArray[np.float64]:
    """Returns the slopes met on the way down a wall, at even steps: a cosine from face to floor."""
    t = (np.arange(_PROFILE) + 0.5) / _PROFILE
    return math.pi / 2 * abs(press.depth_in) / press.flank_in * np.sin(math.pi * t)


def by_facing(press: Press, light_of: Callable[[Field, Field], Field]) -> Field:
    """Returns light averaged down a wall, (channels, FACINGS + 1) float32, by the way it faces.

    `light_of` gives the channels (channels, n) for normals' x and y per unit of z, (n,).
    """
    turn, slopes = np.linspace(0, 2 * math.pi, FACINGS + 1)[:, None], wall_slopes(press)
    light = light_of((np.cos(turn) * slopes).ravel(), (np.sin(turn) * slopes).ravel())
    return light.reshape(len(light), FACINGS + 1, _PROFILE).mean(axis=2).astype(np.float32)


def at_facing(table: Field, facing: Field) -> Field:
    """Returns a table's channels at facings (n,), (channels, n)."""
    base = np.minimum(facing.astype(np.intp), FACINGS - 1)
    mix = facing - base
    return table[:, base] * (1 - mix) + table[:, base + 1] * mix


def walls(light: PressLight, block: Block) -> Walls | None:
    """Returns a press's walls and shade over a block of pixels, or None where it has none."""
    press, m = light.press, light.margin_px
    (y0, y1), (x0, x1) = block
    plate = plate_at(press, (y0 - m, y1 + m), (x0 - m, x1 + m))
    if plate is None or plate.min() == plate.max():
        return None
    share = plate.astype(np.float32) / np.float32(255)
    smooth = _smoothed(share, press.flank_in * light.ppi)
    (gy, sharp_y), (gx, sharp_x) = (_slope(smooth, m, axis) for axis in (0, 1))
    steep = np.hypot(gx, gy)
    wall = (sharp_x * gx + sharp_y * gy) / np.maximum(steep, np.float32(1e-6))
    wall *= np.float32(press.flank_in * light.ppi)
    np.clip(wall, -1, 1, out=wall)
    sign = math.copysign(1.0, press.depth_in)
    turn = np.arctan2(np.float32(sign) * gy, np.float32(sign) * gx)
    facing = (turn % np.float32(2 * math.pi)) * np.float32(FACINGS / (2 * math.pi))
    no_window, no_sky = (_hidden(share, moves, m, sign) for moves in (light.window, light.sky))
    return Walls(wall, facing, no_window, no_sky)


def _walls(press: Press, scene: LitScene, surface: Interface) -> Field:
    points, area = window_points(scene, 6, 9, 1.0)
    middle = np.array([scene.width_in / 2, scene.height_in / 2, 0.0])
    ray, angle = solid_angle(points, area, scene, middle)
    level = arriving(ray, angle, np.array([0.0, 0.0, 1.0]), surface)

    def light_of(nx: Field, ny: Field) -> Field:
        normals = np.column_stack([nx, ny, np.ones_like(nx)])
        normals /= np.linalg.norm(normals, axis=1, keepdims=True)
        direct = [arriving(ray, angle, n, surface) / level for n in normals]
        shine = [float(lobe(ray, n, surface) @ angle) for n in normals]
        return np.stack([direct, shine, (1 + normals[:, 2]) / 2])

    return by_facing(press, light_of)


def _moves(
    press: Press, slopes: NDArray[np.float64], share: NDArray[np.float64], ppi: float
) -> Moves:
    """Returns how far shade reaches from the middle of a wall towards each light."""
    steep = np.maximum(np.hypot(slopes[:, 0], slopes[:, 1]), 1e-9)
    reach = np.maximum(abs(press.depth_in) * steep - press.flank_in / 2, 0)
    return Moves(slopes[:, ::-1] * (reach / steep)[:, None] * ppi, share)


def _hidden(share: Field, moves: Moves, m: int, sign: float) -> Field:
    """Returns the share of the lights that walls hide, (h - 2 m, w - 2 m)."""
    here = share[m:-m, m:-m]
    total = np.zeros_like(here)
    for (dy, dx), part in zip(moves.by_px.tolist(), moves.share.tolist(), strict=True):
        step = here - _moved(share, dy, dx, m)
        if sign < 0:
            np.negative(step, out=step)
        np.maximum(step, 0, out=step)
        step *= np.float32(part)
        total += step
    return total


def _moved(share: Field, dy: float, dx: float, m: int) -> Field:
    """Returns the plate read (dy, dx) pixels on, bilinear, without its margin."""
    j, i = math.floor(dy), math.floor(dx)
    v, u = np.float32(dy - j), np.float32(dx - i)
    height, width = share.shape[0] - 2 * m, share.shape[1] - 2 * m
    rows = share[m + j : m + j + height + 1, m + i : m + i + width + 1]
    tall = rows[:-1] * (1 - v) + rows[1:] * v
    return tall[:, :-1] * (1 - u) + tall[:, 1:] * u


def _slope(share: Field, m: int, axis: int) -> tuple[Field, Field]:
    """Returns the plate's slope along an axis, without the margin: for its sense, and sharp.

    Half the difference of a pixel's neighbours is the mean slope spread over three pixels; less a
    sixth of its own second difference it is sharp. That dips below nought beside a wall, so that
    the wall's width in all stays what it is.
    """
    height, width = share.shape

    def at(k: int) -> Field:
        if axis == 0:
            return share[m + k : height - m + k, m : width - m]
        return share[m : height - m, m + k : width - m + k]

    near, far = at(1) - at(-1), at(2) - at(-2)
    return near + far, near * np.float32(2 / 3) - far * np.float32(1 / 12)


def _smoothed(share: Field, flank_px: float) -> Field:
    """Returns the plate spread to the wall's own width, less what the slope's step spreads it."""
    spread = (_COSINE * flank_px) ** 2 - _BOX**2
    if spread <= 0.02:
        return share
    sigma = math.sqrt(spread)
    reach = max(1, math.ceil(2.5 * sigma))
    taps = np.exp(-0.5 * (np.arange(-reach, reach + 1) / sigma) ** 2)
    taps = (taps / taps.sum()).astype(np.float32)
    for axis in (0, 1):
        wide = np.pad(share, [(reach, reach) if k == axis else (0, 0) for k in (0, 1)], "edge")
        count = share.shape[axis]
        total = np.zeros_like(share)
        for k, tap in enumerate(taps):
            total += tap * (wide[k : k + count] if axis == 0 else wide[:, k : k + count])
        share = total
    return share
