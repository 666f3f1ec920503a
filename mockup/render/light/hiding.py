"""How much of the window and the sky sheets hide from points below them, cell by cell of light.

A cell of light seen from a tile of points falls on a small patch of the sheet above. Where the
sheet's outline is farther from the patch than the patch is wide, the whole tile sees all of the
cell or nothing of it, and only the rest is worked out point by point: one in ten.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from mockup.render.light import steep
from mockup.render.light.distance import REACH_IN, Distance, sample, sloped
from mockup.render.light.lamps import Cells
from mockup.render.light.lattice import Field
from mockup.render.light.scene import Bow, Plane, height

LEAST_GAP_IN = 0.002
_SOFTEST_IN = 1.8 * REACH_IN  # distances are only known that far to both sides
_OUTSIDE = np.float32(-0.25)  # node spacings: the middle of what shows of a pixel half covered
# A distance between nodes is off by at most half a cell's diagonal, at both ends; and a little for
# the curl of a sheet within a tile.
_UNSURE = np.float32(1.6)

Points = tuple[Field, Field]
"""x and y, inches, (tiles, points) float32 each."""
Height = Callable[[Field, Field], Field]


@dataclass(frozen=True)
class Caster:
    """A sheet as seen from below: outline, upper face, the share of light it stops, thickness, and
    the radius of its upper edge."""

    distance: Distance
    top: Plane
    bow: Bow | None
    stops: float
    thickness_in: float = 0.0
    bevel_in: float = 0.0


Hidden = tuple[int, NDArray[np.intp], Field]
"""The number of a caster, the tiles it hides any sky from (n,), and the share (n, points)."""

Above = Sequence[tuple[Caster, NDArray[np.bool_]]]
"""Casters, each with the tiles (n,) to which it matters."""


def open_share(
    points: Points, height_at: Height, above: Above, cells: Cells, spacing_in: float
) -> tuple[Field, list[Hidden]]:
    """Returns the channels of visibility at tiles of points, (tiles, 4, points) float32.

    And the share of the sky that each caster hides by itself, in which its colour is seen. Every
    cell of light is blocked by the sheet that covers most of it. `height_at` gives the receiver's
    z at x and y; `spacing_in` is the distance between nodes.
    """
    tiles, count = points[0].shape
    x, y = _pushed_out(points, above, spacing_in)
    push = np.sqrt(((x - points[0]) ** 2 + (y - points[1]) ** 2).max(axis=1))
    z = height_at(x, y)
    spans = _Spans.of(points, height_at, np.float32(1.3) * push + _UNSURE * np.float32(spacing_in))
    blocked = np.zeros((tiles, len(cells.b), count), np.float32)
    hidden: list[Hidden] = []
    for number, (caster, mine) in enumerate(above):
        some = np.flatnonzero(mine)
        if not len(some):
            continue
        tile, cell, whole = _uncertain(spans.at(some), caster, cells, spacing_in)
        tile = some[tile]
        if not len(tile):
            continue
        hit = np.full((len(tile), count), caster.stops, np.float32)
        part = np.flatnonzero(~whole)
        t, k = tile[part], cell[part]
        hit[part] = _blocked(x[t], y[t], z[t], caster, cells, k, spacing_in)
        before = blocked[tile, cell]
        np.maximum(hit, before, out=hit)
        blocked[tile, cell] = hit
        hit -= before
        hit *= cells.weights[cell, 3][:, None]
        starts = np.flatnonzero(np.diff(tile, prepend=-1))
        hidden.append((number, tile[starts], np.add.reduceat(hit, starts, axis=0)))
    result = -(np.ascontiguousarray(cells.weights.T) @ blocked)
    result[:, 0] += 1
    result[:, 3] += 1
    return result, hidden


def _pushed_out(points: Points, above: Above, spacing_in: float) -> Points:
    """Returns the points, those just under a caster's outline moved to just outside it.

    A pixel cut by an outline shows the receiver only beside the caster, and pixels between nodes
    are interpolated: light measured underneath would leak out as a dark fringe.
    """
    x, y = points[0].copy(), points[1].copy()
    h = np.float32(spacing_in)
    for caster, mine in above:
        index = np.flatnonzero(mine)
        middle_x, middle_y = (v[index].mean(axis=1) for v in (x, y))
        reach = np.hypot(np.ptp(x[index], axis=1), np.ptp(y[index], axis=1)) / 2 + 4 * h
        index = index[np.abs(sample(caster.distance, middle_x, middle_y)) < reach]
        px, py = x[index], y[index]
        d = sample(caster.distance, px, py)
        near = np.nonzero((d > h * _OUTSIDE) & (d < 2 * h))
        if not len(near[0]):
            continue
        px, py, d = px[near], py[near], d[near]
        gx = sample(caster.distance, px + h, py) - sample(caster.distance, px - h, py)
        gy = sample(caster.distance, px, py + h) - sample(caster.distance, px, py - h)
        away = (d - h * _OUTSIDE) / np.maximum(np.hypot(gx, gy), np.float32(1e-9))
        x[index[near[0]], near[1]] = px - away * gx
        y[index[near[0]], near[1]] = py - away * gy
    return x, y


@dataclass(frozen=True)
class _Spans:
    """Tiles by their middle and two of their corners: x, y, z (tiles, 3, 1), and their slack."""

    x: Field
    y: Field
    z: Field
    slack: Field

    @classmethod
    def of(cls, points: Points, height_at: Height, slack: Field) -> _Spans:
        low_x, high_x = points[0].min(axis=1), points[0].max(axis=1)
        low_y, high_y = points[1].min(axis=1), points[1].max(axis=1)
        x = np.stack([(low_x + high_x) / 2, low_x, high_x], axis=1)
        y = np.stack([(low_y + high_y) / 2, low_y, low_y], axis=1)
        return cls(x[..., None], y[..., None], height_at(x, y)[..., None], slack[:, None])

    def at(self, some: NDArray[np.intp]) -> _Spans:
        """Returns some of the tiles."""
        return _Spans(self.x[some], self.y[some], self.z[some], self.slack[some])


def _uncertain(
    spans: _Spans, caster: Caster, cells: Cells, spacing_in: float
) -> tuple[NDArray[np.intp], NDArray[np.intp], NDArray[np.bool_]]:
    """Returns the tiles and cells where a caster hides anything, and whether it hides all.

    Tiles ascend. Where it hides all, it does so from every point of the tile.
    """
    if caster.top.stands:
        spans = replace(spans, **{k: steep.all_corners(getattr(spans, k)) for k in ("x", "y", "z")})
    x, y, gap = _met(spans.x, spans.y, spans.z, caster, cells, np.s_[:])
    away_x, away_y = x[:, 1:] - x[:, :1], y[:, 1:] - y[:, :1]
    reach = np.sqrt((away_x * away_x + away_y * away_y).max(axis=1)) + spans.slack
    # Beside the middle the gap, and with it the penumbra, may be a little wider.
    reach += np.float32(0.55) * _width(gap.max(axis=1), cells.size, spacing_in)
    distance = sample(caster.distance, x[:, 0], y[:, 0])
    tile, cell = np.nonzero(distance > -reach - _thrown_farther(caster, cells))
    return tile, cell, (distance > reach + np.float32(caster.bevel_in))[tile, cell]


def _thrown_farther(caster: Caster, cells: Cells) -> Field:
    """Returns how far a sheet's lower edge may stand out past its upper one as seen from the cells,
    inches (cells,): nothing from the sky's, where it makes no difference that could be seen."""
    farther = np.float32(caster.thickness_in) * np.hypot(cells.ax, cells.ay)
    farther[cells.of_window :] = 0
    return farther


