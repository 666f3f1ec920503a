"""Paper grain: band-limited relief as normals, true to scale, turned with the sheet.

A tile is noise shaped in the frequency domain: it repeats without a seam, is turned by turning its
spectrum, and is averaged over the pixel by the pixel's own transfer function, so that grain finer
than a pixel fades instead of aliasing. Grades of paper: common practice, no source; the bands
(cycles per inch) and slopes were set by eye against paper under a raking lamp.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.errors import SuiteError, nearest
from mockup.render.light.fibres import strewn
from mockup.render.light.lattice import Field
from mockup.render.light.scene import Band, Fibres, Grain, Lines

BLOCK = (128, 512)  # the largest block (rows, columns) ever asked of a tile
_PERIOD_IN = 3.6
_SIDES = (128, 1152)  # pixels, least and most

GRAINS: dict[str, Grain] = {
    "smooth": Grain((Band(14, 70, 0.011), Band(0.6, 3, 0.006)), (Band(4, 60, 0.004),)),
    "eggshell": Grain((Band(14, 60, 0.027), Band(0.6, 3, 0.007)), (Band(4, 60, 0.005),)),
    # A soft felt: its tooth is a fiftieth of an inch across. Coarser, and it reads as leather.
    "cotton": Grain(
        (Band(24, 80, 0.046), Band(8, 24, 0.012), Band(0.6, 3, 0.008)),
        (Band(8, 80, 0.007),),
        0.12,
        fibres=(Fibres(260, 0.09, 0.0012, 0.05), Fibres(180, 0.07, 0.0012, -0.05)),
    ),
    "laid": Grain(
        (Band(20, 26, 0.014, 60.0), Band(12, 50, 0.014), Band(0.6, 3, 0.008)),
        (Band(20, 26, 0.005, 60.0), Band(5, 40, 0.006)),
        lines=(Lines(22.0, 0.030), Lines(1.0, 0.006, 90.0)),
    ),
    "kraft": Grain(
        (Band(14, 70, 0.024), Band(0.6, 3, 0.010)),
        (Band(20, 110, 0.016, 3.0), Band(3, 30, 0.014)),
        fibres=(
            Fibres(700, 0.09, 0.0018, -0.16),
            Fibres(700, 0.10, 0.0018, 0.14),
            Fibres(7, 0.03, 0.005, -0.34),  # shives: bark and bundles that pulping left
        ),
    ),
    "vellum": Grain((Band(15, 70, 0.008), Band(0.5, 2, 0.010)), (Band(2, 14, 0.012),)),
    # Thin paper that was gummed and folded: it never lies quite flat.
    "envelope": Grain(
        (Band(16, 70, 0.020, 1.6), Band(0.35, 1.4, 0.013)),
        (Band(6, 60, 0.007),),
        fibres=(Fibres(120, 0.07, 0.0012, -0.05),),
    ),
    # Ribbon: ribs of weft across, hardly seen but for the sheen they break up.
    "ribbon": Grain(
        (Band(30, 90, 0.030, 3.0), Band(0.8, 3, 0.020)),
        (Band(30, 120, 0.030, 4.0),),
        0.1,
        lines=(Lines(64.0, 0.055, 90.0), Lines(46.0, 0.018)),
    ),
    "none": Grain(()),
}


@dataclass(frozen=True)
class Tile:
    """A seamless tile: (3, side + BLOCK rows, side + BLOCK columns) float32.

    Channels: the normal's x, its y (per unit of z), and a factor on reflectance.
    """

    values: Field
    side: int


def grain_named(grain: str | Grain) -> Grain:
    """Returns a grain by name, or the one given. Raises SuiteError for an unknown name."""
    if isinstance(grain, Grain):
        return grain
    if grain not in GRAINS:
        raise SuiteError(f'no paper grain called "{grain}"{nearest(grain, GRAINS)}')
    return GRAINS[grain]


def is_even(grain: Grain) -> bool:
    """Tells whether a grain looks the same in every direction, so that turning it is idle."""
    bands = (*grain.relief, *grain.mottle)
    strewn_evenly = all(fibres.spread_deg >= 180 for fibres in grain.fibres)
    return strewn_evenly and not grain.lines and all(band.stretch == 1 for band in bands)


def tile(grain: Grain, ppi: float, angle_deg: float, seed: int) -> Tile:
    """Returns a tile of a grain at `ppi`, turned `angle_deg` clockwise; same seed, same bytes."""
    side = int(np.clip(round(_PERIOD_IN * ppi / 32) * 32, *_SIDES))
    values = noise(grain, (side, side), ppi, angle_deg, seed)
    pad = ((0, 0), (0, BLOCK[0]), (0, BLOCK[1]))
    return Tile(np.pad(values, pad, mode="wrap"), side)


def noise(
    grain: Grain, shape: tuple[int, int], ppi: float, angle_deg: float, seed: int
) -> NDArray[np.float32]:
    """Returns a seamless piece of grain, (3, h, w) float32, with the channels of a tile."""
    rng = np.random.default_rng(seed)
    spectrum = np.fft.rfft2(rng.standard_normal(shape, np.float32))
    fx = np.fft.rfftfreq(shape[1], 1 / ppi).astype(np.float32)[None, :]
    fy = np.fft.fftfreq(shape[0], 1 / ppi).astype(np.float32)[:, None]
    # A square pixel averages what it sees: the transfer function of a box.
    spectrum *= np.sinc(fx / ppi) * np.sinc(fy / ppi) * ppi
    values = np.ones((3, *shape), np.float32)
    values[:2] = 0
    if grain.relief:
        relief = spectrum * _amplitude(grain.relief, fx, fy, angle_deg, True)
        drift = 1 + grain.unevenness * _drift(rng, shape)
        turn = np.complex64(-2j * math.pi)
        values[0] = np.fft.irfft2(relief * (fx * turn), s=shape) * drift
        values[1] = np.fft.irfft2(relief * (fy * turn), s=shape) * drift
        for lines in grain.lines:
            _add_lines(values, lines, ppi, angle_deg, drift)
    if grain.mottle:
        mottle = _amplitude(grain.mottle, fx, fy, angle_deg, False)
        values[2] += np.fft.irfft2(spectrum[::-1] * mottle, s=shape)
    for fibres in grain.fibres:
        values[2] += strewn(fibres, shape, ppi, angle_deg, rng)
    return values


def _add_lines(values: Field, lines: Lines, ppi: float, angle_deg: float, drift: Field) -> None:
    """Adds straight wires' marks to the normals, at the nearest pitch and angle without a seam."""
    _, height, width = values.shape
    turn = math.radians(angle_deg + lines.along_deg)
    # Across the lines, in whole cycles over the tile.
    kx = round(-math.sin(turn) * lines.per_in * width / ppi)
    ky = round(math.cos(turn) * lines.per_in * height / ppi)
    phase_x = (2 * math.pi * kx / width) * np.arange(width)
    phase_y = (2 * math.pi * ky / height) * np.arange(height)[:, None]
    seen = np.sinc(kx / width) * np.sinc(ky / height)  # a pixel averages, as above
    slope = lines.rms * math.sqrt(2) * seen * np.cos(phase_x + phase_y) * drift
    values[0] += slope * -math.sin(turn)
    values[1] += slope * math.cos(turn)


