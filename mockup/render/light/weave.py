"""Plain-weave cloth as a seamless tile: every thread over one, under one, none quite the same."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from mockup.render.light.grain import BLOCK, Tile, noise
from mockup.render.light.lattice import Field
from mockup.render.light.scene import Band, Grain

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
    fine = _cloth(side * fold, ppi * fold, threads, seed)
    values = fine.reshape(3, side, fold, side, fold).mean(axis=(2, 4))
    pad = ((0, 0), (0, BLOCK[0]), (0, BLOCK[1]))
    return Tile(np.pad(values, pad, mode="wrap"), side)


def _cloth(size: int, per_in: float, threads: int, seed: int) -> NDArray[np.float32]:
    """Returns the cloth's normals and tone, (3, size, size), at `per_in` samples an inch."""
    rng = np.random.default_rng(seed)
    place = (np.arange(size, dtype=np.float32) + np.float32(0.5)) * np.float32(threads / size)
    wander = _waves(size, rng, 0.22)
    u = place[None, :] + wander[0]
    v = place[:, None] + wander[1]
    i, j = np.floor(u), np.floor(v)
    fu, fv = u - i - np.float32(0.5), v - j - np.float32(0.5)
    i, j = i.astype(np.int32) % threads, j.astype(np.int32) % threads
    upright = ((i + j) & 1).astype(bool)  # here the upright thread lies on top
    across, along = np.where(upright, fu, fv), np.where(upright, fv, fu)
    number = np.where(upright, i, j + threads)
    tone = (1 + 0.018 * rng.standard_normal(2 * threads)).astype(np.float32)[number]
    thick = np.clip(0.47 + 0.05 * rng.standard_normal(2 * threads), 0.36, 0.52)
    yarn = np.where(upright, *(_yarn(size, per_in, turn, seed) for turn in (90.0, 0.0)))
    # Flax is spun unevenly: a thread is thicker in some places than in others.
    reach = np.abs(across) / (thick.astype(np.float32)[number] * (1 + np.float32(1.4) * yarn))
    # Round in the middle, level again in the furrow, where two threads meet.
    round_ = np.minimum(reach, 1)
    flank = -np.sign(across) * np.float32(_ROUNDNESS * 2.6) * round_ * (1 - round_ * round_)
    bend = np.float32(0.5 * _ROUNDNESS) * np.sin(2 * along * np.float32(math.pi))
    bend *= 1 - round_ * round_
    # Between threads one looks into the cloth's own shade.
    dip = np.abs(along) * 2
    furrow = np.maximum(round_**4, 0.8 * dip**4)
    value = tone * (1 + yarn) * (1 - np.float32(0.26) * furrow)
    return np.stack(
        [
            np.where(upright, -flank, bend),
            np.where(upright, bend, -flank),
            value / value.mean(),
        ]
    ).astype(np.float32)


def _yarn(size: int, per_in: float, along_deg: float, seed: int) -> Field:
    """Returns the tone of fibres that run along a set of threads, about 0, seamless."""
    # Slubs an inch or so long, and the fibres themselves.
    kind = Grain((), (Band(1.5, 20, 0.038, 9.0, along_deg), Band(30, 150, 0.075, 5.0, along_deg)))
    return noise(kind, (size, size), per_in, 0.0, seed + round(along_deg))[2] - 1


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
