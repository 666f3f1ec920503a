"""The window and the sky as a few dozen cells of light, each with a slope, a size and a weight.

A receiver at (x, y) sees a cell along the slope a - b (x, y): horizontal run per rise. A caster at
gap g shadows it with its outline moved by g times that slope (similar triangles), softened by g
times the cell's own size, so that few cells give a smooth penumbra.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.render.light.interface import interface
from mockup.render.light.lattice import Field
from mockup.render.light.scene import PAPER_IOR, LitScene, Window

Array = NDArray[np.float64]
WINDOW_CELLS = (3, 5)  # across, up
_SKY_RINGS = np.array([0.0, 0.35, 0.65, 0.88, 1.0])  # squared radii on the unit disc
_SKY_SPOKES = 6
SKY_CELLS = (len(_SKY_RINGS) - 1) * _SKY_SPOKES
UPRIGHT: Array = np.array([0.0, 0.0, 1.0])


@dataclass(frozen=True)
class Cells:
    """Cells of light as seen from one height: first the window's, then the sky's.

    `ax`, `ay`, `b`, `size` are (cells,) float32; slope = (ax - b x, ay - b y). `weights` is
    (cells, 4): for the share of the window seen, for the drift of its direction in x and in y, and
    for the share of the sky seen. `window_share` is the window's part of the open table's light.
    """

    ax: Field
    ay: Field
    b: Field
    size: Field
    weights: Field
    of_window: int
    window_share: float


def corner_frame(window: Window, scene: LitScene) -> tuple[Array, Array, Array, Array]:
    """Returns the window's (centre, half width, half height, normal) as vectors in inches."""
    azimuth, elevation = math.radians(window.azimuth_deg), math.radians(window.elevation_deg)
    ahead = np.array([math.sin(azimuth), -math.cos(azimuth), 0.0])
    toward = ahead * math.cos(elevation) + np.array([0, 0, math.sin(elevation)])
    across = np.array([math.cos(azimuth), math.sin(azimuth), 0.0])
    up = np.array([0, 0, math.cos(elevation)]) - ahead * math.sin(elevation)
    middle = np.array([scene.width_in / 2, scene.height_in / 2, 0.0])
    centre = middle + toward * window.distance_in
    return centre, across * window.width_in / 2, up * window.height_in / 2, -toward


def window_points(scene: LitScene, across: int, up: int, shear: float) -> tuple[Array, Array]:
    """Returns the middles of the window's cells, (n, 3) inches, and the area of each.

    Rows are pushed sideways by `shear` of a cell from bottom to top, so that no two line up.
    """
    centre, half_u, half_v, _ = corner_frame(scene.window, scene)
    row, column = np.divmod(np.arange(across * up), across)
    v = (row + 0.5) / up * 2 - 1
    push = shear * ((row + 0.5) / up - 0.5)
    u = (column + 0.5 + push) / across * 2 - 1
    points = centre + u[:, None] * half_u + v[:, None] * half_v
    area = scene.window.width_in * scene.window.height_in / (across * up)
    return points, np.full(len(points), area)


def solid_angle(points: Array, area: Array, scene: LitScene, at: Array) -> tuple[Array, Array]:
    """Returns unit vectors to the points and the solid angle of each cell, seen from `at`."""
    _, _, _, normal = corner_frame(scene.window, scene)
    ray = points - at
    far = np.linalg.norm(ray, axis=-1)
    ray = ray / far[..., None]
    return ray, np.maximum(-(ray @ normal), 0) * area / far**2


def cells(scene: LitScene, z_in: float, facing: Array = UPRIGHT) -> Cells:
    """Returns the cells of light for receivers near height `z_in` that face along a unit vector."""
    across, up = WINDOW_CELLS
    points, area = window_points(scene, across, up, 1.0)
    middle = np.array([scene.width_in / 2, scene.height_in / 2, z_in])
    ray, angle = solid_angle(points, area, scene, middle)
    paper = interface(PAPER_IOR, 0.42)
    cosine = np.maximum(ray @ facing, 0)
    share = angle * cosine * paper.let_in(cosine)
    level = angle * np.maximum(ray[:, 2], 0)
    of_window = float((level * paper.let_in(np.maximum(ray[:, 2], 0))).sum())
    of_window *= sum(scene.window.radiance)
    of_sky = math.pi * paper.transmit_sky * sum(scene.sky.radiance)
    share /= max(share.sum(), 1e-9)
    slope = ray[:, :2] / ray[:, 2:]
    drift = slope - share @ slope
    b = 1 / (points[:, 2] - z_in)
    # A cell of solid angle w at cosine c covers w / c^3 of the plane of slopes.
    size = np.sqrt(angle / ray[:, 2] ** 3)
    sky_slope, sky_size, sky_share = _sky()
    sky_share = sky_share * np.maximum(sky_slope @ facing[:2] + facing[2], 0)
    sky_share /= sky_share.sum()  # of what the face itself sees of the sky
    lit = np.column_stack([share, share * drift[:, 0], share * drift[:, 1], 0 * share])
    dim = np.zeros((SKY_CELLS, 4))
    dim[:, 3] = sky_share
    return Cells(
        *(
            np.concatenate(pair).astype(np.float32)
            for pair in (
                (points[:, 0] * b, sky_slope[:, 0]),
                (points[:, 1] * b, sky_slope[:, 1]),
                (b, np.zeros(SKY_CELLS)),
                (size, sky_size),
                (lit, dim),
            )
        ),
        of_window=len(points),
        window_share=of_window / (of_window + of_sky),
    )


def _sky() -> tuple[Array, Array, Array]:
    """Returns slopes (n, 2), sizes and weights of cells of the hemisphere, cosine-weighted.

    Rings of the unit disc lifted to the hemisphere (Malley's method), thinner towards the
    horizon, each turned against the next; opposite cells pair off, so a straight edge overhead
    hides exactly half. A cell of the disc grows by 1 / (1 - r^2)^2 in the plane of slopes.
    """
    share = np.diff(_SKY_RINGS)
    ring, spoke = np.divmod(np.arange(SKY_CELLS), _SKY_SPOKES)
    r2 = (_SKY_RINGS[:-1] + share / 2)[ring]
    steep = np.sqrt(r2 / (1 - r2))
    turn = (spoke + (ring + 0.5) / len(share)) * (2 * math.pi / _SKY_SPOKES)
    slope = np.column_stack([steep * np.cos(turn), steep * np.sin(turn)])
    weight = share[ring] / _SKY_SPOKES
    # Cells are widened by a third: their corners then meet, and the sum over cells is smoothest.
    return slope, 1.3 * np.sqrt(math.pi * weight) / (1 - r2), weight
