"""From light fields to pixels: one formula per receiver, blocks small enough for the cache.

A pixel of a sheet: diffuse body (window by the grain's normal, sky, bounce) times albedo, plus the
mirrored window and sky; then "over" with the exact coverage, bottom sheet first. Blocks that an
upper sheet fills are never shaded below it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.pixels import Coverage
from mockup.render.light import grain, irradiance
from mockup.render.light.distance import Distance
from mockup.render.light.edge import EdgeLight, edge_pixels
from mockup.render.light.irradiance import OpenLight
from mockup.render.light.lattice import Field, pixels
from mockup.render.light.scene import Bow, Flat, LitScene, Material, Picture, Plane, slopes
from mockup.render.light.srgb import LINEAR
from mockup.render.light.surface import REFLECTANCE, Block, Ground
from mockup.render.light.visibility import Receiver

WHITE = 0.94  # linear light of white paper at the brightest place in the open: just below white
BOUNCE = 0.3  # share of the light met under an overhanging sheet that comes back down

_ART = LINEAR * np.float32(REFLECTANCE)


@dataclass(frozen=True)
class Layer:
    """One receiver ready to be shaded: the table (no sheet) or a sheet.

    `covered` starts at picture pixel (`top_px`, `left_px`); `seen` is what visibility found.
    """

    receiver: Receiver
    seen: Field
    open: OpenLight
    material: Material
    look: Ground | SheetLook
    covered: Coverage
    top_px: int
    left_px: int
    edge: EdgeLight | None


@dataclass(frozen=True)
class SheetLook:
    """A sheet's art and grain."""

    art: Picture | Flat
    tile: grain.Tile
    offset: tuple[int, int]


@dataclass(frozen=True)
class Lamps:
    """Radiances as the camera takes them, (3,) float32."""

    window: NDArray[np.float32]
    sky: NDArray[np.float32]


def camera_lamps(scene: LitScene, open_light: OpenLight) -> Lamps:
    """Returns the window's and the sky's radiance after exposure and white balance.

    White paper (a sheet of reflectance REFLECTANCE) at the brightest place of the empty table
    comes out as WHITE in all three channels: a photographer's grey card, one factor a channel.
    """
    window = np.array(scene.window.radiance, np.float64)
    sky = np.array(scene.sky.radiance, np.float64)
    e, _, _, shine, _, _, fill = open_light.values.astype(np.float64)[..., None]
    s = open_light.surface
    body = REFLECTANCE * s.body * (window * e / math.pi + s.transmit_sky * sky * (1 - fill))
    white = body + window * shine + s.shine_sky * sky * (1 - fill)
    gain = WHITE / white.reshape(-1, 3).max(axis=0)
    return Lamps((window * gain).astype(np.float32), (sky * gain).astype(np.float32))


def shade(layers: list[Layer], lamps: Lamps, block: Block, ppi: float) -> NDArray[np.float32]:
    """Returns a block of the picture, (3, h, w) float32 linear light; layers bottom to top."""
    (y0, y1), (x0, x1) = block
    out = np.zeros((3, y1 - y0, x1 - x0), np.float32)
    for layer, covered, part in reversed(_showing(layers, block)):
        (py0, py1), (px0, px1) = part
        target = out[:, py0 - y0 : py1 - y0, px0 - x0 : px1 - x0]
        _over(target, _lit(layer, lamps, part, ppi), covered, layer)
    return out


def _showing(layers: list[Layer], block: Block) -> list[tuple[Layer, Coverage | None, Block]]:
    """Returns the layers that show in a block, top first, each with its coverage and its part."""
    found: list[tuple[Layer, Coverage | None, Block]] = []
    for layer in reversed(layers):
        if layer.receiver.outline is None:
            found.append((layer, None, block))
            break
        part = _overlap(layer, block)
        if part is None:
            continue
        (y0, y1), (x0, x1) = part
        top, left = layer.top_px, layer.left_px
        covered = layer.covered[y0 - top : y1 - top, x0 - left : x1 - left]
        if not covered.any():
            continue
        found.append((layer, covered, part))
        if part == block and layer.material.translucency == 0 and covered.min() == 1:
            break
    return found


def _overlap(layer: Layer, block: Block) -> Block | None:
    height, width = layer.covered.shape
    (y0, y1), (x0, x1) = block
    y0, y1 = max(y0, layer.top_px), min(y1, layer.top_px + height)
    x0, x1 = max(x0, layer.left_px), min(x1, layer.left_px + width)
    return ((y0, y1), (x0, x1)) if y0 < y1 and x0 < x1 else None


def _over(target: Field, light: Field, covered: Coverage | None, layer: Layer) -> None:
    """Lays a layer over `target`: light through vellum is tinted by its own art, then mixed."""
    if covered is None:
        target[:] = light
        return
    light -= target
    light *= covered * np.float32(1 - layer.material.translucency)
    target += light


