"""Where shadows and edges are in a picture, found by casting rays at the path tracer's own solids.

Nothing of the engine's: neither its distances nor what it thinks is hidden.
"""

from __future__ import annotations

import drjit as dr
import mitsuba as mi
import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import maximum_filter, minimum_filter

Mask = NDArray[np.bool_]
WINDOW_RAYS = (8, 8)
SKY_RAYS = 96
WINDOW_SEEN, SKY_SEEN = 0.9, 0.85  # less of either is shadow; common practice, no source
_OFF_IN = 2e-4  # where rays start above a face
_EDGE_PX = 3  # of the window in which two sheets meet: 1.5 px to either side


def zones(
    solids: object, lens: tuple[float, float, int, int], corners: NDArray[np.float64]
) -> tuple[Mask, Mask]:
    """Returns where shadows or occlusion fall and where edges are, (h, w) each.

    `solids` is a mitsuba scene of sheets without lamps, `lens` the picture's width and height in
    inches and pixels, `corners` the window's centre and half sides in the tracer's axes, (3, 3).
    """
    width_in, height_in, width_px, height_px = lens
    row, column = (a.ravel() for a in np.indices((height_px, width_px)))
    x = (column + 0.5) / width_px * width_in
    y = -(row + 0.5) / height_px * height_in
    down = mi.Ray3f(
        mi.Point3f(mi.Float(x), mi.Float(y), mi.Float(np.full(len(x), 14.0))), mi.Vector3f(0, 0, -1)
    )
    hit = solids.ray_intersect(down)
    at = hit.p + _OFF_IN * mi.Vector3f(0, 0, 1)
    window, sky = mi.Float(0), mi.Float(0)
    for toward in _window_points(corners):
        away = mi.Point3f(*map(float, toward)) - at
        blocked = solids.ray_test(mi.Ray3f(at, away, 0.999, 0.0, []))
        window += dr.select(blocked, 0.0, 1.0)
    for toward in _sky_directions():
        blocked = solids.ray_test(mi.Ray3f(at, mi.Vector3f(*map(float, toward))))
        sky += dr.select(blocked, 0.0, 1.0)
    many = WINDOW_RAYS[0] * WINDOW_RAYS[1]
    dark = (np.array(window) < WINDOW_SEEN * many) | (np.array(sky) < SKY_SEEN * SKY_RAYS)
    sheet = _sheets(solids, hit).reshape(height_px, width_px)
    edge = maximum_filter(sheet, _EDGE_PX) != minimum_filter(sheet, _EDGE_PX)
    return dark.reshape(height_px, width_px) & ~edge, edge


def _sheets(solids: object, hit: object) -> NDArray[np.int64]:
    """Returns the number of the sheet each ray meets: a sheet's solids end in the same number."""
    pointers = np.array(dr.reinterpret_array(mi.UInt32, hit.shape))
    found = np.zeros(len(pointers), np.int64)
    for shape in solids.shapes():
        digits = "".join(c for c in shape.id() if c.isdigit())
        own = np.array(dr.reinterpret_array(mi.UInt32, mi.ShapePtr(shape))).ravel()[0]
        found[pointers == own] = int(digits or 0)
    return found


def _window_points(corners: NDArray[np.float64]) -> NDArray[np.float64]:
    centre, half_u, half_v = corners
    u, v = ((np.arange(n) + 0.5) / n * 2 - 1 for n in WINDOW_RAYS)
    return np.array([centre + a * half_u + b * half_v for a in u for b in v])


def _sky_directions() -> NDArray[np.float64]:
    """Returns cosine-distributed directions: a golden-angle spiral lifted to the hemisphere."""
    k = np.arange(SKY_RAYS) + 0.5
    r2, turn = k / SKY_RAYS, k * np.pi * (3 - 5**0.5)
    return np.column_stack(
        [np.sqrt(r2) * np.cos(turn), np.sqrt(r2) * np.sin(turn), np.sqrt(1 - r2)]
    )
