"""From light fields to pixels: one formula per receiver, blocks small enough for the cache.

A pixel of a sheet: diffuse body (window by the grain's normal, sky, bounce) times albedo, plus the
mirrored window and sky; then "over" with the exact coverage, bottom sheet first. Blocks that an
upper sheet fills are never shaded below it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.colour.translucent import Film
from mockup.pixels import Coverage
from mockup.render.light import grain, irradiance
from mockup.render.light.crease import creased
from mockup.render.light.distance import Distance
from mockup.render.light.edge import EdgeLight, edge_pixels
from mockup.render.light.gilt import Falling, gilded
from mockup.render.light.irradiance import OpenLight
from mockup.render.light.lattice import Field, nodes, pixels
from mockup.render.light.relief import FacingLight, faced, relief_at
from mockup.render.light.scene import Bow, Crease, Flat, Material, Picture, Plane, Relief, slopes
from mockup.render.light.standing import StandingLight, from_floor, mirrored_floor
from mockup.render.light.surface import Block, Ground, Look
from mockup.render.light.tone import REFLECTANCE, Lamps
from mockup.render.light.visibility import Receiver
from mockup.render.light.worked import Under, Worked, coated, ironed, marks_at, walls_lit


@dataclass(frozen=True)
class Layer:
    """One receiver ready to be shaded: the table (no sheet) or a sheet.

    `covered` (0 to 255) starts at picture pixel (`top_px`, `left_px`); `seen` and `glow` are what
    visibility found, on the receiver's lattice.
    """

    receiver: Receiver
    seen: Field
    glow: Field
    open: OpenLight
    material: Material
    look: Ground | SheetLook
    covered: NDArray[np.uint8]
    top_px: int
    left_px: int
    edge: EdgeLight | None
    standing: StandingLight | None = None


@dataclass(frozen=True)
class SheetLook:
    """A sheet's art, grain and folds; `reflectance` (256,) is what the body throws per byte."""

    art: Picture | Flat
    reflectance: Field
    tile: grain.Tile
    offset: tuple[int, int]
    creases: tuple[Crease, ...]
    relief: Relief | None = None
    facing: FacingLight | None = None
    worked: Worked | None = None


def lit_block(layers: list[Layer], lamps: Lamps, block: Block, ppi: float) -> NDArray[np.float32]:
    """Returns a block of the picture, (3, h, w) float32 linear light; layers bottom to top."""
    (y0, y1), (x0, x1) = block
    out = np.zeros((3, y1 - y0, x1 - x0), np.float32)
    showing = _showing(layers, block)
    # What each layer throws back, for a film that lies on it.
    thrown = np.zeros_like(out) if any(each.material.film for each, *_ in showing) else None
    for layer, covered, part in reversed(showing):
        (py0, py1), (px0, px1) = part
        here = np.s_[:, py0 - y0 : py1 - y0, px0 - x0 : px1 - x0]
        light, albedo = _lit(layer, lamps, part, ppi)
        if thrown is not None:
            if layer.material.film is not None:
                light = _through(out[here], light, albedo, layer.material.film, thrown[here])
            _over(thrown[here], np.array(albedo), covered)
        _over(out[here], light, covered)
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
        share = layer.covered[y0 - top : y1 - top, x0 - left : x1 - left]
        if not share.any():
            continue
        covered = share.astype(np.float32) / np.float32(255)
        found.append((layer, _without_shared_edges(covered, part, found), part))
        if part == block and layer.material.film is None and share.min() == 255:
            break
    return found