def _lit(layer: Layer, lamps: Lamps, block: Block, ppi: float) -> Field:
    """Returns the light a layer sends to the camera over a block, (3, h, w) float32."""
    albedo, nx, ny = _look(layer, block)
    nx, ny = _tipped(layer, nx, ny, block, ppi)
    e, ex, ey, s0, sx, sy, fill = irradiance.at_block(layer.open, *block)
    window, drift_x, drift_y, sky = pixels(layer.seen, layer.receiver.lattice, *block)
    # Irradiance of the seen part of the window on the tipped normal; 1 / |n| to second order.
    direct = ex * nx
    direct += ey * ny
    direct += e
    direct *= window
    direct += e * (drift_x * nx + drift_y * ny)
    direct *= 1 - np.float32(0.5) * (nx * nx + ny * ny)
    np.maximum(direct, 0, out=direct)
    shine = sx * nx
    shine += sy * ny
    shine += s0
    np.maximum(shine, 0, out=shine)
    shine *= window
    # The sky that is left after sheets above and the window itself have taken their share.
    dome = np.maximum(sky - fill * window, 0)
    under = (1 - sky) * e
    if layer.edge is not None and layer.receiver.outline is not None:
        _round_edge(layer, layer.edge, layer.receiver.outline, block, ppi, (direct, shine, dome))
    return _coloured(albedo, lamps, layer.open, direct, shine, dome, under)


def _coloured(
    albedo: Field,
    lamps: Lamps,
    light: OpenLight,
    direct: Field,
    shine: Field,
    dome: Field,
    under: Field,
) -> Field:
    s = light.surface
    out = np.empty_like(albedo)
    for c in range(3):
        lit = direct * np.float32(s.body / math.pi * lamps.window[c])
        lit += dome * np.float32(s.body * s.transmit_sky * lamps.sky[c])
        lit += (BOUNCE * np.float32(s.body / math.pi * lamps.window[c])) * under * albedo[c]
        lit *= albedo[c]
        lit += shine * lamps.window[c]
        lit += dome * np.float32(s.shine_sky * lamps.sky[c])
        out[c] = lit
    return out


def _look(layer: Layer, block: Block) -> tuple[Field, Field, Field]:
    if isinstance(layer.look, Ground):
        return layer.look.look(block)
    tile = grain.at_block(layer.look.tile, layer.look.offset, *block)
    art = layer.look.art
    if isinstance(art, Flat):
        albedo = _ART[list(art.rgb)][:, None, None] * tile[2]
    else:
        albedo = _placed(art, block)
        albedo *= tile[2]
    return albedo, tile[0], tile[1]


def _placed(art: Picture, block: Block) -> Field:
    """Returns art at a block, (3, h, w) linear reflectance; its border goes on outside itself."""
    height, width = art.pixels.shape[:2]
    rows = np.clip(np.arange(*block[0]) - art.top_px, 0, height - 1)
    columns = np.clip(np.arange(*block[1]) - art.left_px, 0, width - 1)
    part = art.pixels[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1]
    if part.shape[0] != len(rows) or part.shape[1] != len(columns):
        part = art.pixels[rows[:, None], columns]
    return np.stack([_ART.take(part[..., c]) for c in range(3)])


def _tipped(layer: Layer, nx: Field, ny: Field, block: Block, ppi: float) -> tuple[Field, Field]:
    """Returns grain normals on the sheet's own slope."""
    plane: Plane = layer.receiver.top
    bow: Bow | None = layer.receiver.bow
    x = ((np.arange(*block[1]) + 0.5) / ppi).astype(np.float32)[None, :]
    y = ((np.arange(*block[0]) + 0.5) / ppi).astype(np.float32)[:, None]
    gx, gy = slopes(plane, bow, x, y)
    return nx - np.float32(gx), ny - np.float32(gy)


def _round_edge(
    layer: Layer,
    edge: EdgeLight,
    outline: Distance,
    block: Block,
    ppi: float,
    fields: tuple[Field, Field, Field],
) -> None:
    """Relights the pixels on the sheet's rounded rim: direct, shine and dome, in place."""
    distance = pixels(outline.values, outline.lattice, *block)
    found = edge_pixels(distance, layer.material.bevel_in, 1 / ppi, edge)
    if found is None:
        return
    direct, shine, dome = (field.reshape(-1) for field in fields)
    window = pixels(layer.seen[0], layer.receiver.lattice, *block).ravel()[found.index]
    direct[found.index] *= 1 + found.share * (found.direct - 1)
    shine[found.index] += found.share * (found.shine * window - shine[found.index])
    dome[found.index] *= 1 + found.share * (found.sky - 1)