def _met(
    x: Field, y: Field, z: Field, caster: Caster, cells: Cells, cell: NDArray[np.intp] | slice
) -> tuple[Field, Field, Field]:
    """Returns where the way from points to cells meets a caster: x, y, and the gap overhead."""
    b = cells.b[cell] if isinstance(cell, slice) else cells.b[cell][:, None]
    ax = cells.ax[cell] if isinstance(cell, slice) else cells.ax[cell][:, None]
    ay = cells.ay[cell] if isinstance(cell, slice) else cells.ay[cell][:, None]
    sx, sy = ax - x * b, ay - y * b
    if caster.top.stands:
        return steep.met((x, y, z), (sx, sy), caster.top)
    gap = np.maximum(height(caster.top, caster.bow, x, y) - z, np.float32(LEAST_GAP_IN))
    reach = gap
    if caster.top.gx or caster.top.gy:
        # The ray meets a leaning sheet a little sooner or later than the height overhead says.
        lean = 1 - caster.top.gx * sx - caster.top.gy * sy
        reach = gap / np.maximum(lean, np.float32(0.3))
    if caster.bow is not None:
        # And a curled one at the height it has there: one step of a fixed point is enough.
        there = height(caster.top, caster.bow, x + reach * sx, y + reach * sy)
        there -= z
        reach = np.maximum(there, np.float32(LEAST_GAP_IN), out=there)
    sx *= reach
    sy *= reach
    sx += x
    sy += y
    return sx, sy, gap