def _without_shared_edges(
    covered: Coverage, part: Block, above: list[tuple[Layer, Coverage | None, Block]]
) -> Coverage:
    """Returns the coverage, spoilt: less the pixels where a sheet above has the very same edge.

    Folded paper has such edges; laid over each other they would let too little table through.
    """
    for _, upper, (rows, columns) in above:
        (y0, y1), (x0, x1) = part
        y0, y1 = max(y0, rows[0]), min(y1, rows[1])
        x0, x1 = max(x0, columns[0]), min(x1, columns[1])
        if upper is None or y0 >= y1 or x0 >= x1:
            continue
        mine = np.s_[y0 - part[0][0] : y1 - part[0][0], x0 - part[1][0] : x1 - part[1][0]]
        theirs = np.s_[y0 - rows[0] : y1 - rows[0], x0 - columns[0] : x1 - columns[0]]
        here, there = covered[mine], upper[theirs]
        shared = (np.abs(here - there) < 1e-3) & (here > 0) & (here < 1)
        covered[mine][shared] = 0
    return covered


def _overlap(layer: Layer, block: Block) -> Block | None:
    height, width = layer.covered.shape
    (y0, y1), (x0, x1) = block
    y0, y1 = max(y0, layer.top_px), min(y1, layer.top_px + height)
    x0, x1 = max(x0, layer.left_px), min(x1, layer.left_px + width)
    return ((y0, y1), (x0, x1)) if y0 < y1 and x0 < x1 else None


def _over(target: Field, light: Field, covered: Coverage | None) -> None:
    """Lays a layer's light over `target`; `light` is spoilt."""
    if covered is None:
        target[:] = light
        return
    light -= target
    light *= covered
    target += light


def _through(target: Field, light: Field, albedo: Field, film: Film, thrown: Field) -> Field:
    """Returns a film's light over that of what lies below, lit through it already.

    What lies below throws back no more than its own share, `thrown`, of what went through: close
    to the film's edge the light that comes in from the side is reckoned on too coarse a grid.
    """
    body, passed = (np.array(each, np.float32)[:, None, None] for each in (film.body, film.passed))
    lit = passed * light / np.maximum(albedo, np.float32(1e-6))
    below = np.minimum(target, lit * thrown)
    ground = np.clip(below / np.maximum(lit, np.float32(1e-6)), 0, 1)
    ink = np.clip(albedo / (body * np.float32(REFLECTANCE)), 0, 1)
    # To and fro between the sheets, the last axis being the channel.
    grown = film.between(ground.transpose(1, 2, 0)).transpose(2, 0, 1)
    return light * np.float32(film.opacity) + below * ink * passed * grown


def _lit(layer: Layer, lamps: Lamps, block: Block, ppi: float) -> tuple[Field, Field]:
    """Returns the light a layer sends to the camera over a block and its albedo, (3, h, w)."""
    albedo, nx, ny = look(layer, block, ppi)
    nx, ny = _tipped(layer, nx, ny, block, ppi)
    e, ex, ey, s0, sx, sy, fill = irradiance.at_block(layer.open, *block)
    window, drift_x, drift_y, sky, *glow = _seen(layer, block)
    direct = _direct((e, ex, ey), nx, ny, window, (drift_x, drift_y) if glow else None)
    shine = sx * nx
    shine += sy * ny
    shine += s0
    np.maximum(shine, 0, out=shine)
    shine *= window
    # The sky that is left after sheets above and the window itself have taken their share.
    dome = np.maximum(sky - fill * window, 0)
    if isinstance(layer.look, SheetLook) and layer.look.facing is not None:
        ratio, mirrored, above = faced(layer.look.facing, nx, ny)
        direct, shine, dome = e * window * ratio, mirrored * window, dome * above
    if layer.standing is not None:
        growth = layer.standing.growth(*_inches(block, ppi))
        ratio, mirrored, above = faced(layer.standing.facing, nx, ny)
        direct, shine = e * window * ratio * growth, mirrored * window
        dome = np.maximum(sky * above - fill * window * ratio, 0)
    worked = layer.look.worked if isinstance(layer.look, SheetLook) else None
    marks = marks_at(worked, block) if worked else []
    between = walls_lit(marks, direct, shine, dome, window)
    if layer.edge is not None and layer.receiver.outline is not None:
        fields = (direct, shine, dome)
        _round_edge(layer, layer.edge, layer.receiver.outline, block, ppi, fields, albedo)
    if glow:
        glow = _sent_back(glow, layer.open, lamps, e)
    floor: list[Field] = []
    if layer.standing is not None:
        floor = from_floor(layer.standing, layer.open, lamps, e, fill)
        glow = _added(glow, [f * own for f, own in zip(floor, lamps.window, strict=True)])
        albedo = albedo * np.float32(layer.standing.out)
    if between is not None:
        off_walls = between * e * window
        own = zip(albedo, lamps.window, strict=True)
        glow = _added(glow, [off_walls * body * np.float32(lamp) for body, lamp in own])
    light = _coloured(albedo, lamps, layer.open, direct, shine, dome, glow)
    if layer.standing is not None:
        light += mirrored_floor(layer.standing, layer.open, lamps, floor)
    if worked:
        under = Under(direct, shine, dome, window, lamps, layer.open, albedo)
        coated(worked, marks, light, (nx, ny), under, block, ppi)
        _gilded(layer, worked, light, (window, lamps), block, ppi)
    return light, albedo


