"""What a smooth surface mirrors into a camera straight above: the window, and the room.

Tabled by the surface's normal for the middle of the picture. Elsewhere on the table the window
and the ceiling are seen along other ways, which for a mirror is the same as another normal there.
Microfacets are GGX's (Walter et al. 2007).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from mockup.render.light.interface import masking
from mockup.render.light.lamps import corner_frame, solid_angle, window_points
from mockup.render.light.lattice import Field
from mockup.render.light.scene import LitScene, Room, Window
from mockup.render.light.tone import Lamps

Array = NDArray[np.float64]
_SIDE = 81  # nodes along each axis of the table
_STEEPEST = 0.8  # x or y of the steepest unit normal tabled
_ACROSS, _UP = 12, 18  # points of the window: nearer together than the sharpest lobe is wide
_RINGS, _SPOKES = 12, 16  # of microfacets
_BELOW = 0.35  # radiance mirrored from below the horizon, per the room's mean; judgement


@dataclass(frozen=True)
class Mirror:
    """Light mirrored straight up by normals, (2, _SIDE, _SIDE) float32.

    Channels: per unit of the window's radiance, per unit of the room's mean. `turns` (2, 2, 2) is
    by how much each channel's normal is to be moved, per inch from `middle`, in x and in y.
    """

    values: Field
    turns: Field
    middle: tuple[float, float]


def mirror(scene: LitScene, roughness: float) -> Mirror:
    """Returns what a surface of a GGX alpha mirrors in a scene; nothing of it is lost."""
    axis = np.linspace(-_STEEPEST, _STEEPEST, _SIDE)
    x, y = np.meshgrid(axis, axis)
    short = np.minimum(1, 0.98 / np.maximum(np.hypot(x, y), 1e-9))
    normals = np.stack([x * short, y * short], axis=-1).reshape(-1, 2)
    normals = np.column_stack([normals, np.sqrt(1 - (normals**2).sum(axis=1))])
    values = np.stack([_window(scene, normals, roughness), _room(scene, normals, roughness)])
    turns = np.stack([_window_turn(scene), _room_turn(scene)]).astype(np.float32)
    shape = (2, _SIDE, _SIDE)
    middle = (scene.width_in / 2, scene.height_in / 2)
    return Mirror(values.reshape(shape).astype(np.float32), turns, middle)


def mirrored(table: Mirror, nx: Field, ny: Field, x: Field, y: Field) -> tuple[Field, Field]:
    """Returns both channels for normals (nx, ny, 1) at points in inches, all (n,) float32."""
    ax, ay = x - np.float32(table.middle[0]), y - np.float32(table.middle[1])
    found: list[Field] = []
    for channel, turn in zip(table.values, table.turns, strict=True):
        mx = nx + (turn[0, 0] * ax + turn[0, 1] * ay)
        my = ny + (turn[1, 0] * ax + turn[1, 1] * ay)
        found.append(_looked_up(channel, mx, my))
    return found[0], found[1]


def ceiling(lamps: Lamps) -> Field:
    """Returns the colour of the room's light overhead, (3,): as bright as the sky's, and half way
    in colour to the window's, which lights the ceiling."""
    sky, window = (lamp / luminance(lamp) for lamp in (lamps.sky, lamps.window))
    mixed = np.sqrt(sky * window)
    return (mixed * (luminance(lamps.sky) / luminance(mixed))).astype(np.float32)


def luminance(light: Field) -> float:
    """Returns the luminance of linear sRGB, (3,) (IEC 61966-2-1)."""
    return float(light @ np.array([0.2126, 0.7152, 0.0722]))


def room_light(scene: LitScene, way: Array, at: Array) -> Array:
    """Returns the room's radiance along ways (..., 3) from points (..., 2), inches from the middle.

    It is per the sky's radiance: what a level sheet gets from the room beside the window is as much
    as from an even sky. Overhead is a ceiling, brighter towards the window, and before it the dark
    of the camera's side.
    """
    window = replace(scene.window, radiance=(1.0, 1.0, 1.0))
    return _room_light(scene.room, window.azimuth_deg, way, at) / _room_mean(scene.room, window)


@lru_cache(maxsize=16)
def _room_mean(room: Room, window: Window) -> float:
    """Returns the mean of the room's light beside the window, weighted by the cosine."""
    r = np.sqrt((np.arange(96) + 0.5) / 96)[:, None]  # Malley: even on the disc below
    phi = (np.arange(96) + 0.5) / 96 * 2 * np.pi
    flat = np.broadcast_arrays(r * np.cos(phi), r * np.sin(phi), np.sqrt(1 - r * r))
    way = np.stack(flat, axis=-1)
    light = _room_light(room, window.azimuth_deg, way, np.zeros(2))
    return float(light[_beside(window, way)].mean())


