"""Torn sides: straight sides of a card made ragged, thinner towards their edge, as a deckle is.

Sheets of hand-made paper, and cards torn against a rule, lose up to 1/16 in along their sides;
how fast the edge wanders and thins: judgements, by eye. The same card is torn the same way always.
"""

from __future__ import annotations

import math
import zlib
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from shapely import Polygon, union_all

from mockup.dies.sides import Span, straight_spans
from mockup.geometry.affine import Affine
from mockup.geometry.offset import polygons_of
from mockup.geometry.outline import Shape
from mockup.geometry.point import Point
from mockup.pixels import View
from mockup.render.light.finish import Press
from mockup.render.light.scene import Rings
from mockup.suite.suite import TornSide

TORN_IN = 0.06  # a torn side lies within this of where it would have been cut
_LEAST_IN = 0.012
_STEP_IN = 0.008
_OFF_IN = 0.004  # how far a straight part may lie off its side
_THIN_IN = (0.05, 0.10)  # how wide the thinner edge is, least and most
_THINNED = 0.55  # of the caliper, gone at the very edge
_MARGIN_IN = 0.08
_EASE_IN = 1.0  # within which a tear runs out where its side bends away; sooner, it is a shoulder
_CORNER_IN = 0.002  # as near to its side's end a straight part goes on to it
# Waves of the edge: inches from crest to crest, and their parts of the whole.
_WAVES = ((0.50, 0.24), (0.17, 0.26), (0.06, 0.26), (0.022, 0.24))

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Tear:
    """One torn side on the table: from `start` along `way` for `length_in`, `inward` across it."""

    start: tuple[float, float]
    way: tuple[float, float]
    inward: tuple[float, float]
    length_in: float
    seed: int
    spans: tuple[Span, ...]
    """Where along the side it is straight, and torn."""

    def placed(self, x: Array, y: Array) -> tuple[Array, Array]:
        """Returns how far points lie along the side and within it, inches."""
        dx, dy = x - self.start[0], y - self.start[1]
        (ux, uy), (nx, ny) = self.way, self.inward
        return dx * ux + dy * uy, dx * nx + dy * ny

    def lost(self, along: Array) -> Array:
        """Returns how far within the side the torn edge lies, _LEAST_IN to TORN_IN, and less to
        nothing where the side bends away."""
        torn = _LEAST_IN + (TORN_IN - _LEAST_IN) * self._wave(along, 0)
        return torn * self.eased(along)

    def thin(self, along: Array) -> Array:
        """Returns how far the paper is thinner within the edge, inches."""
        low, high = _THIN_IN
        return low + (high - low) * self._wave(along, 1)

    def eased(self, along: Array) -> Array:
        """Returns 1 where the side is torn, falling to 0 where it bends away, 0 beyond."""
        share = np.zeros_like(along)
        for low, high in self.spans:
            # A part that goes on to the side's end is torn to that end, and over it.
            first = -math.inf if low <= _CORNER_IN else low
            last = math.inf if high >= self.length_in - _CORNER_IN else high
            inside = np.minimum(along - first, last - along)
            ease_in = min(_EASE_IN, (high - low) / 3)
            share = np.maximum(share, np.clip(inside / ease_in, 0, 1))
        return share * share * (3 - 2 * share)

    def _wave(self, along: Array, number: int) -> Array:
        total = np.zeros_like(along)
        for k, (pitch, part) in enumerate(_WAVES):
            rng = np.random.default_rng((self.seed, number, k))
            count = math.ceil(self.length_in / pitch) + 3
            places = (np.arange(count) - 1) * pitch
            total += part * np.interp(along, places, rng.random(count))
        return total


def tears(sides: Sequence[TornSide], shape: Shape, to_table: Affine, name: str) -> tuple[Tear, ...]:
    """Returns a card's torn sides as it lies on the table, of an outline from (0, 0); `name` is
    what their shapes hang on."""
    width, height = shape.box.width, shape.box.height
    corners: dict[TornSide, tuple[Point, Point]] = {
        "left": (Point(0, 0), Point(0, height)),
        "top": (Point(0, 0), Point(width, 0)),
        "right": (Point(width, 0), Point(width, height)),
        "bottom": (Point(0, height), Point(width, height)),
    }
    middle = to_table.point(Point(width / 2, height / 2))
    found: list[Tear] = []
    for side in sides:
        a, b = (to_table.point(corner) for corner in corners[side])
        length = math.hypot(b.x - a.x, b.y - a.y)
        ux, uy = (b.x - a.x) / length, (b.y - a.y) / length
        turn = 1 if (middle.x - a.x) * -uy + (middle.y - a.y) * ux > 0 else -1
        seed = zlib.crc32(f"{name} {side}".encode())
        spans = straight_spans(shape, side)
        found.append(Tear((a.x, a.y), (ux, uy), (-uy * turn, ux * turn), length, seed, spans))
    return tuple(found)


def torn_rings(rings: Rings, torn: Sequence[Tear]) -> Rings:
    """Returns an outline with its outer ring's straight parts along torn sides made ragged."""
    strips = [_strip(tear, span) for tear in torn for span in tear.spans]
    if not strips:
        return rings
    left = max(polygons_of(Polygon(rings[0]).difference(union_all(strips))), key=lambda p: p.area)
    return np.asarray(left.exterior.coords, dtype=np.float64)[:-1], *rings[1:]


def _strip(tear: Tear, span: Span) -> Polygon:
    """Returns what is torn away along a straight part of a side."""
    start, way, inward = (np.array(each) for each in (tear.start, tear.way, tear.inward))
    along = np.linspace(*span, max(2, math.ceil((span[1] - span[0]) / _STEP_IN)))
    edge = start + along[:, None] * way + tear.lost(along)[:, None] * inward
    outer = start + np.array(span)[::-1, None] * way - _OFF_IN * inward
    return Polygon(np.concatenate([edge, outer]))


def torn_press(torn: Sequence[Tear], view: View, caliper_in: float, of: View) -> Press:
    """Returns the thinner paper along torn sides as a press; `view` is the sheet's part of `of`."""
    margin = math.ceil(_MARGIN_IN * view.ppi)
    x = view.left_in + (np.arange(-margin, view.width_px + margin) + 0.5) / view.ppi
    y = view.top_in + (np.arange(-margin, view.height_px + margin) + 0.5) / view.ppi
    plate = np.zeros((len(y), len(x)), np.uint8)
    for tear in torn:
        for top in range(0, len(y), 256):  # so many rows that the numbers stay small
            rows = np.s_[top : top + 256]
            along, within = tear.placed(*np.broadcast_arrays(x[None, :], y[rows, None]))
            near = np.nonzero(within < TORN_IN + _THIN_IN[1])
            s = along[near]
            share = np.clip(1 - (within[near] - tear.lost(s)) / tear.thin(s), 0, 1) ** 2
            share *= tear.eased(s)
            part = plate[rows]
            part[near] = np.maximum(part[near], np.rint(share * 255).astype(np.uint8))
    left, top = view.offset_in(of)
    depth_in = caliper_in * _THINNED
    return Press(plate, left - margin, top - margin, depth_in, sum(_THIN_IN) / 2)
