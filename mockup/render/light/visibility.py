"""What each receiver sees of the window and the sky past the sheets above it.

Every cell of light is blocked by the sheet that covers most of it (the maximum over sheets: they
overlap, so adding or multiplying would count the same light twice), then cells are summed: that
is `hiding`. Here nodes are laid, densely only where a shadow's edge is sharp: a tile's step
follows its smallest gap.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.render.light import steep
from mockup.render.light.distance import Distance, sample
from mockup.render.light.hiding import LEAST_GAP_IN, Caster, open_share
from mockup.render.light.lamps import Cells
from mockup.render.light.lattice import TILE, Field, Lattice
from mockup.render.light.overhang import sent_back
from mockup.render.light.scene import Bow, Plane, height

_SKY_REACH = 6.0  # gaps; beyond, a parallel sheet hides under 1 % of the sky
_NODES_PER_GAP = 4.0  # across the occlusion of the sky, which is about two gaps wide: eight
_NODES_PER_PENUMBRA = 3.0  # and across the window's penumbra, which is a hair where it is the sun
_CHUNK = 1_000_000  # samples (points times cells) in a job: few enough for the cache


@dataclass(frozen=True)
class Receiver:
    """A face that light falls on: its lattice, its height, its outline (none for the table)."""

    lattice: Lattice
    top: Plane
    bow: Bow | None
    outline: Distance | None

    def height(self, x: Field, y: Field) -> Field:
        """Returns the face's z in inches at points given in inches."""
        return height(self.top, self.bow, x, y)


Job = Callable[[], None]


@dataclass(frozen=True)
class Shade:
    """The light that one caster sends back of the sky it hides from some tiles of a lattice.

    Their rows and columns (n,), and against the open table's light what comes off its underside and
    off its side, were all paper white (n, 2, TILE, TILE).
    """

    caster: int
    row: NDArray[np.intp]
    column: NDArray[np.intp]
    light: Field


@dataclass(frozen=True)
class Seen:
    """What a receiver sees of the light, on its lattice, without any sheet's colour.

    `field` is (4, height, width) float32: share of the window seen, its drift in slope x and y,
    share of the sky seen. `shades` tell by which caster the rest of the sky is hidden.
    """

    field: Field
    shades: list[Shade]

    def glow(self, own: Field, colours: Sequence[Field]) -> Field:
        """Returns the light sent back by what hides the sky, in its colour, (3, height, width).

        Against the open table's. `own` is the receiver's linear reflectance (3,), by whose light
        undersides are seen, `colours` are those of the casters.
        """
        glow = np.zeros((3, *self.field.shape[1:]), np.float32)
        tiles = _tiled(glow)
        for shade in self.shades:
            colour = colours[shade.caster][:, None, None]
            under, side = (shade.light[:, k, None] * colour for k in (0, 1))
            tiles[:, shade.row, :, shade.column] += under * own[:, None, None] + side
        return glow


