"""A sheet's finishes in its light: walls and shade of what is pressed, then skins over it all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.render.light.finish import Coat, plate_at
from mockup.render.light.gilt import Gilt
from mockup.render.light.irradiance import OpenLight
from mockup.render.light.lattice import Field
from mockup.render.light.mirror import Mirror, ceiling, mirrored
from mockup.render.light.pressed import Block, PressLight, Walls, at_facing, walls
from mockup.render.light.rim import Rim, rim_light
from mockup.render.light.tone import Lamps

Mark = tuple[PressLight, Walls]


@dataclass(frozen=True)
class CoatLight:
    """A coat ready to be shaded: what it mirrors, level and (2, facings) on each press's walls;
    which presses are made by the same plate, so that their walls lie along its own edge, and the
    rims of those whose walls are narrow; and the light of a white body under the skin, per that of
    the same body as bare paper. `throws` are the
    shares that paper's surface and the skin's throw back down into the body."""

    coat: Coat
    mirror: Mirror
    on_walls: tuple[Field, ...]
    edged: tuple[bool, ...]
    rims: tuple[Rim | None, ...]
    through: float
    throws: tuple[float, float]


@dataclass(frozen=True)
class Worked:
    """A sheet's presses and coats, in the order they are made, and its gilded rim."""

    presses: tuple[PressLight, ...]
    coats: tuple[CoatLight, ...]
    gilt: Gilt | None = None


@dataclass(frozen=True)
class Under:
    """What falls on a block: the fields a sheet is lit by, each (h, w), the lamps, its albedo."""

    direct: Field
    shine: Field
    dome: Field
    window: Field | float
    lamps: Lamps
    open: OpenLight
    albedo: Field


def marks_at(worked: Worked, block: Block) -> list[Mark | None]:
    """Returns each press with its walls over a block; None where it has none."""
    found = ((press, walls(press, block)) for press in worked.presses)
    return [None if wall is None else (press, wall) for press, wall in found]


def ironed(worked: Worked, block: Block, nx: Field, ny: Field) -> tuple[Field, Field]:
    """Returns the grain's normals, flattened where a sheet is pressed or coated."""
    plates = [(light.press, light.press.irons) for light in worked.presses]
    plates += [(light.coat, light.coat.skin.irons) for light in worked.coats]
    left: Field | None = None
    for placed, irons in plates:
        plate = plate_at(placed, *block) if irons else None
        if plate is not None:
            rest = 1 - plate.astype(np.float32) * np.float32(irons / 255)
            left = rest if left is None else np.minimum(left, rest)
    return (nx, ny) if left is None else (nx * left, ny * left)


def walls_lit(
    marks: Sequence[Mark | None], direct: Field, shine: Field, dome: Field, window: Field | float
) -> Field | None:
    """Relights walls and floors in place; returns the light they hide from one another, (h, w).

    That is the share of the open light that does not come from the lamps but off the paper
    opposite; None without any mark.
    """
    between: Field | None = None
    for mark in marks:
        if mark is None:
            continue
        press, wall = mark
        index = np.flatnonzero((wall.share != 0) | (wall.no_sky > 0) | (wall.no_window > 0))
        share = wall.share.ravel()[index]
        lit, glint, sky = at_facing(press.walls, wall.facing.ravel()[index])
        seen = _at(window, index)
        open_window = 1 - wall.no_window.ravel()[index]
        open_sky = (1 - wall.no_sky.ravel()[index]) * (1 + share * (sky - 1))
        _times(direct, index, (1 + share * (lit - 1)) * open_window)
        _times(dome, index, open_sky)
        flat = shine.ravel()[index]
        shine.reshape(-1)[index] = (flat + share * (glint * seen - flat)) * open_window
        if between is None:
            between = np.zeros_like(direct)
        between.reshape(-1)[index] += 1 - open_sky
    return between


def coated(
    worked: Worked,
    marks: Sequence[Mark | None],
    lit: Field,
    normal: tuple[Field, Field],
    under: Under,
    block: Block,
    ppi: float,
) -> None:
    """Lays a sheet's coats over its light (3, h, w), in place."""
    for coat in worked.coats:
        plate = plate_at(coat.coat, *block)
        if plate is None:
            continue
        index = np.flatnonzero(plate)
        share = plate.ravel()[index].astype(np.float32) / np.float32(255)
        own = _skin_light(coat, marks, lit, normal, under, (index, share), (block, ppi))
        for channel, light in zip(lit.reshape(3, -1), own, strict=True):
            channel[index] += share * (light - channel[index])