def _direct(
    vector: tuple[Field, Field, Field],
    nx: Field,
    ny: Field,
    window: Field | float,
    drift: tuple[Field | float, Field | float] | None,
) -> Field:
    """Returns the irradiance of the seen part of the window on the tipped normal.

    `vector` is the open window's, z first; `drift` how the seen part's direction differs. 1 / |n|
    is taken to second order.
    """
    e, ex, ey = vector
    direct = ex * nx
    direct += ey * ny
    direct += e
    direct *= window
    if drift is not None:
        turned = drift[0] * nx
        turned += drift[1] * ny
        turned *= e
        direct += turned
    direct *= _shortened(nx, ny)
    return np.maximum(direct, 0, out=direct)


def _gilded(
    layer: Layer, worked: Worked, light: Field, falling: Falling, block: Block, ppi: float
) -> None:
    """Lays a gilded rim over a sheet's light, in place, if it has one."""
    outline = layer.receiver.outline
    if worked.gilt is not None and outline is not None:
        distance = pixels(outline.values, outline.lattice, *block)
        gilded(light, worked.gilt, distance, (layer.material.bevel_in, 1 / ppi), falling)


def _shortened(nx: Field, ny: Field) -> Field:
    """Returns 1 / |(nx, ny, 1)| to second order."""
    short = nx * nx
    short += ny * ny
    short *= np.float32(-0.5)
    short += 1
    return short


def _sent_back(
    glow: Sequence[Field | float], light: OpenLight, lamps: Lamps, e: Field
) -> list[Field | float]:
    """Returns what hides the sky sends back of the open table's light, a channel each."""
    room = math.pi * light.surface.transmit_sky * lamps.sky
    lit = zip(glow, lamps.window, room, strict=True)
    return [back * (e * of_window + of_room) for back, of_window, of_room in lit]


def _added(glow: Sequence[Field | float], more: Sequence[Field | float]) -> Sequence[Field | float]:
    return [a + b for a, b in zip(glow, more, strict=True)] if glow else more


def _seen(layer: Layer, block: Block) -> Sequence[Field | float]:
    """Returns the channels of visibility over a block; the first four as numbers where all is seen.

    Nothing glows there: no sheet hides any of the sky.
    """
    lattice = layer.receiver.lattice
    few = nodes(layer.seen, lattice, *block)
    if few[0].min() == 1 and few[3].min() == 1:
        return 1.0, 0.0, 0.0, 1.0
    return *pixels(layer.seen, lattice, *block), *pixels(layer.glow, lattice, *block)


