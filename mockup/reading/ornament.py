"""Which drawn marks read as a whole, and which are ornament that may be cut anywhere.

A flower, a sprig or a scatter of stars is drawn over the edge on purpose; a logo or a lone mark is
not. What hangs together is judged together.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
import shapely
from numpy.typing import NDArray

from mockup.reading.die_zones import DieZones
from mockup.reading.part import Part
from mockup.reading.parts import Parts
from mockup.reading.type_lines import components

Reading = Literal["whole", "alone", "ornament"]
"""How a mark reads: as a whole that must not be cut, as one that stands alone, as ornament."""

TOUCHING_IN = 0.03  # judgement: nearer shapes are of one drawing
WHOLE_MOST_IN = 1.5  # judgement: a logo on a card is smaller, a picture of leaves may be larger
NIPPED = 0.6  # judgement: share of a mark inside the cut above which it may be cut by mistake
FEW = 3  # judgement: three drawings along the cut are a border of them
DRAWN_LEAST = 6  # judgement: shapes of a drawing; a mark with a ring and a letter has fewer


@dataclass(frozen=True)
class Ornament:
    """The drawings of a page: groups of shapes that touch, told apart from type and grounds."""

    parts: Parts
    zones: DieZones
    apart: frozenset[int]
    """Grounds, borders and what ends short: no drawings."""

    def reading(self, k: int) -> Reading:
        """Returns how a drawn mark near the cut, or over it, reads."""
        if k not in self._group_of:
            return "alone"  # an image, or a shape that was set apart
        group = self._groups[self._group_of[k]]
        if "bleeding" in group.places:
            return "ornament"
        if "crossing" in group.places:
            return self._crossing_reading(group)
        near = sum("near" in each.places for each in self._groups.values())
        if near >= FEW or self._runs_off(group):
            return "ornament"
        drawn = len(group.members) >= DRAWN_LEAST and not self._is_whole(group)
        return "ornament" if drawn else "alone"

    def _crossing_reading(self, group: _Group) -> Reading:
        if self._is_whole(group):
            return "whole"
        if self._runs_off(group) or not group.is_small:
            return "ornament"
        ink = shapely.union_all([self.parts.all[k].area() for k in group.members])
        inside = ink.intersection(self.zones.cut).area / max(ink.area, 1e-9)
        return "alone" if inside > NIPPED and len(group.members) < DRAWN_LEAST else "ornament"

    def _runs_off(self, group: _Group) -> bool:
        """Whether other drawings of the page, of several shapes or of the same ink, are cut."""
        return any(
            other is not group
            and other.places & {"crossing", "bleeding"}
            and (len(other.members) > 1 or other.inks & group.inks)
            for other in self._groups.values()
        )

    def _is_whole(self, group: _Group) -> bool:
        """Whether a drawing is an emblem: small, and one shape holds the rest, or type stands in
        it."""
        if not group.is_small:
            return False
        left, top, right, bottom = group.bounds
        for x, y in self._letters:
            if left < x < right and top < y < bottom:
                return True
        boxes = self._boxes[list(group.members)]
        outer = (np.abs(boxes - np.array(group.bounds)) < TOUCHING_IN).all(axis=1)
        return bool(outer.any()) and len(boxes) > 1

    @cached_property
    def _boxes(self) -> NDArray[np.float64]:
        return np.array([part.box for part in self.parts.all])

    @cached_property
    def _letters(self) -> list[tuple[float, float]]:
        """The middles of the letters that come near the cut or over it, and of those near them."""
        return [
            part.box.centre
            for k, part in enumerate(self.parts.all)
            if (part.is_type or k in self.parts.lettered) and part.place != "outside"
        ]

    @cached_property
    def _groups(self) -> dict[int, _Group]:
        drawn = [k for k, part in enumerate(self.parts.all) if self._is_drawn(k, part)]
        if not drawn:
            return {}
        shapes = np.array([_shape(self.parts.all[k]) for k in drawn], np.object_)
        pairs = shapely.STRtree(shapes).query(shapes, predicate="dwithin", distance=TOUCHING_IN)
        label = components(len(drawn), np.asarray(pairs, np.int64))
        members: dict[int, list[int]] = {}
        for own, k in zip(label.tolist(), drawn, strict=True):
            members.setdefault(own, []).append(k)
        return {own: _group(self.parts, self._boxes, ks) for own, ks in members.items()}

    @cached_property
    def _group_of(self) -> dict[int, int]:
        return {k: own for own, group in self._groups.items() for k in group.members}

    def _is_drawn(self, k: int, part: Part) -> bool:
        return (
            part.painted.kind == "path"
            and k not in self.parts.lettered
            and k not in self.apart
            and part.place != "outside"
        )


@dataclass(frozen=True)
class _Group:
    members: tuple[int, ...]
    places: frozenset[str]
    inks: frozenset[object]
    bounds: tuple[float, float, float, float]

    @property
    def is_small(self) -> bool:
        """Whether it is no larger than a logo."""
        left, top, right, bottom = self.bounds
        return max(right - left, bottom - top) <= WHOLE_MOST_IN


def _group(parts: Parts, boxes: NDArray[np.float64], members: Iterable[int]) -> _Group:
    own = tuple(members)
    around = boxes[list(own)]
    left, top = (float(v) for v in around[:, :2].min(axis=0))
    right, bottom = (float(v) for v in around[:, 2:].max(axis=0))
    return _Group(
        own,
        frozenset(parts.all[k].place for k in own),
        frozenset(parts.all[k].painted.ink for k in own),
        (left, top, right, bottom),
    )


def _shape(part: Part) -> shapely.Geometry:
    """Returns a shape as far as its nearness to others goes: a fill with its inside, or a line."""
    if part.painted.pen is None and len(part.ring) > 2:
        return shapely.Polygon(part.ring)
    return shapely.LineString(part.ring) if len(part.ring) > 1 else shapely.Point(part.ring[0])


def ornament_of(parts: Parts, zones: DieZones, apart: Collection[int]) -> Ornament:
    """Returns the drawings of a page; `apart` are its grounds, borders and short ends."""
    return Ornament(parts, zones, frozenset(apart))
