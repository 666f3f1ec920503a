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

from mockup.geometry.affine import Affine
from mockup.geometry.offset import polygons_of
from mockup.geometry.point import Point
from mockup.pixels import View
from mockup.render.light.finish import Press
from mockup.render.light.scene import Rings
from mockup.suite.suite import TornSide

TORN_IN = 0.06  # a torn side lies within this of where it would have been cut
_LEAST_IN = 0.012
_STEP_IN = 0.008
_STRAIGHT_IN = 0.3  # shorter straight parts are not torn
_OFF_IN = 0.004  # how far a straight part may lie off its side
_THIN_IN = (0.05, 0.10)  # how wide the thinner edge is, least and most
_THINNED = 0.55  # of the caliper, gone at the very edge
_MARGIN_IN = 0.08
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

    def placed(self, x: Array, y: Array) -> tuple[Array, Array]:
        """Returns how far points lie along the side and within it, inches."""
        dx, dy = x - self.start[0], y - self.start[1]
        (ux, uy), (nx, ny) = self.way, self.inward
        return dx * ux + dy * uy, dx * nx + dy * ny

    def lost(self, along: Array) -> Array:
        """Returns how far within the side the torn edge lies, _LEAST_IN to TORN_IN."""
        return _LEAST_IN + (TORN_IN - _LEAST_IN) * self._wave(along, 0)

    def thin(self, along: Array) -> Array:
        """Returns how far the paper is thinner within the edge, inches."""
        low, high = _THIN_IN
        return low + (high - low) * self._wave(along, 1)

    def _wave(self, along: Array, number: int) -> Array:
        total = np.zeros_like(along)
        for k, (pitch, part) in enumerate(_WAVES):
            rng = np.random.default_rng((self.seed, number, k))
            count = math.ceil(self.length_in / pitch) + 3
            places = (np.arange(count) - 1) * pitch
            total += part * np.interp(along, places, rng.random(count))
        return total


def tears(
    sides: Sequence[TornSide], size_in: tuple[float, float], to_table: Affine, name: str
) -> tuple[Tear, ...]:
    """Returns a card's torn sides as it lies on the table; `name` is what their shapes hang on."""
    width, height = size_in
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
        found.append(Tear((a.x, a.y), (ux, uy), (-uy * turn, ux * turn), length, seed))
    return tuple(found)


def torn_rings(rings: Rings, torn: Sequence[Tear]) -> Rings:
    """Returns an outline with its outer ring's straight parts along torn sides made ragged."""
    strips = [strip for tear in torn for strip in _strips(rings[0], tear)]
    if not strips:
        return rings
    left = max(polygons_of(Polygon(rings[0]).difference(union_all(strips))), key=lambda p: p.area)
    return np.asarray(left.exterior.coords, dtype=np.float64)[:-1], *rings[1:]


def _strips(ring: Array, tear: Tear) -> list[Polygon]:
    """Returns what is torn away along the straight parts of an outline, as polygons."""
    found: list[Polygon] = []
    inward = np.array(tear.inward)
    for a, b in zip(ring, np.roll(ring, -1, axis=0), strict=True):
        along = _along(a, b, tear)
        if along is None:
            continue
        t = np.linspace(0, 1, max(2, math.ceil(float(np.hypot(*(b - a))) / _STEP_IN)))
        lost = tear.lost(along[0] + t * (along[1] - along[0]))
        edge = a + t[:, None] * (b - a) + lost[:, None] * inward
        outer = np.stack([b, a]) - _OFF_IN * inward
        found.append(Polygon(np.concatenate([edge, outer])))
    return found


def _along(a: Array, b: Array, tear: Tear) -> tuple[float, float] | None:
    """Returns where along a torn side a straight part of an outline lies, or None where off it."""
    along, within = tear.placed(np.array([a[0], b[0]]), np.array([a[1], b[1]]))
    if np.abs(within).max() > _OFF_IN or float(np.hypot(*(b - a))) < _STRAIGHT_IN:
        return None
    return float(along[0]), float(along[1])


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
            part = plate[rows]
            part[near] = np.maximum(part[near], np.rint(share * 255).astype(np.uint8))
    left, top = view.offset_in(of)
    depth_in = caliper_in * _THINNED
    return Press(plate, left - margin, top - margin, depth_in, sum(_THIN_IN) / 2)