def _coloured(
    albedo: Field,
    lamps: Lamps,
    light: OpenLight,
    direct: Field,
    shine: Field,
    dome: Field,
    glow: Sequence[Field | float],
) -> Field:
    s = light.surface
    out = np.empty_like(albedo)
    spare = np.empty_like(direct)
    for c, lit in enumerate(out):
        body = np.float32(s.body / math.pi * lamps.window[c])
        np.multiply(direct, body, out=lit)
        lit += np.multiply(dome, np.float32(s.body * s.transmit_sky * lamps.sky[c]), out=spare)
        if glow:
            lit += np.multiply(glow[c], np.float32(s.body / math.pi), out=spare)
        lit *= albedo[c]
        lit += np.multiply(shine, lamps.window[c], out=spare)
        lit += np.multiply(dome, np.float32(s.shine_sky * lamps.sky[c]), out=spare)
    return out


def look(layer: Layer, block: Block, ppi: float) -> Look:
    """Returns a layer's albedo (3, h, w) and the x and y of its grain's normal over a block."""
    if isinstance(layer.look, Ground):
        return layer.look.look(block)
    tile = grain.at_block(layer.look.tile, layer.look.offset, *block)
    art = layer.look.art
    if isinstance(art, Flat):
        albedo = layer.look.reflectance[list(art.rgb)][:, None, None] * tile[2]
    else:
        part = placed(art, block)
        albedo = np.stack([layer.look.reflectance.take(part[..., c]) for c in range(3)])
        albedo *= tile[2]
    nx, ny = tile[0], tile[1]
    if layer.look.worked is not None:
        nx, ny = ironed(layer.look.worked, block, nx, ny)
    for crease in layer.look.creases:
        nx, ny = creased(nx, ny, crease, *_inches(block, ppi))
    if layer.look.relief is not None:
        own = relief_at(layer.look.relief, *block)
        albedo = albedo * own[2]
        nx, ny = nx + own[0], ny + own[1]
    return albedo, nx, ny


def placed(art: Picture, block: Block) -> NDArray[np.uint8]:
    """Returns art's bytes at a block of picture pixels, (h, w, 3); its border goes on outside."""
    height, width = art.pixels.shape[:2]
    rows = np.clip(np.arange(*block[0]) - art.top_px, 0, height - 1)
    columns = np.clip(np.arange(*block[1]) - art.left_px, 0, width - 1)
    part = art.pixels[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1]
    if part.shape[:2] == (len(rows), len(columns)):
        return part
    return art.pixels[rows[:, None], columns]


def _tipped(layer: Layer, nx: Field, ny: Field, block: Block, ppi: float) -> tuple[Field, Field]:
    """Returns grain normals on the sheet's own slope."""
    plane: Plane = layer.receiver.top
    bow: Bow | None = layer.receiver.bow
    gx, gy = slopes(plane, bow, *_inches(block, ppi))
    return nx - gx, ny - gy


def _inches(block: Block, ppi: float) -> tuple[Field, Field]:
    """Returns a block's pixel centres, x (1, w) and y (h, 1), inches."""
    x, y = (((np.arange(*span) + 0.5) / ppi).astype(np.float32) for span in reversed(block))
    return x[None, :], y[:, None]


def _round_edge(
    layer: Layer,
    edge: EdgeLight,
    outline: Distance,
    block: Block,
    ppi: float,
    fields: tuple[Field, Field, Field],
    albedo: Field,
) -> None:
    """Relights the pixels on the sheet's rounded rim, in place: direct, shine, dome, albedo."""
    distance = pixels(outline.values, outline.lattice, *block)
    found = edge_pixels(distance, layer.material.bevel_in, 1 / ppi, edge)
    if found is None:
        return
    direct, shine, dome = (field.reshape(-1) for field in fields)
    window = pixels(layer.seen[0], layer.receiver.lattice, *block).ravel()[found.index]
    direct[found.index] *= 1 + found.share * (found.direct - 1)
    shine[found.index] += found.share * (found.shine * window - shine[found.index])
    dome[found.index] *= 1 + found.share * (found.sky - 1)
    if layer.material.edge_rgb is not None and isinstance(layer.look, SheetLook):
        core = layer.look.reflectance[list(layer.material.edge_rgb)]
        for c, body in enumerate(albedo.reshape(3, -1)):
            body[found.index] += found.share * (core[c] - body[found.index])