def seen(receiver: Receiver, casters: list[Caster], cells: Cells) -> tuple[Seen, list[Job]]:
    """Returns what a receiver sees past casters, bottom to top, and the jobs that work it out.

    Jobs may run in any order and at the same time: each has its own tiles. Nodes that no one can
    see stay at "all seen".
    """
    lattice = receiver.lattice
    field = np.zeros((4, lattice.height, lattice.width), np.float32)
    field[0] = field[3] = 1
    found = Seen(field, [])
    tiles = _Tiles.of(receiver, casters, cells)
    jobs: list[Job] = []
    for step in (1, 2, 4, 8):
        chosen = np.flatnonzero(tiles.step == step)
        many = max(1, _CHUNK // (len(cells.b) * (TILE // step + 1) ** 2))
        for first in range(0, len(chosen), many):
            part = chosen[first : first + many]
            jobs.append(_job(found, receiver, casters, cells, tiles, part, step))
    return found, jobs


def _job(
    found: Seen,
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
        i = tiles.column[part, None] * TILE + inner
        j = tiles.row[part, None] * TILE + inner
        shape = (len(part), len(inner), len(inner))
        x = np.broadcast_to(lattice.x_in()[i][:, None, :], shape).reshape(len(part), -1)
        y = np.broadcast_to(lattice.y_in()[j][:, :, None], shape).reshape(len(part), -1)
        above = list(zip(casters, tiles.active[:, part], strict=True))
        values, hidden = open_share((x, y), receiver.height, above, cells, lattice.spacing_in)
        row, column = tiles.row[part], tiles.column[part]
        blocks = _filled(values.reshape(len(part), 4, *shape[1:]), step)
        _tiled(found.field)[:, row, :, column] = blocks
        for number, some, share in hidden:
            at = x[some], y[some], receiver.height(x[some], y[some])
            both = values[some, 0], values[some, 3]
            back = sent_back(at, casters[number], cells, both, lattice.spacing_in)
            light = np.stack([share * part for part in back], axis=1)
            full = _filled(light.reshape(len(some), 2, *shape[1:]), step)
            found.shades.append(Shade(number, row[some], column[some], full))

    return run


def _tiled(field: Field) -> Field:
    """Returns a view of a field's whole tiles, (channels, rows, TILE, columns, TILE)."""
    channels, height, width = field.shape
    shape = (channels, height // TILE, TILE, width // TILE, TILE)
    plane, line, node = field.strides
    strides = (plane, line * TILE, line, node * TILE, node)
    return np.lib.stride_tricks.as_strided(field, shape, strides)


def _filled(values: Field, step: int) -> Field:
    """Returns tiles (n, channels, TILE, TILE) from every step-th node, bilinear."""
    if step == 1:
        return values
    at = np.arange(TILE) / step
    base = at.astype(int)
    mix = (at - base).astype(np.float32)
    rows = values[:, :, base] * (1 - mix)[:, None] + values[:, :, base + 1] * mix[:, None]
    return rows[..., base] * (1 - mix) + rows[..., base + 1] * mix


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
        sharpest = np.float32(min(1, _NODES_PER_GAP / _NODES_PER_PENUMBRA * _narrowest(cells)))
        fine = np.full(len(px), np.inf, np.float32)
        active = np.zeros((len(casters), len(px)), bool)
        for number, caster in enumerate(casters):
            active[number], edge, mixed, gap = _matters(caster, px, py, z, corner, run)
            fine = np.where(mixed, np.minimum(fine, gap), fine)
            fine = np.where(edge, np.minimum(fine, gap * sharpest), fine)
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


def _narrowest(cells: Cells) -> float:
    """Returns the shorter side of the window as seen from a receiver, in slope."""
    n = cells.of_window
    span = np.ptp(np.stack([cells.ax[:n], cells.ay[:n]]), axis=1)
    return float(span.min() + cells.size[:n].mean())


def _matters(
    caster: Caster, x: Field, y: Field, z: Field, corner: np.float32, run: tuple[Field, Field]
) -> tuple[NDArray[np.bool_], NDArray[np.bool_], NDArray[np.bool_], Field]:
    """Returns per tile: whether a caster hides any light, which light unevenly, and the gap.

    Unevenly first the window's, then the window's or the sky's.
    """
    if caster.top.stands:
        return _matters_standing(caster, x, y, z, corner, run)
    gap = np.maximum(height(caster.top, caster.bow, x, y) - z, np.float32(LEAST_GAP_IN))
    middle, half = run
    hx, hy = x + gap * middle[0], y + gap * middle[1]
    beyond = np.float32(caster.thickness_in) * np.hypot(*(np.abs(middle) + half))
    shade_reach = gap * np.hypot(half[0], half[1]) + corner + beyond
    sky_reach = gap * np.float32(_SKY_REACH) + corner
    shade = sample(caster.distance, hx, hy)
    sky = sample(caster.distance, x, y)
    shade = np.minimum(shade, -_outside_box(caster, hx, hy))
    sky = np.minimum(sky, -_outside_box(caster, x, y))
    active = (shade > -shade_reach) | (sky > -sky_reach)
    edge = np.abs(shade) < shade_reach
    return active, active & edge, active & (edge | (np.abs(sky) < sky_reach)), gap


def _matters_standing(
    caster: Caster, x: Field, y: Field, z: Field, corner: np.float32, run: tuple[Field, Field]
) -> tuple[NDArray[np.bool_], NDArray[np.bool_], NDArray[np.bool_], Field]:
    """Returns the same of a sheet that stands: it hides light wherever it may be in the way."""
    middle, half = run
    away = np.maximum(_outside_box(caster, x, y), 0)
    rise, near = steep.reach_over(caster.top, caster.distance.box, (x, y, z), away)
    most = np.float32(np.abs(middle).max() + np.abs(half).max() + _SKY_REACH)
    active = (away < rise * most + corner) & (rise > np.float32(2 * LEAST_GAP_IN))
    return active, active, active, near


def _outside_box(caster: Caster, x: Field, y: Field) -> Field:
    left, top, right, bottom = (np.float32(v) for v in caster.distance.box)
    dx = np.maximum(np.maximum(left - x, x - right), 0)
    dy = np.maximum(np.maximum(top - y, y - bottom), 0)
    inside = (dx == 0) & (dy == 0)
    return np.where(inside, np.float32(-np.inf), np.hypot(dx, dy))
