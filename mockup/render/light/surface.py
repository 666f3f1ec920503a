"""The table under the paper: plaster, linen, oak, slate, true to scale, or a photograph.

A surface is a fine seamless tile of relief and mottle, a slow layer over the whole picture that
never repeats, and, where it has one, a pattern computed from the place itself (threads, planks).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.errors import SuiteError, nearest
from mockup.render.light import grain
from mockup.render.light.lattice import Field
from mockup.render.light.scene import Band, Grain, LitScene, Material, Photograph

_SLOW_PER_IN = 16
PHOTOGRAPHED = Material(grain="none", ior=1.0)  # its shine is in the picture already

Block = tuple[tuple[int, int], tuple[int, int]]
Reflectance = Callable[[Material], Field]
Look = tuple[Field, Field, Field]  # albedo (3, h, w), normal x, normal y


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
    """A fine tile and a slow layer, with the surface's own colour, linear RGB."""

    fine: grain.Tile
    slow: Field
    rgb: NDArray[np.float32]
    ppi: float

    def look(self, block: Block) -> Look:
        fine = grain.at_block(self.fine, (0, 0), *block)
        slow = spread(self.slow, self.ppi, block)
        value = fine[2] * slow[2]
        return self.rgb[:, None, None] * value, fine[0] + slow[0], fine[1] + slow[1]


def spread(values: Field, ppi: float, block: Block) -> Field:
    """Returns a slow layer (..., h, w) at a block of pixels, bilinear."""
    (y0, y1), (x0, x1) = block
    y = (np.arange(y0, y1) + 0.5) * (_SLOW_PER_IN / ppi)
    x = (np.arange(x0, x1) + 0.5) * (_SLOW_PER_IN / ppi)
    j, i = y.astype(int), x.astype(int)
    v, u = (y - j).astype(np.float32), (x - i).astype(np.float32)
    part = values[..., j[0] : j[-1] + 2, i[0] : i[-1] + 2]
    j, i = j - j[0], i - i[0]
    tall = part[..., j, :]
    tall = tall + (part[..., j + 1, :] - tall) * v[:, None]
    wide = tall[..., i]
    return wide + (tall[..., i + 1] - wide) * u


def _slow(layer: Grain, scene: LitScene, seed: int) -> Field:
    size = (scene.height_in, scene.width_in)
    shape = (math.ceil(size[0] * _SLOW_PER_IN) + 3, math.ceil(size[1] * _SLOW_PER_IN) + 3)
    return grain.noise(layer, shape, _SLOW_PER_IN, 0.0, seed)


def _plaster(scene: LitScene, ppi: float, reflectance: Reflectance) -> Ground:
    surface, material = scene.surface, Material(grain="none", roughness=0.5)
    fine = Grain((Band(4, 30, 0.055), Band(1.5, 8, 0.035, 5.0)), (Band(2, 30, 0.012),), 0.4)
    slow = Grain((Band(0.5, 2.5, 0.045, 5.0, -8.0),), (Band(0.12, 1.2, 0.018),), 0.4)
    layers = _Layers(
        grain.tile(fine, ppi, 0.0, surface.seed),
        _slow(slow, scene, surface.seed + 1),
        reflectance(material)[list(surface.rgb or (206, 198, 188))],
        ppi,
    )
    return Ground(material, layers.look)


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


SURFACES: dict[str, Callable[[LitScene, float, Reflectance], Ground]] = {"plaster": _plaster}
