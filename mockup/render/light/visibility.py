"""What each receiver sees of the window and the sky past the sheets above it.

Every cell of light is blocked by the sheet that covers most of it (the maximum over sheets: they
overlap, so adding or multiplying would count the same light twice), then cells are summed. Nodes
are laid densely only where a shadow's edge is sharp: a tile's step follows its smallest gap.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.render.light.distance import REACH_IN, Distance, sample
from mockup.render.light.lamps import Cells
from mockup.render.light.lattice import TILE, Field, Lattice
from mockup.render.light.scene import Bow, Plane, height

LEAST_GAP_IN = 0.002
_SKY_REACH = 6.0  # gaps; beyond, a parallel sheet hides under 1 % of the sky
_NODES_PER_GAP = 4.0  # the sharpest penumbra is about two gaps wide: eight nodes across it
_SOFTEST_IN = 1.8 * REACH_IN  # distances are only known that far to both sides
_OUTSIDE = np.float32(-0.25)  # node spacings: the middle of what shows of a pixel half covered
_CHUNK = 80_000  # samples (points times cells) in flight: few enough for the cache


@dataclass(frozen=True)
class Caster:
    """A sheet as seen from below: outline, upper face, the share of light it stops, its colour.

    `back_rgb` is the linear reflectance of its underside, (3,) float32.
    """

    distance: Distance
    top: Plane
    bow: Bow | None
    stops: float
    back_rgb: Field


@dataclass(frozen=True)
class Receiver:
    """A face that light falls on: its lattice, its height, its outline (none for the table)."""

    lattice: Lattice
    top: Plane
    bow: Bow | None
    outline: Distance | None


Job = Callable[[], None]


def seen(receiver: Receiver, casters: list[Caster], cells: Cells) -> tuple[Field, list[Job]]:
    """Returns a field (7, height, width) on the receiver's lattice and the jobs that fill it.

    Channels: share of the window seen, its drift in slope x and y, share of the sky seen, and
    the sky's hidden share times the colour of what hides it, three. Jobs may run in any order and
    at the same time; nodes that no one can see stay at "all seen".
    """
    lattice = receiver.lattice
    field = np.zeros((7, lattice.height, lattice.width), np.float32)
    field[0] = field[3] = 1
    tiles = _Tiles.of(receiver, casters, cells)
    jobs: list[Job] = []
    for step in (1, 2, 4, 8):
        chosen = np.flatnonzero(tiles.step == step)
        many = max(1, 10 * _CHUNK // (len(cells.b) * (TILE // step + 1) ** 2))
        for first in range(0, len(chosen), many):
            part = chosen[first : first + many]
            jobs.append(_job(field, receiver, casters, cells, tiles, part, step))
    return field, jobs


def _job(
    field: Field,
    receiver: Receiver,
    casters: list[Caster],
    cells: Cells,
    tiles: _Tiles,
    part: NDArray[np.intp],
    step: int,
) -> Job:
    def run() -> None:
        lattice = receiver.lattice
        inner = np.arange(0, TILE + (step > 1), step)
        i = (tiles.column[part, None] * TILE + inner)[:, None, :]
        j = (tiles.row[part, None] * TILE + inner)[:, :, None]
        shape = (len(part), len(inner), len(inner))
        x = np.broadcast_to(lattice.x_in()[i], shape).ravel()
        y = np.broadcast_to(lattice.y_in()[j], shape).ravel()
        active = np.repeat(tiles.active[:, part], len(inner) ** 2, axis=1)
        values = _open_share(x, y, receiver, casters, cells, active, lattice.spacing_in)
        blocks = _filled(values.reshape(*shape, 7), step)
        down = tiles.row[part][:, None, None] * TILE + np.arange(TILE)[:, None]
        right = tiles.column[part][:, None, None] * TILE + np.arange(TILE)
        for channel in range(7):
            field[channel, down, right] = blocks[..., channel]

    return run


def _filled(values: Field, step: int) -> Field:
    """Returns tiles (n, TILE, TILE, 7) from every step-th node, bilinear."""
    if step == 1:
        return values
    at = np.arange(TILE) / step
    base = at.astype(int)
    mix = (at - base).astype(np.float32)
    rows = values[:, base] * (1 - mix)[:, None, None] + values[:, base + 1] * mix[:, None, None]
    return rows[:, :, base] * (1 - mix)[:, None] + rows[:, :, base + 1] * mix[:, None]


def _open_share(
    x: Field,
    y: Field,
    receiver: Receiver,
    casters: list[Caster],
    cells: Cells,
    active: NDArray[np.bool_],
    spacing_in: float,
) -> Field:
    """Returns the seven channels at points, (n, 7)."""
    result = np.empty((len(x), 7), np.float32)
    result[:] = (1, 0, 0, 1, 0, 0, 0)
    touched = np.flatnonzero(active.any(axis=0))
    many = max(1, _CHUNK // len(cells.b))
    x, y = _pushed_out(x, y, casters, active, spacing_in)
    for first in range(0, len(touched), many):
        index = touched[first : first + many]
        px, py = x[index], y[index]
        z = height(receiver.top, receiver.bow, px, py)
        sx = cells.ax - px[:, None] * cells.b
        sy = cells.ay - py[:, None] * cells.b
        blocked = np.zeros_like(sx)
        glow = np.zeros((len(index), 3), np.float32)
        for caster, mine in zip(casters, active[:, index], strict=True):
            some = np.flatnonzero(mine)
            if not len(some):
                continue
            at = slice(None) if len(some) == len(index) else some
            before = blocked[at]
            hit = _blocked(px[at], py[at], z[at], sx[at], sy[at], caster, cells, spacing_in)
            np.maximum(hit, before, out=hit)
            hidden = (hit - before) @ cells.weights[:, 3]
            glow[at] += hidden[:, None] * caster.back_rgb
            blocked[at] = hit
        result[index, :4] -= blocked @ cells.weights
        result[index, 4:] = glow
    return result


def _pushed_out(
    x: Field, y: Field, casters: list[Caster], active: NDArray[np.bool_], spacing_in: float
) -> tuple[Field, Field]:
    """Returns the points, those just under a caster's outline moved to just outside it.

    A pixel cut by an outline shows the receiver only beside the caster, and pixels between nodes
    are interpolated: light measured underneath would leak out as a dark fringe.
    """
    x, y = x.copy(), y.copy()
    h = np.float32(spacing_in)
    for caster, mine in zip(casters, active, strict=True):
        index = np.flatnonzero(mine)
        px, py = x[index], y[index]
        d = sample(caster.distance, px, py)
        near = np.flatnonzero((d > h * _OUTSIDE) & (d < 2 * h))
        if not len(near):
            continue
        px, py, d = px[near], py[near], d[near]
        gx = sample(caster.distance, px + h, py) - sample(caster.distance, px - h, py)
        gy = sample(caster.distance, px, py + h) - sample(caster.distance, px, py - h)
        away = (d - h * _OUTSIDE) / np.maximum(np.hypot(gx, gy), np.float32(1e-9))
        x[index[near]] = px - away * gx
        y[index[near]] = py - away * gy
    return x, y


def _blocked(
    x: Field,
    y: Field,
    z: Field,
    sx: Field,
    sy: Field,
    caster: Caster,
    cells: Cells,
    spacing_in: float,
) -> Field:
    """Returns how much of each cell a caster hides from each point, (points, cells), 0 to 1.

    An edge is spread over a node spacing at least: a sharper one would show the nodes as steps.
    """
    gap = np.maximum(height(caster.top, caster.bow, x, y) - z, np.float32(LEAST_GAP_IN))[:, None]
    reach = gap
    if caster.top.gx or caster.top.gy:
        # The ray meets a leaning sheet a little sooner or later than the height overhead says.
        lean = 1 - caster.top.gx * sx - caster.top.gy * sy
        reach = gap / np.maximum(lean, np.float32(0.3))
    if caster.bow is not None:
        # And a curled one at the height it has there: one step of a fixed point is enough.
        there = height(caster.top, caster.bow, x[:, None] + reach * sx, y[:, None] + reach * sy)
        reach = np.maximum(there - z[:, None], np.float32(LEAST_GAP_IN))
    hit = sample(caster.distance, x[:, None] + reach * sx, y[:, None] + reach * sy)
    hit /= np.clip(gap * cells.size, np.float32(spacing_in), np.float32(_SOFTEST_IN))
    hit += np.float32(0.5)
    np.clip(hit, 0, 1, out=hit)
    if caster.stops < 1:
        hit *= np.float32(caster.stops)
    return hit


@dataclass(frozen=True)
class _Tiles:
    """The tiles of a lattice worth working on: place, node step, which casters matter to each."""

    row: NDArray[np.intp]
    column: NDArray[np.intp]
    step: NDArray[np.intp]
    active: NDArray[np.bool_]

    @classmethod
    def of(cls, receiver: Receiver, casters: list[Caster], cells: Cells) -> _Tiles:
        lattice = receiver.lattice
        half = np.float32(lattice.spacing_in * TILE / 2)
        x = lattice.x_in()[:-1:TILE] + half
        y = lattice.y_in()[:-1:TILE] + half
        corner = half * np.float32(2**0.5)
        row, column = (a.ravel() for a in np.indices((len(y), len(x))))
        px, py = x[column], y[row]
        keep = np.ones(len(px), bool)
        if receiver.outline is not None:
            keep &= sample(receiver.outline, px, py) > -corner - lattice.spacing_in
        for caster in casters:
            if caster.stops >= 1:
                keep &= sample(caster.distance, px, py) < corner + lattice.spacing_in
        row, column, px, py = row[keep], column[keep], px[keep], py[keep]
        z = height(receiver.top, receiver.bow, px, py)
        run = _slope_range(lattice, cells)
        fine = np.full(len(px), np.inf, np.float32)
        active = np.zeros((len(casters), len(px)), bool)
        for number, caster in enumerate(casters):
            active[number], mixed, gap = _matters(caster, px, py, z, corner, run)
            fine = np.where(mixed, np.minimum(fine, gap), fine)
        nodes = np.clip(fine * np.float32(1 / (_NODES_PER_GAP * lattice.spacing_in)), 1, TILE)
        step = 2 ** np.floor(np.log2(nodes)).astype(np.intp)
        return cls(row, column, np.where(active.any(axis=0), step, 0), active)


def _slope_range(lattice: Lattice, cells: Cells) -> tuple[Field, Field]:
    """Returns the middle and the half range of the window's slopes over a lattice, (2,) each."""
    n = cells.of_window
    x, y = lattice.x_in(), lattice.y_in()
    sx = np.concatenate([cells.ax[:n] - cells.b[:n] * v for v in (x[0], x[-1])])
    sy = np.concatenate([cells.ay[:n] - cells.b[:n] * v for v in (y[0], y[-1])])
    low = np.array([sx.min(), sy.min()]) - cells.size[:n].max() / 2
    high = np.array([sx.max(), sy.max()]) + cells.size[:n].max() / 2
    return ((low + high) / 2).astype(np.float32), ((high - low) / 2).astype(np.float32)


