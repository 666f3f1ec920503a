"""A band round cards in a flat-lay: its front, turned softly at the cards' sides."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from shapely.geometry import Polygon

from mockup.artwork.objects import ArtObject, keep_clear
from mockup.geometry.affine import Affine
from mockup.geometry.flatten import ring
from mockup.geometry.outline import Shape, polygon_outline
from mockup.geometry.point import Box, Point
from mockup.geometry.union import rim_of
from mockup.pixels import View
from mockup.reading.binding import Bound
from mockup.render.arrangement import Item
from mockup.render.light.scene import Relief
from mockup.suite.suite import Piece

_COARSE_IN = 0.01
_BEYOND_IN = 1.0  # past the turns: out of any picture of the band alone
_LEAST_TURN_IN = 0.012  # judgement: paper folded round one thin card is no sharper
_STEEPEST = 3.0  # of the turn's slope: beyond, the face is the side and is not seen from above


@dataclass(frozen=True)
class Turn:
    """Where a band bends down at the cards' sides: both ends of its front, table inches, each as a
    point and the way outward, and the radius of the bend."""

    ends: tuple[tuple[Point, Point], tuple[Point, Point]]
    radius_in: float


def seen_of(bundle: Bound) -> Piece:
    """Returns the band with the outline of what is seen of it in front, in the strip's inches."""
    left, top, right, bottom = bundle.panel
    shape = Shape(polygon_outline((left, top), (right, top), (right, bottom), (left, bottom)))
    return replace(bundle.band, die=replace(bundle.band.die, shape=shape))


def bound_item(item: Item, bundle: Bound, marks: Sequence[ArtObject]) -> Item:
    """Returns a front card's item with all it is bound with: one outline, the band's own type and
    drawings kept clear as well. `marks` are those of the band's page."""
    to_card, die = bundle.to_card, bundle.band.die
    outlines = [item.outline, ring(seen_of(bundle).die.shape.outer.mapped(to_card), _COARSE_IN)]
    outlines += [
        ring(card.die.shape.outer.mapped(bundle.under_front(card)), _COARSE_IN)
        for card in bundle.cards[1:]
    ]
    kept = (_within(each, bundle.panel) for each in keep_clear(marks, die.width_in, die.height_in))
    moved = [box.moved(to_card.e, to_card.f) for box in kept if box is not None]
    rim = rim_of(Polygon(each) for each in outlines)
    return replace(item, outline=rim, keep_clear=(*item.keep_clear, *moved))


def turn_of(bundle: Bound, to_table: Affine) -> Turn:
    """Returns where a band bends, `to_table` being the map of the strip's inches."""
    left, top, right, bottom = bundle.panel
    if bundle.goes_across:
        middle = (top + bottom) / 2
        first, last = (Point(left, middle), Point(-1, 0)), (Point(right, middle), Point(1, 0))
    else:
        middle = (left + right) / 2
        first, last = (Point(middle, top), Point(0, -1)), (Point(middle, bottom), Point(0, 1))
    radius_in = max(bundle.thickness_in / 2 + bundle.caliper_in, _LEAST_TURN_IN)
    ends = (
        (to_table.point(first[0]), to_table.vector(first[1])),
        (to_table.point(last[0]), to_table.vector(last[1])),
    )
    return Turn(ends, radius_in)


def cut_of(shape: Shape, turn: Turn) -> Shape:
    """Returns a band's front, `shape` in table inches, lengthened past both its turns: what is cut
    are its long sides alone, so that a line along this shows no cut where the paper turns."""
    (first, before), (last, after) = turn.ends

    def beyond(corner: Point) -> tuple[float, float]:
        out = before if math.dist(corner, first) < math.dist(corner, last) else after
        return corner.x + out.x * _BEYOND_IN, corner.y + out.y * _BEYOND_IN

    return Shape(polygon_outline(*(beyond(part.start) for part in shape.outer.segments)))


def relief_of(turn: Turn, own: View, view: View) -> Relief:
    """Returns the bends as a relief at the pixels of `own`, a part of the picture's `view`: a
    quarter of a circle at each end."""
    x = own.left_in + (np.arange(own.width_px) + 0.5) / own.ppi
    y = own.top_in + (np.arange(own.height_px) + 0.5) / own.ppi
    values = np.zeros((3, own.height_px, own.width_px), np.float32)
    values[2] = 1
    for at, out in turn.ends:
        # How far past the bend's beginning, outward, in radii.
        past = (x[None, :] - at.x) * out.x + (y[:, None] - at.y) * out.y
        share = np.clip(past / turn.radius_in + 1, 0, 1)
        slope = np.minimum(share / np.sqrt(np.maximum(1 - share * share, 1e-6)), _STEEPEST)
        values[0] += slope * out.x
        values[1] += slope * out.y
    return Relief(values, *own.offset_in(view))


def _within(box: Box, panel: Box) -> Box | None:
    left, top = max(box.left, panel.left), max(box.top, panel.top)
    right, bottom = min(box.right, panel.right), min(box.bottom, panel.bottom)
    return Box(left, top, right, bottom) if left < right and top < bottom else None
