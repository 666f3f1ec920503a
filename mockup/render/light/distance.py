"""Signed distance to an outline on a lattice: what shadows, occlusion and edges are read from."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.render.coverage import coverage
from mockup.render.light.lattice import Field, Lattice, lattice_over
from mockup.render.light.scene import Rings, bounds

REACH_IN = 0.3  # distances are cut off here; farther out only "far" matters
_PIECE_IN = 0.5  # long edges are cut up so that each touches only nodes near it


@dataclass(frozen=True)
class Distance:
    """The distance to an outline, inches, positive inside, between -REACH_IN and REACH_IN."""

    values: Field
    lattice: Lattice
    box: tuple[float, float, float, float]


def signed_distance(rings: Rings, ppi: float) -> Distance:
    """Returns the signed distance to rings (inches) on the lattice for `ppi`, float32.

    Exact up to float32 from node to the nearest point of the polygon; the sign is taken from the
    coverage of the node's own cell.
    """
    box = bounds(rings)
    lattice = lattice_over(box, ppi, REACH_IN)
    squared = np.full((lattice.height, lattice.width), REACH_IN**2, np.float32)
    x, y = lattice.x_in(), lattice.y_in()
    for ring in rings:
        for ax, ay, bx, by in _pieces(ring):
            _nearer(squared, x, y, (ax, ay, bx, by))
    distance = np.sqrt(squared)
    inside = coverage(rings, lattice.view()) >= 0.5
    return Distance(np.where(inside, distance, -distance), lattice, box)


def _pieces(ring: NDArray[np.float64]) -> list[tuple[float, float, float, float]]:
    ends = np.roll(ring, -1, axis=0)
    found: list[tuple[float, float, float, float]] = []
    for a, b in zip(ring, ends, strict=True):
        count = max(1, int(np.ceil(np.hypot(*(b - a)) / _PIECE_IN)))
        cuts = a + np.linspace(0, 1, count + 1)[:, None] * (b - a)
        found += [(*p, *q) for p, q in zip(cuts[:-1].tolist(), cuts[1:].tolist(), strict=True)]
    return found


def _nearer(squared: Field, x: Field, y: Field, edge: tuple[float, float, float, float]) -> None:
    """Lowers `squared` to the squared distance from one edge where that is nearer."""
    ax, ay, bx, by = edge
    i0, i1 = np.searchsorted(x, (min(ax, bx) - REACH_IN, max(ax, bx) + REACH_IN))
    j0, j1 = np.searchsorted(y, (min(ay, by) - REACH_IN, max(ay, by) + REACH_IN))
    if i0 == i1 or j0 == j1:
        return
    dx, dy = x[None, i0:i1] - np.float32(ax), y[j0:j1, None] - np.float32(ay)
    ex, ey = np.float32(bx - ax), np.float32(by - ay)
    along = (dx * ex + dy * ey) / max(ex * ex + ey * ey, np.float32(1e-12))
    np.clip(along, 0, 1, out=along)
    rest_x, rest_y = dx - along * ex, dy - along * ey
    part = squared[j0:j1, i0:i1]
    np.minimum(part, rest_x * rest_x + rest_y * rest_y, out=part)


def sloped(distance: Distance, x: Field, y: Field) -> tuple[Field, Field, Field]:
    """Returns the distance at points in inches, as `sample`, and how it grows along x and y."""
    lattice = distance.lattice
    scale = np.float32(1 / lattice.spacing_in)
    u = np.clip((x - lattice.left_in) * scale, 0, lattice.width - 1.001)
    v = np.clip((y - lattice.top_in) * scale, 0, lattice.height - 1.001)
    i, j = u.astype(np.int32), v.astype(np.int32)
    u -= i
    v -= j
    at = j * lattice.width + i
    flat = distance.values.ravel()
    a, b = flat.take(at), flat.take(at + 1)
    at += lattice.width
    c, d = flat.take(at), flat.take(at + 1)
    b -= a
    d -= c
    upper, lower = a + b * u, c + d * u
    lower -= upper
    d -= b
    d *= v
    d += b
    return upper + lower * v, d, lower


def sample(distance: Distance, x: Field, y: Field) -> Field:
    """Returns the distance at points in inches (any equal shapes), bilinear, float32."""
    lattice = distance.lattice
    scale = np.float32(1 / lattice.spacing_in)
    u = x - lattice.left_in
    u *= scale
    v = y - lattice.top_in
    v *= scale
    np.clip(u, 0, lattice.width - 1.001, out=u)
    np.clip(v, 0, lattice.height - 1.001, out=v)
    i, j = u.astype(np.int32), v.astype(np.int32)
    u -= i
    v -= j
    j *= lattice.width
    j += i
    flat = distance.values.ravel()
    a = flat.take(j)
    b = flat.take(j + 1)
    j += lattice.width
    c = flat.take(j)
    d = flat.take(j + 1)
    b -= a
    b *= u
    a += b
    d -= c
    d *= u
    c += d
    c -= a
    c *= v
    a += c
    return a
