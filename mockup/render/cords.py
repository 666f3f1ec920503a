"""A cord through a card's hole: a loop that comes out over the card and goes back beneath it.

How it falls is judged by eye: a slack loop, bent to one side, to which one is by the card's name.
"""

from __future__ import annotations

import math
import zlib
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from shapely import unary_union
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as ShapelyPoint

from mockup.geometry.affine import Affine
from mockup.geometry.flatten import polygon, ring
from mockup.geometry.offset import polygons_of
from mockup.geometry.outline import Outline, Shape
from mockup.geometry.point import Point
from mockup.geometry.union import rim_of
from mockup.render.arrangement import Item
from mockup.render.things.reading import Mark, Part, PlacedThing, Spine, Thing
from mockup.suite.suite import Cord, Piece

Points = NDArray[np.float64]

_LONG_IN = 2.1  # how far the loop reaches beyond the card
_WIDE = 0.24  # how wide it lies, of its length
_BENT = 0.22  # how far its end lies beside its beginning, of its length
_TWIST_IN = 2.4  # turns of the two plies, in thicknesses
_SHADE = 0.2  # of the cord's colour, in the hole; by eye
_STEPS = 160
_COARSE_IN = 0.01


@dataclass(frozen=True)
class Loop:
    """A cord as it lies: the line it runs along, from the hole over the card and back to beneath
    it, and the area of it that is seen, in the card's inches."""

    line: Points
    area: Polygon


def loop_of(piece: Piece) -> Loop | None:
    """Returns how a piece's cord lies, None where it has none."""
    if piece.cord is None or not piece.die.shape.holes:
        return None
    return _loop(piece.die.shape, piece.cord, piece.name)


def corded(item: Item, piece: Piece) -> Item:
    """Returns a card's item with its cord, which nothing may hide."""
    loop = loop_of(piece)
    if loop is None:
        return item
    rim = rim_of([Polygon(item.outline), loop.area])
    seen = np.array(_rough(loop.area).exterior.coords[:-1], dtype=np.float64)
    return replace(item, outline=rim, keep_clear=(*item.keep_clear, seen))


def cord_of(piece: Piece) -> Thing | None:
    """Returns a piece's cord as a thing, in the card's inches; None where it has none."""
    loop, cord = loop_of(piece), piece.cord
    if loop is None or cord is None:
        return None
    thick_in = cord.thickness_in
    spine = Spine(loop.line, thick_in, _TWIST_IN * thick_in, (0.0, 0.0))
    far = loop.line[len(loop.line) // 2]
    ends = (tuple(map(float, loop.line[0])), tuple(map(float, far)))
    part = Part(
        loop.area, cord.colour, _shaded(loop, cord), spine, thick_in, thick_in / 2, (0.0, 0.0),
        ((ends[0][0], ends[0][1]), (ends[1][0], ends[1][1])), 0.0, 0.6, 1.45, "smooth",
    )  # fmt: skip
    left, top, right, bottom = loop.area.bounds
    return Thing(f"{piece.name}, cord", right - left, bottom - top, (part,))


def _rough(area: Polygon) -> Polygon:
    """Returns an area as coarse as arranging needs it."""
    return max(polygons_of(area.simplify(_COARSE_IN)), key=lambda part: part.area)


def _shaded(loop: Loop, cord: Cord) -> tuple[Mark, ...]:
    """Returns the shade a cord is in where it goes down into the hole."""
    end = ShapelyPoint(*map(float, loop.line[0]))
    red, green, blue = (round(value * _SHADE) for value in cord.colour)
    return tuple(
        Mark(end.buffer(cord.thickness_in * far), (red, green, blue), share, 0.0, 0.0, 0.0)
        for far, share in ((1.5, 0.3), (1.1, 0.4), (0.75, 0.5))
    )


@lru_cache(maxsize=64)
def _loop(shape: Shape, cord: Cord, name: str) -> Loop:
    hole = shape.holes[0]
    middle, out, edge_in = _way_out(shape, hole)
    length_in = edge_in + _LONG_IN
    seed = zlib.crc32(name.encode())
    bent = _BENT * (1 if seed % 2 else -1) * (0.7 + 0.6 * (seed // 2 % 100) / 100)
    t = np.linspace(0, 1, _STEPS)
    along = length_in * (1 - np.cos(2 * math.pi * t)) / 2
    aside = _WIDE * length_in * np.sin(2 * math.pi * t) * np.sin(math.pi * t)
    aside += bent * length_in * (along / length_in) ** 2
    across = np.array([-out[1], out[0]])
    line = np.array(middle) + along[:, None] * out + aside[:, None] * across
    half_in = cord.thickness_in / 2
    upper, lower = line[: _STEPS * 3 // 4], line[_STEPS * 3 // 4 - 1 :]
    over = LineString(upper).buffer(half_in, quad_segs=8)
    beneath = LineString(lower).buffer(half_in, quad_segs=8)
    card = Polygon(ring(shape.outer, _COARSE_IN / 4))
    whole = unary_union([over, beneath.difference(card)]).buffer(0)
    seen = max(polygons_of(whole), key=lambda part: part.area)
    return Loop(line, seen)


def _way_out(shape: Shape, hole: Outline) -> tuple[Point, Points, float]:
    """Returns a hole's middle, the way from it to the nearest edge, and how far that is."""
    middle = hole.box.centre
    box = polygon(Shape(shape.outer)).bounds
    ways = {
        (0.0, -1.0): middle.y - box[1],
        (0.0, 1.0): box[3] - middle.y,
        (-1.0, 0.0): middle.x - box[0],
        (1.0, 0.0): box[2] - middle.x,
    }
    out = min(ways, key=lambda way: ways[way])
    return middle, np.array(out), ways[out]


def laid_cord(piece: Piece, to_table: Affine) -> PlacedThing | None:
    """Returns a piece's cord on the table, None where it has none."""
    thing = cord_of(piece)
    return None if thing is None else PlacedThing(thing, to_table)
