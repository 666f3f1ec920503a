"""Where each sheet comes to rest on those below: the plane of least height that clears them all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from mockup.render.light.scene import Plane, Rings, Sheet, height, raised

Array = NDArray[np.float64]
_STEP_IN = 0.06  # how closely a sheet feels for what lies under it


def settle(sheets: Sequence[Sheet], lifts_in: Sequence[float] | None = None) -> tuple[Sheet, ...]:
    """Returns the sheets, bottom to top, each with the plane it comes to rest on.

    A rigid sheet ends where its centroid is lowest while no point of it is below what lies under
    that point (the table at 0, or the highest upper face there). `lifts_in` then raises each by
    its own inches, as a pad under a card does; later sheets rest on the lifted ones.
    """
    placed: list[Sheet] = []
    for number, sheet in enumerate(sheets):
        rims = [_rim(below.rings[0]) for below in placed]
        under = [rim[_inside(rim, sheet.rings)] for rim in rims]
        points = np.concatenate([_feelers(sheet.rings), *under])
        support = np.zeros(len(points))
        for below in placed:
            inside = _inside(points, below.rings)
            x, y = (points[inside, k].astype(np.float32) for k in (0, 1))
            top = height(raised(below), below.bow, x, y)
            support[inside] = np.maximum(support[inside], top)
        plane = _resting(points, support, _centroid(sheet.rings[0]))
        lift = lifts_in[number] if lifts_in else 0.0
        placed.append(replace(sheet, plane=replace(plane, z0_in=plane.z0_in + lift)))
    return tuple(placed)


def _feelers(rings: Rings) -> Array:
    """Returns points over a sheet, its outline and a grid inside, (n, 2) inches."""
    outer = rings[0]
    low, high = outer.min(axis=0), outer.max(axis=0)
    grid = np.stack(
        np.meshgrid(*(np.arange(low[k], high[k], 2 * _STEP_IN) for k in (0, 1))), axis=-1
    ).reshape(-1, 2)
    return np.concatenate([_along(outer), grid[_inside(grid, rings)]])


def _rim(ring: Array) -> Array:
    """Returns points a hair inside a sheet's outline, where its edge would prop up another."""
    centre = _centroid(ring)
    return centre + (_along(ring) - centre) * (1 - 1e-4)


def _along(ring: Array) -> Array:
    """Returns a ring's corners and points between them, no farther apart than a step."""
    points = [ring]
    for a, b in zip(ring, np.roll(ring, -1, axis=0), strict=True):
        count = int(np.hypot(*(b - a)) / _STEP_IN)
        points.append(a + (np.arange(1, count + 1) / (count + 1))[:, None] * (b - a))
    return np.concatenate(points)


def _inside(points: Array, rings: Rings) -> NDArray[np.bool_]:
    """Tells which points lie inside rings, by the even-odd rule."""
    low, high = rings[0].min(axis=0), rings[0].max(axis=0)
    near = np.flatnonzero(((points >= low) & (points <= high)).all(axis=1))
    x, y = points[near].T
    odd = np.zeros(len(near), bool)
    for ring in rings:
        for (ax, ay), (bx, by) in zip(ring, np.roll(ring, -1, axis=0), strict=True):
            if len(near) and ay != by:
                odd ^= ((ay > y) != (by > y)) & (x < ax + (y - ay) * (bx - ax) / (by - ay))
    inside = np.zeros(len(points), bool)
    inside[near] = odd
    return inside


def _centroid(ring: Array) -> Array:
    """Returns the centroid of a ring (the shoelace formula)."""
    nxt = np.roll(ring, -1, axis=0)
    cross = ring[:, 0] * nxt[:, 1] - nxt[:, 0] * ring[:, 1]
    return ((ring + nxt) * cross[:, None]).sum(axis=0) / (3 * cross.sum())


def _resting(points: Array, support: Array, centroid: Array) -> Plane:
    """Returns the plane over all supports that is lowest at the centroid.

    This linear programme is solved from the other side: of all triangles of supports around the
    centroid, the one highest there. Any support above the plane replaces a corner; the height at
    the centroid grows with each step, so the walk ends.
    """
    far = 1e3 * np.array([[0.0, -2.0], [1.8, 1.0], [-1.8, 1.0]]) + centroid
    points = np.concatenate([points, far])
    support = np.concatenate([support, [-1e3] * 3])
    corners = [len(points) - 3, len(points) - 2, len(points) - 1]
    columns = np.column_stack([np.ones(len(points)), points - centroid])
    plane = np.zeros(3)
    for _ in range(1000):
        plane = np.linalg.solve(columns[corners], support[corners])
        above = support - columns @ plane
        worst = int(np.argmax(above))
        if above[worst] < 1e-9:
            break
        corners = _around(columns, corners, worst)
    z, gx, gy = (float(v) for v in plane)
    return Plane(z - gx * float(centroid[0]) - gy * float(centroid[1]), gx, gy)


def _around(columns: Array, corners: list[int], new: int) -> list[int]:
    """Returns the triangle with corner `new` that still holds the centroid (at the origin)."""
    best: tuple[float, list[int]] = (-np.inf, corners)
    for dropped in range(3):
        trial = [*corners[:dropped], new, *corners[dropped + 1 :]]
        matrix = columns[trial].T
        if abs(np.linalg.det(matrix)) < 1e-12:
            continue
        shares = np.linalg.solve(matrix, np.array([1.0, 0.0, 0.0]))
        if shares.min() > best[0]:
            best = (float(shares.min()), trial)
    return best[1]