def at_block(
    tile: Tile, offset: tuple[int, int], rows: tuple[int, int], columns: tuple[int, int]
) -> Field:
    """Returns the three channels over a block of pixels, a view of the tile; `offset` moves it."""
    y, x = (rows[0] + offset[0]) % tile.side, (columns[0] + offset[1]) % tile.side
    return tile.values[:, y : y + rows[1] - rows[0], x : x + columns[1] - columns[0]]


def _amplitude(
    bands: tuple[Band, ...], fx: Field, fy: Field, angle_deg: float, relief: bool
) -> Field:
    """Returns the square root of the spectral density, of height (relief) or of value."""
    total = np.zeros(np.broadcast_shapes(fx.shape, fy.shape), np.float32)
    for band in bands:
        turn = math.radians(angle_deg + band.along_deg)
        along = (fx * math.cos(turn) + fy * math.sin(turn)) * band.stretch
        across = fy * math.cos(turn) - fx * math.sin(turn)
        shape = _pass(np.hypot(along, across), band)
        total += (shape / _norm(band, relief)) ** 2
    return np.sqrt(total)


def _pass(f: NDArray[np.floating], band: Band) -> NDArray[np.floating]:
    """Returns a band pass with soft shoulders, falling as 1 / f: as deep as wide, at every size."""
    f = np.maximum(f, 0.01)  # slower than anything on a sheet; keeps the powers finite
    return 1 / (f * np.sqrt((1 + (band.low_cpi / f) ** 8) * (1 + (f / band.high_cpi) ** 8)))


def _norm(band: Band, relief: bool) -> float:
    """Returns what `_pass` must be divided by for the band to have its rms over the whole plane."""
    f = np.geomspace(band.low_cpi / 4, band.high_cpi * 4, 400)
    turn = (np.arange(64) + 0.5) / 64 * 2 * math.pi
    power = _pass(f, band) ** 2
    # In the stretched plane the band is a ring; its true frequency is shorter along the stretch.
    true = (np.cos(turn) / band.stretch) ** 2 + np.sin(turn) ** 2
    ring = (2 * math.pi) ** 2 * f**2 * true.mean() if relief else np.ones_like(f)
    total = np.trapezoid(power * ring * 2 * math.pi * f, f) / band.stretch
    return math.sqrt(float(total)) / band.rms


def _drift(rng: np.random.Generator, shape: tuple[int, int]) -> Field:
    """Returns slow noise of unit rms, seamless: no sheet is equally rough all over."""
    few = 8
    slow = rng.standard_normal((few, few))
    i, u = _eased(shape[1], few)
    j, v = _eased(shape[0], few)
    rows = slow[j] * (1 - v)[:, None] + slow[(j + 1) % few] * v[:, None]
    wide = rows[:, i] * (1 - u) + rows[:, (i + 1) % few] * u
    return (wide / max(float(wide.std()), 1e-6)).astype(np.float32)


def _eased(count: int, few: int) -> tuple[NDArray[np.intp], NDArray[np.float64]]:
    place = np.arange(count) / count * few
    base = place.astype(np.intp)
    mix = place - base
    return base, mix * mix * (3 - 2 * mix)