def _blocked(
    x: Field,
    y: Field,
    z: Field,
    caster: Caster,
    cells: Cells,
    cell: NDArray[np.intp],
    spacing_in: float,
) -> Field:
    """Returns how much of its own cell a caster hides from each point, (pairs, points), 0 to 1.

    An edge is spread over a node spacing at least: a sharper one would show the nodes as steps.
    """
    at_x, at_y, gap = _met(x, y, z, caster, cells, cell)
    hit = sample(caster.distance, at_x, at_y)
    width = _width(gap, cells.size[cell][:, None], spacing_in)
    if not caster.top.stands:
        _by_edge(hit, (at_x, at_y), (x, y), width, caster, cells, cell)
    hit /= width
    hit += np.float32(0.5)
    np.clip(hit, 0, 1, out=hit)
    if caster.stops < 1:
        hit *= np.float32(caster.stops)
    return hit


def _by_edge(
    hit: Field,
    at: Points,
    points: Points,
    width: Field,
    caster: Caster,
    cells: Cells,
    cell: NDArray[np.intp],
) -> None:
    """Moves distances to an outline, in place, to the edge that bounds the window's shadow.

    Where the shadow is thrown, that is the quarter round of the sheet's upper edge, which a ray
    that runs q per rise across it grazes b (1 + q - sqrt(1 + q q)) short of a sharp one; where it
    comes out from under the sheet it is the lower edge, a thickness nearer to the receiver.
    """
    mine = np.flatnonzero(cell < cells.of_window)
    slack = np.float32(caster.bevel_in) + _thrown_farther(caster, cells)[cell[mine]]
    pair, point = np.nonzero(np.abs(hit[mine]) < width[mine] / 2 + slack[:, None])
    pair = mine[pair]
    there = cell[pair]
    x, y = (v[pair, point] for v in points)
    _, gx, gy = sloped(caster.distance, *(v[pair, point] for v in at))
    across = (cells.ax[there] - x * cells.b[there]) * gx
    across += (cells.ay[there] - y * cells.b[there]) * gy
    across /= np.float32(caster.distance.lattice.spacing_in)
    round_off = np.float32(caster.bevel_in) * (1 + across - np.sqrt(1 + across * across))
    out = np.float32(caster.thickness_in) * np.minimum(across, 0)
    hit[pair, point] -= np.where(across > 0, round_off, out)


def _width(gap: Field, size: Field, spacing_in: float) -> Field:
    """Returns how wide the penumbra of a cell is at a gap, inches."""
    return np.clip(gap * size, np.float32(spacing_in), np.float32(_SOFTEST_IN))
