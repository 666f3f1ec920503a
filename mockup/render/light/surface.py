"""The table under the paper: plaster, linen, oak, slate, true to scale, or a photograph.

A surface is a fine seamless tile of relief and mottle and a slow layer over the whole picture that
never repeats. Colours and scales of the surfaces: common practice, no source, set by eye.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.errors import SuiteError, nearest
from mockup.render.light import grain, weave
from mockup.render.light.lattice import Field
from mockup.render.light.scene import Band, Fibres, Grain, LitScene, Material, Photograph

COLOURS: dict[str, tuple[int, int, int]] = {  # of surfaces not dyed, sRGB
    "plaster": (206, 198, 188),
    "linen": (221, 213, 199),
    "oak": (184, 150, 112),
    "slate": (74, 77, 81),
}
PHOTOGRAPHED = Material(grain="none", ior=1.0)  # its shine is in the picture already
OAK_BOARD_IN = 4.75
_SEAM_IN = 0.02

Block = tuple[tuple[int, int], tuple[int, int]]
Look = tuple[Field, Field, Field]  # albedo (3, h, w), normal x, normal y
Reflectance = Callable[[Material], Field]


@dataclass(frozen=True)
class Ground:
    """A table ready to be read by blocks of pixels; `material` is its interface."""

    material: Material
    look: Callable[[Block], Look]


def ground(scene: LitScene, ppi: float, reflectance: Reflectance) -> Ground:
    """Returns a scene's surface prepared for a picture. Raises SuiteError for an unknown name.

    `reflectance` gives, for a material, the body's reflectance per sRGB byte.
    """
    kind = scene.surface.kind
    if isinstance(kind, Photograph):
        return _photograph(kind, ppi, reflectance(PHOTOGRAPHED))
    if kind not in SURFACES:
        raise SuiteError(f'no surface called "{kind}"{nearest(kind, SURFACES)}')
    return SURFACES[kind](scene, ppi, reflectance)


@dataclass(frozen=True)
class _Layers:
    """A fine tile and a slow layer (3 channels as a tile's) in the surface's own colour.

    `rgb` is linear reflectance; `tint` is how much more each channel follows the mottle.
    """

    fine: grain.Tile
    slow: Field
    slow_per_in: float
    rgb: NDArray[np.float32]
    tint: tuple[float, float, float]
    ppi: float

    def look(self, block: Block) -> Look:
        fine = grain.at_block(self.fine, (0, 0), *block)
        slow = _spread(self.slow, self.slow_per_in / self.ppi, block)
        value = fine[2] * slow[2]
        albedo = np.empty((3, *value.shape), np.float32)
        for c in range(3):
            # A darker streak is a deeper colour, not only less light.
            albedo[c] = self.rgb[c] * (1 + np.float32(self.tint[c]) * (value - 1))
        np.clip(albedo, 0.002, 0.98, out=albedo)
        return albedo, fine[0] + slow[0], fine[1] + slow[1]


def _spread(values: Field, per_px: float, block: Block) -> Field:
    """Returns a slow layer (..., h, w) at a block of pixels, bilinear; `per_px` nodes a pixel."""
    (y0, y1), (x0, x1) = block
    y, x = (np.arange(y0, y1) + 0.5) * per_px, (np.arange(x0, x1) + 0.5) * per_px
    j, i = y.astype(int), x.astype(int)
    v, u = (y - j).astype(np.float32), (x - i).astype(np.float32)
    part = values[..., j[0] : j[-1] + 2, i[0] : i[-1] + 2]
    j, i = j - j[0], i - i[0]
    tall = part[..., j, :]
    tall = tall + (part[..., j + 1, :] - tall) * v[:, None]
    wide = tall[..., i]
    return wide + (tall[..., i + 1] - wide) * u


def _slow_shape(scene: LitScene, per_in: float) -> tuple[int, int]:
    return math.ceil(scene.height_in * per_in) + 3, math.ceil(scene.width_in * per_in) + 3


def _slow(layer: Grain, scene: LitScene, per_in: float) -> Field:
    return grain.noise(layer, _slow_shape(scene, per_in), per_in, 0.0, scene.surface.seed + 1)


def _colour(
    scene: LitScene, material: Material, reflectance: Reflectance, own: tuple[int, int, int]
) -> NDArray[np.float32]:
    table = reflectance(material)
    return table[list(scene.surface.rgb or own)].astype(np.float32)


def _plaster(scene: LitScene, ppi: float, reflectance: Reflectance) -> Ground:
    """Trowelled plaster: sand's grit, pinholes, and trowel marks that never repeat."""
    material = Material(grain="none", roughness=0.5)
    # Nothing slower than a quarter inch lies in the tile, which an eye would find again and again;
    # and little between 5 and 20 an inch, where lumps all of a size look like a hide.
    fine = Grain(
        (Band(30, 140, 0.075), Band(10, 30, 0.024)),
        (Band(20, 140, 0.016), Band(4, 20, 0.008)),
        0.15,
        fibres=(Fibres(22, 0.012, 0.009, -0.20, 180.0), Fibres(90, 0.008, 0.006, 0.10, 180.0)),
    )
    slow = Grain(
        (
            Band(1.2, 6, 0.022, 7.0, 24.0),
            Band(1.2, 6, 0.018, 7.0, -38.0),
            Band(0.4, 2.2, 0.024, 3.0, -12.0),
            Band(0.4, 2.2, 0.022, 3.5, 38.0),
        ),
        (Band(0.12, 1.2, 0.020), Band(1.0, 6.0, 0.007, 7.0, 24.0)),
        0.4,
    )
    layers = _Layers(
        grain.tile(fine, ppi, 0.0, scene.surface.seed),
        _slow(slow, scene, 16),
        16,
        _colour(scene, material, reflectance, COLOURS["plaster"]),
        (0.9, 1.0, 1.15),
        ppi,
    )
    return Ground(material, layers.look)


def _linen(scene: LitScene, ppi: float, reflectance: Reflectance) -> Ground:
    """A washed linen cloth: plain weave, uneven threads, the last soft creases of folding."""
    material = Material(grain="none", roughness=0.6)
    slow = Grain(
        (Band(0.15, 0.7, 0.030, 2.5, 30.0), Band(0.2, 1.2, 0.022, 2.0, -50.0)),
        # Runs of paler and darker thread, of which no two are alike.
        (Band(0.3, 3, 0.008), Band(0.6, 7, 0.009, 9.0), Band(0.6, 7, 0.009, 9.0, 90.0)),
        0.5,
    )
    layers = _Layers(
        weave.tile(ppi, scene.surface.seed),
        _slow(slow, scene, 16),
        16,
        _colour(scene, material, reflectance, COLOURS["linen"]),
        (0.9, 1.0, 1.2),
        ppi,
    )
    return Ground(material, layers.look)


def _slate(scene: LitScene, ppi: float, reflectance: Reflectance) -> Ground:
    """Riven slate: flat cleavage plates that end in low, ragged steps."""
    material = Material(grain="none", roughness=0.38)
    fine = Grain((Band(9, 60, 0.034), Band(2, 9, 0.016, 2.2, 25.0)), (Band(3, 60, 0.030),), 0.5)
    layers = _Layers(
        grain.tile(fine, ppi, 0.0, scene.surface.seed),
        _riven(scene, 56),
        56,
        _colour(scene, material, reflectance, COLOURS["slate"]),
        (1.0, 1.0, 0.95),
        ppi,
    )
    return Ground(material, layers.look)


def _riven(scene: LitScene, per_in: float) -> Field:
    """Returns the plates of slate as a slow layer: slopes gathered at the levels of a terrace."""
    shape, seed = _slow_shape(scene, per_in), scene.surface.seed

    def noise(number: int, *bands: Band) -> Field:
        return grain.noise(Grain((), bands), shape, per_in, 0.0, seed + number)[2] - 1

    rise = noise(2, Band(0.08, 1.2, 1.0, 1.8, 20.0))
    ragged = noise(3, Band(1.5, 16, 0.09, 1.4, 20.0))
    clouds = noise(4, Band(0.1, 1.5, 0.05, 1.5, 20.0))
    gy, gx = np.gradient(rise + ragged, 1 / per_in)
    # A ledge is about a fiftieth of an inch wide however gently the noise crosses its level.
    rate = np.maximum(np.hypot(gx, gy), 0.4)
    level = (rise + ragged) * 0.55 + 0.5
    away = (level % 1.0 - 0.5) / (0.55 * rate)
    ledge = np.exp(-((away / 0.02) ** 2))
    steep = 0.012 + 0.22 * ledge / rate
    # Steps break lighter; plates between them differ a little in tone.
    tone = (1 + clouds) * (1 + 0.12 * ledge) * (1 + 0.04 * np.sin(np.floor(level) * 12.9))
    return np.stack([-gx * steep, -gy * steep, tone]).astype(np.float32)


def _oak(scene: LitScene, ppi: float, reflectance: Reflectance) -> Ground:
    """Oiled oak boards: rings cut lengthwise, open pores, a fine shadow at each joint."""
    material = Material(grain="none", roughness=0.36)
    fine = Grain(
        (Band(18, 90, 0.040, 8.0), Band(6, 20, 0.012, 14.0)),
        (Band(20, 110, 0.040, 9.0), Band(4, 16, 0.018, 14.0)),
        0.3,
        # Vessels cut open lengthwise: the short dark strokes by which one knows oak.
        fibres=(Fibres(90, 0.16, 0.007, -0.42, 3.0), Fibres(160, 0.07, 0.004, -0.35, 3.0)),
    )
    layers = _Layers(
        grain.tile(fine, ppi, 0.0, scene.surface.seed),
        _boards(scene, 32),
        32,
        _colour(scene, material, reflectance, COLOURS["oak"]),
        (0.8, 1.0, 1.3),
        ppi,
    )

    def look(block: Block) -> Look:
        albedo, nx, ny = layers.look(block)
        y = (np.arange(*block[0]) + 0.5) / ppi + OAK_BOARD_IN / 2
        away = np.abs((y + OAK_BOARD_IN / 2) % OAK_BOARD_IN - OAK_BOARD_IN / 2)
        side = np.sign((y + OAK_BOARD_IN / 2) % OAK_BOARD_IN - OAK_BOARD_IN / 2)
        width = max(_SEAM_IN, 0.7 / ppi)
        gap = (np.exp(-((away / width) ** 2)) * _SEAM_IN / width).astype(np.float32)[:, None]
        return albedo * (1 - 0.75 * gap), nx, ny - 0.35 * gap * side[:, None].astype(np.float32)

    return Ground(material, look)


def _boards(scene: LitScene, per_in: float) -> Field:
    """Returns the annual rings of each board as a slow layer: plane cuts through bent cylinders."""
    height, width = _slow_shape(scene, per_in)
    rng = np.random.default_rng(scene.surface.seed)
    y = (np.arange(height) + 0.5)[:, None] / per_in + OAK_BOARD_IN / 2
    x = (np.arange(width) + 0.5)[None, :] / per_in
    board = np.floor(y / OAK_BOARD_IN).astype(int)
    bend = grain.noise(
        Grain((), (Band(0.04, 0.8, 1.0, 6.0),)), (height, width), per_in, 0.0, scene.surface.seed
    )[2]
    count = int(board.max()) + 1
    heart, deep, tone, slide = (rng.uniform(a, b, count)[board] for a, b in _BOARD_RANGES)
    across = y - (board + 0.5) * OAK_BOARD_IN - heart
    lift = deep + 0.012 * (x - slide) + 0.10 * (bend - 1)
    ring = np.hypot(across + 0.18 * (bend - 1), lift) * 5.5
    phase = ring % 1.0
    # Early wood is open and pale, then the ring darkens slowly and ends at once.
    late = phase**3 * np.clip((1 - phase) * 6, 0, 1)
    value = tone * (1.07 - 0.36 * late)
    zero = np.zeros_like(value)
    return np.stack([zero, zero, value]).astype(np.float32)


# heart off the middle and below the face, inches; tone; where along the board it comes nearest
_BOARD_RANGES = ((-3.0, 3.0), (0.3, 2.2), (0.86, 1.10), (-10.0, 25.0))


def _photograph(photo: Photograph, ppi: float, table: Field) -> Ground:
    pixels = photo.pixels
    height, width = pixels.shape[:2]

    def place(first: int, last: int, size: int) -> tuple[NDArray[np.intp], NDArray[np.intp], Field]:
        at = (np.arange(first, last) + 0.5) * (photo.ppi / ppi) - 0.5
        base = np.floor(at).astype(np.intp)
        return _mirrored(base, size), _mirrored(base + 1, size), (at - base).astype(np.float32)

    def look(block: Block) -> Look:
        j, j1, v = place(*block[0], height)
        i, i1, u = place(*block[1], width)
        top = _mixed(table[pixels[j][:, i]], table[pixels[j][:, i1]], u[:, None])
        low = _mixed(table[pixels[j1][:, i]], table[pixels[j1][:, i1]], u[:, None])
        albedo = _mixed(top, low, v[:, None, None])
        level = np.zeros(albedo.shape[:2], np.float32)
        return np.moveaxis(albedo, 2, 0), level, level

    return Ground(PHOTOGRAPHED, look)


def _mixed(a: Field, b: Field, mix: Field) -> Field:
    return a + (b - a) * mix


def _mirrored(index: NDArray[np.intp], size: int) -> NDArray[np.intp]:
    index = index % (2 * size)
    return np.minimum(index, 2 * size - 1 - index)


SURFACES: dict[str, Callable[[LitScene, float, Reflectance], Ground]] = {
    "plaster": _plaster,
    "linen": _linen,
    "oak": _oak,
    "slate": _slate,
}