def _beside(window: Window, way: Array) -> NDArray[np.bool_]:
    """Tells which ways (..., 3) from the picture's middle do not end on the window."""
    centre, half_u, half_v, normal = corner_frame(window, LitScene(0.0, 0.0, ()))
    far = (centre @ normal) / np.minimum(way @ normal, -1e-9)
    hit = way * far[..., None] - centre
    out = (np.abs(hit @ half_u) > half_u @ half_u) | (np.abs(hit @ half_v) > half_v @ half_v)
    return out | (way @ normal >= 0)


def _room_light(room: Room, azimuth_deg: float, way: Array, at: Array) -> Array:
    turn = np.radians(azimuth_deg)
    toward = np.array([np.sin(turn), -np.cos(turn)])
    up = np.maximum(way[..., 2], 1e-3)
    place = at + room.ceiling_in * way[..., :2] / up[..., None]
    along = place @ toward / room.fall_in
    light = 1 + room.contrast * along / np.sqrt(1 + along**2)
    light *= 1 - room.shade * np.exp(-(place**2).sum(axis=-1) / room.shade_in**2)
    return np.where(way[..., 2] > 0, light, _BELOW)


def _looked_up(channel: Field, mx: Field, my: Field) -> Field:
    scale = np.float32((_SIDE - 1) / (2 * _STEEPEST)) / np.sqrt(1 + mx * mx + my * my)
    half = np.float32((_SIDE - 1) / 2)
    u = np.clip(mx * scale + half, 0, np.float32(_SIDE - 1.001))
    v = np.clip(my * scale + half, 0, np.float32(_SIDE - 1.001))
    i, j = u.astype(np.intp), v.astype(np.intp)
    u, v = u - i, v - j
    flat = channel.ravel()
    place = j * _SIDE + i
    low = flat.take(place) * (1 - u) + flat.take(place + 1) * u
    place += _SIDE
    high = flat.take(place) * (1 - u) + flat.take(place + 1) * u
    return low * (1 - v) + high * v


def _window(scene: LitScene, normals: Array, alpha: float) -> Array:
    points, area = window_points(scene, _ACROSS, _UP, 1.0)
    middle = np.array([scene.width_in / 2, scene.height_in / 2, 0.0])
    ray, angle = solid_angle(points, area, scene, middle)
    half = ray + np.array([0.0, 0.0, 1.0])
    half /= np.linalg.norm(half, axis=1, keepdims=True)
    a2 = alpha * alpha
    out = np.empty(len(normals))
    for start in range(0, len(normals), 1024):  # so many that the products fit a cache
        n = normals[start : start + 1024]
        n_h, n_l = n @ half.T, np.maximum(n @ ray.T, 0)
        spread = a2 / (np.pi * (n_h**2 * (a2 - 1) + 1) ** 2)
        shadow = masking(n_l, alpha) * masking(n[:, 2:], alpha)
        lobe = np.where(n_l > 0, spread * shadow / (4 * n[:, 2:]), 0.0)
        out[start : start + 1024] = lobe @ angle
    return out


def _room(scene: LitScene, normals: Array, alpha: float) -> Array:
    """Returns the room as microfacets about each normal mirror it, where no window hides it.

    GGX's slopes, r^2 = alpha^2 u / (1 - u), are drawn at the middles of even shares of u: seen
    from straight above each stands for an equal area.
    """
    u = (np.arange(_RINGS) + 0.5) / _RINGS
    r = alpha * np.sqrt(u / (1 - u))
    phi = (np.arange(_SPOKES) + 0.5) / _SPOKES * 2 * np.pi
    total = np.zeros(len(normals))
    slope = normals[:, :2] / normals[:, 2:]
    at = np.zeros(2)
    for radius in r:
        for turn in phi:
            x, y = slope[:, 0] + radius * np.cos(turn), slope[:, 1] + radius * np.sin(turn)
            n = np.column_stack([x, y, np.ones_like(x)])
            n /= np.linalg.norm(n, axis=1, keepdims=True)
            way = 2 * n[:, 2:] * n - np.array([0.0, 0.0, 1.0])
            total += room_light(scene, way, at) * _beside(scene.window, way)
    return total / (_RINGS * _SPOKES)


def _window_turn(scene: LitScene) -> Array:
    """Returns how the normal that mirrors the window's middle turns, per inch, the other way."""
    centre, _, _, _ = corner_frame(scene.window, scene)
    middle = np.array([scene.width_in / 2, scene.height_in / 2, 0.0])

    def half(at: Array) -> Array:
        ray = centre - at
        h = ray / np.linalg.norm(ray) + np.array([0.0, 0.0, 1.0])
        return h[:2] / h[2]

    steps = np.eye(3)[:2]
    return -np.column_stack([(half(middle + s) - half(middle - s)) / 2 for s in steps])


def _room_turn(scene: LitScene) -> Array:
    """Returns the same for the ceiling: a small tilt moves what is mirrored by twice itself."""
    return np.eye(2) / (2 * scene.room.ceiling_in)