def _matters(
    caster: Caster, x: Field, y: Field, z: Field, corner: np.float32, run: tuple[Field, Field]
) -> tuple[NDArray[np.bool_], NDArray[np.bool_], Field]:
    """Returns per tile: whether a caster hides any light, whether unevenly, and the gap."""
    gap = np.maximum(height(caster.top, caster.bow, x, y) - z, np.float32(LEAST_GAP_IN))
    middle, half = run
    hx, hy = x + gap * middle[0], y + gap * middle[1]
    shade_reach = gap * np.hypot(half[0], half[1]) + corner
    sky_reach = gap * np.float32(_SKY_REACH) + corner
    shade = sample(caster.distance, hx, hy)
    sky = sample(caster.distance, x, y)
    shade = np.minimum(shade, -_outside_box(caster, hx, hy))
    sky = np.minimum(sky, -_outside_box(caster, x, y))
    active = (shade > -shade_reach) | (sky > -sky_reach)
    mixed = (np.abs(shade) < shade_reach) | (np.abs(sky) < sky_reach)
    return active, active & mixed, gap


def _outside_box(caster: Caster, x: Field, y: Field) -> Field:
    left, top, right, bottom = (np.float32(v) for v in caster.distance.box)
    dx = np.maximum(np.maximum(left - x, x - right), 0)
    dy = np.maximum(np.maximum(top - y, y - bottom), 0)
    inside = (dx == 0) & (dy == 0)
    return np.where(inside, np.float32(-np.inf), np.hypot(dx, dy))
