"""Plain-weave cloth as a seamless tile: every thread over one, under one, none quite the same."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from mockup.render.light.grain import BLOCK, Tile
from mockup.render.light.lattice import Field

THREADS_PER_IN = 34.0  # a table linen of medium weight; common practice, no source
_PERIOD_IN = 3.6
_MOST_PX = 1152
_SAMPLES = 6  # per thread, at least, before averaging down to pixels
_ROUNDNESS = 0.26  # slope at a thread's flank: threads are pressed flat by the iron


def tile(ppi: float, seed: int) -> Tile:
    """Returns a tile of cloth at `ppi` with the channels of a grain tile; same seed, same bytes."""
    side = min(round(_PERIOD_IN * ppi), _MOST_PX)
    threads = 2 * max(1, round(side / ppi * THREADS_PER_IN / 2))
    fold = max(1, math.ceil(_SAMPLES * threads / side))
    fine = _cloth(side * fold, threads, np.random.default_rng(seed))
    values = fine.reshape(3, side, fold, side, fold).mean(axis=(2, 4))
    pad = ((0, 0), (0, BLOCK[0]), (0, BLOCK[1]))
    return Tile(np.pad(values, pad, mode="wrap"), side)


def _cloth(size: int, threads: int, rng: np.random.Generator) -> NDArray[np.float32]:
    place = ((np.arange(size, dtype=np.float32) + 0.5) * np.float32(threads / size)).astype(
        np.float32
    )
    wander = _waves(size, rng, 0.22)
    u = place[None, :] + wander[0]
    v = place[:, None] + wander[1]
    i, j = np.floor(u), np.floor(v)
    fu, fv = u - i - np.float32(0.5), v - j - np.float32(0.5)
    i, j = i.astype(np.int32) % threads, j.astype(np.int32) % threads
    upright = ((i + j) & 1).astype(bool)  # here the upright thread lies on top
    across, along = np.where(upright, fu, fv), np.where(upright, fv, fu)
    number = np.where(upright, i, j + threads)
    tone = (1 + 0.035 * rng.standard_normal(2 * threads)).astype(np.float32)[number]
    thick = np.clip(0.46 + 0.05 * rng.standard_normal(2 * threads), 0.34, 0.5)
    reach = np.abs(across) / thick.astype(np.float32)[number]
    flank = -np.sign(across) * np.float32(_ROUNDNESS) * np.minimum(reach, 1) ** 2
    bend = np.float32(0.5 * _ROUNDNESS) * np.sin(along * np.float32(math.pi))
    # Between threads one looks into the cloth's own shade.
    gap = np.clip((reach - 0.75) * 2.2, 0, 1) + 0.35 * np.clip(np.abs(along) * 2 - 0.6, 0, 1)
    value = tone * (1 - np.float32(0.30) * np.minimum(gap, 1))
    return np.stack(
        [
            np.where(upright, -flank, bend),
            np.where(upright, bend, -flank),
            value / value.mean(),
        ]
    ).astype(np.float32)


def _waves(size: int, rng: np.random.Generator, much: float) -> tuple[Field, Field]:
    """Returns slow seamless wandering for upright and for lying threads, in threads."""
    turn = (np.arange(size, dtype=np.float32) + 0.5) * np.float32(2 * math.pi / size)
    out: list[Field] = []
    for _ in range(2):
        total = np.zeros((size, size), np.float32)
        for _ in range(5):
            fx, fy = rng.integers(-4, 5, 2)
            phase = rng.uniform(0, 2 * math.pi)
            wave_x, wave_y = fx * turn[None, :] + phase, fy * turn[:, None]
            # sin(a + b) from four short tables instead of one large one
            total += np.sin(wave_x) * np.cos(wave_y) + np.cos(wave_x) * np.sin(wave_y)
        out.append(total * np.float32(much / math.sqrt(2.5)))
    return out[0], out[1]