def _skin_light(
    light: CoatLight,
    marks: Sequence[Mark | None],
    lit: Field,
    normal: tuple[Field, Field],
    under: Under,
    coat: tuple[NDArray[np.intp], Field],
    place: tuple[Block, float],
) -> Field:
    """Returns what a coat sends to the camera at some pixels of a block, (3, n).

    `coat` is which pixels, and how much of each it covers.
    """
    block, ppi = place
    rows, columns = block
    index, covers = coat
    j, i = np.divmod(index, columns[1] - columns[0])
    x = (i + (columns[0] + 0.5)).astype(np.float32) * np.float32(1 / ppi)
    y = (j + (rows[0] + 0.5)).astype(np.float32) * np.float32(1 / ppi)
    nx, ny = (part.ravel()[index] for part in normal)
    glint, room = mirrored(light.mirror, nx, ny, x, y)
    for number, mark in enumerate(marks):
        if mark is None:
            continue
        facing, own_rim = mark[1].facing.ravel()[index], light.rims[number]
        if own_rim is None:
            share = mark[1].share.ravel()[index]
            share = _wall_within(share, covers) if light.edged[number] else np.maximum(share, 0)
            wall_glint, wall_room = at_facing(light.on_walls[number], facing)
        else:
            share, (wall_glint, wall_room) = rim_light(own_rim, light.coat, block, index, facing)
        glint += share * (wall_glint - glint)
        room += share * (wall_room - room)
        glint *= 1 - mark[1].no_window.ravel()[index]
    glint *= _at(under.window, index)
    skin, lamps, overhead = light.coat.skin, under.lamps, ceiling(under.lamps)
    out = np.empty((3, len(index)), np.float32)
    for c in range(3):
        shown = glint * lamps.window[c] + room * overhead[c]
        out[c] = shown * np.float32(skin.mirrors[c]) + _beneath(light, lit, under, index, c)
    return out


def _wall_within(wall: Field, covers: Field) -> Field:
    """Returns how much of a coat's part of each pixel is wall, where the wall lies along its edge.

    Half of the wall is outside the coat, as far as the pixel goes on there.
    """
    inside = np.minimum(wall - np.minimum(1 - covers, wall / 2), covers)
    return np.maximum(inside, 0) / covers


def _beneath(
    light: CoatLight, lit: Field, under: Under, index: NDArray[np.intp], c: int
) -> Field | float:
    """Returns the light of what lies under a coat's surface: paper, pigment or, of metal, none."""
    skin, surface, lamps = light.coat.skin, under.open.surface, under.lamps
    direct, shine, dome = (f.ravel()[index] for f in (under.direct, under.shine, under.dome))
    if skin.clear:
        veil = shine * lamps.window[c] + dome * np.float32(surface.shine_sky * lamps.sky[c])
        deeper = _deeper(under.albedo[c].ravel()[index], *light.throws)
        return (lit[c].ravel()[index] - veil) * (deeper * np.float32(light.through))
    if skin.body is None:
        return 0.0
    sun = direct * np.float32(surface.body / np.pi * lamps.window[c])
    sky = dome * np.float32(surface.body * surface.transmit_sky * lamps.sky[c])
    return (sun + sky) * np.float32(skin.body[c] * light.through)


def _at(field: Field | float, index: NDArray[np.intp]) -> Field | float:
    return field.ravel()[index] if isinstance(field, np.ndarray) else field


def _deeper(albedo: Field, bare: float, skin: float) -> Field:
    """Returns the reflectance of a body under a skin, per its own as bare paper.

    Each time light is thrown back down it meets the body again: a (1 - r) / (1 - a r), of which the
    paper's own is known and a is worked out (Saunderson 1942). Wet colours are deep for that.
    """
    body = albedo / ((1 - bare) + albedo * np.float32(bare))
    return body * np.float32(1 - skin) / (1 - body * np.float32(skin)) / np.maximum(albedo, 1e-4)


def _times(field: Field, index: NDArray[np.intp], factor: Field) -> None:
    field.reshape(-1)[index] *= factor
