"""Which marks have to stay clear of the cut, and which are meant to run off it.

Type has to. So has a mark that stands by itself. What bleeds has not, nor has texture. A border
that follows the cut is told apart, for there the trouble is unevenness.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from mockup.reading.die_zones import DieZones
from mockup.reading.image_marks import ImageMark
from mockup.reading.part import Part, densified
from mockup.reading.parts import Parts
from mockup.reading.sight import Sight

Kind = Literal["type", "line", "mark"]

DISPLAY_IN = 0.6  # judgement: letters taller than this that run to the bleed's end do so on purpose
LINE_THIN_IN = 0.04  # judgement: 3 pt; thicker is a bar
LINE_LONG_IN = 0.25  # judgement: shorter is a dash or a hyphen
# Judgement: what covers half the card is its ground; frames and panels cover less.
GROUND_SHARE = 0.5
VISIBLE = 10.0  # judgement: least difference in 255ths for a mark to be seen on its ground
BORDER_SPAN = 0.6  # judgement: share of the card's sides; smaller frames stand by themselves
BORDER_WITHIN_IN = 0.5  # judgement: further in, an uneven margin is not seen
BORDER_SAMPLES = 240  # judgement: one each 0.1 in round an A7 card
SAMPLES = 200  # judgement: enough for a percentile of a mark's rim


@dataclass(frozen=True)
class Mark:
    """Something that has to stay clear of the cut. `area` is its ink, card inches."""

    kind: Kind
    area: BaseGeometry
    crossing: bool
    text: str = ""


@dataclass(frozen=True)
class Border:
    """A line or an edge that runs along the cut, and how far inside it: least, usual, most."""

    area: BaseGeometry
    least_in: float
    usual_in: float
    most_in: float


@dataclass(frozen=True)
class Marks:
    """A page's marks that matter, those near or over the cut first named, and its borders."""

    near: tuple[Mark, ...]
    borders: tuple[Border, ...]
    points: NDArray[np.float64]
    """(n, 2): the outline of everything that has to stay clear, calm marks as well."""


def sort_marks(
    parts: Parts,
    short_ends: Collection[int],
    in_images: Sequence[ImageMark],
    zones: DieZones,
    sight: Sight,
) -> Marks:
    """Returns what has to stay clear of the cut on a page.

    `short_ends` are the parts that end along the cut too soon: they are grounds, not marks.
    """
    borders, bordering = _borders(parts.all, zones)
    apart = bordering | _grounds(parts.all, zones) | set(short_ends)
    near: list[Mark] = []
    points: list[NDArray[np.float64]] = []
    cut_words, displayed = _cut_words(parts)
    for k, part in enumerate(parts.all):
        if k in apart or (part.place == "outside" and k not in cut_words):
            continue
        is_type = part.is_type or k in parts.lettered
        if k in displayed or (part.place == "bleeding" and not is_type):
            continue
        if k in parts.texture and not is_type:
            continue
        if part.place == "calm":
            points.append(part.ring)
        elif (mark := _mark(part, is_type)) is not None and _is_seen(mark, zones, sight):
            near.append(mark)
            points.append(densified(part.ring))
    for shape in in_images:
        kind: Kind = "type" if shape.is_letter else "mark"
        near.append(Mark(kind, shape.area, shape.crossing, "in an image"))
        points.append(np.asarray(shape.area.convex_hull.boundary.coords))
    together = np.concatenate(points) if points else np.empty((0, 2))
    return Marks(tuple(near), tuple(borders), together)


def _cut_words(parts: Parts) -> tuple[set[int], set[int]]:
    """Returns the letters of words that stand on the card, and of words cropped on purpose.

    Letters beyond the cut belong to the first where their word begins or goes on upon the card. A
    word is cropped on purpose where a letter of display size runs to the bleed's end.
    """
    words: dict[object, list[int]] = {}
    for k, part in enumerate(parts.all):
        if k in parts.lettered:
            words.setdefault(parts.lettered[k].members, []).append(k)
        elif part.is_type:
            words.setdefault(part.index, []).append(k)
    standing: set[int] = set()
    cropped: set[int] = set()
    for own in words.values():
        if {parts.all[k].place for k in own} != {"outside"}:
            standing.update(own)
        own_parts = [parts.all[k] for k in own]
        if any(p.place == "bleeding" and p.box.height >= DISPLAY_IN for p in own_parts):
            cropped.update(own)
    return standing, cropped


def _mark(part: Part, is_type: bool) -> Mark | None:
    area = part.area()
    if area.is_empty:
        return None
    kind: Kind = "type" if is_type else "mark"
    if not is_type and area.length > 0:
        thickness = 2 * area.area / area.length
        if thickness < LINE_THIN_IN and part.size_in > LINE_LONG_IN:
            kind = "line"
    text = part.painted.lettering.text if part.painted.lettering else ""
    return Mark(kind, area, part.place not in ("near", "calm"), text)


def _grounds(parts: Sequence[Part], zones: DieZones) -> set[int]:
    """Returns the parts that are grounds: over half the card, or the inside of a frame."""
    card = zones.shape.box.width * zones.shape.box.height
    return {
        k
        for k, part in enumerate(parts)
        if part.closed and part.painted.pen is None
        and part.box.width * part.box.height > GROUND_SHARE * card
    }  # fmt: skip


def _borders(parts: Sequence[Part], zones: DieZones) -> tuple[list[Border], set[int]]:
    """Returns the borders that follow the cut inside it, and the parts they are made of."""
    card = zones.shape.box
    places = np.linspace(0, zones.edge.length, BORDER_SAMPLES, endpoint=False)
    outer = shapely.line_interpolate_point(zones.cut.exterior, places)
    borders: list[Border] = []
    taken: set[int] = set()
    for k, part in enumerate(parts):
        wide = part.box.width > BORDER_SPAN * card.width
        high = part.box.height > BORDER_SPAN * card.height
        if part.place in ("bleeding", "outside", "crossing") or not (wide and high):
            continue
        if part.is_type or len(part.ring) < 3:
            continue
        area = part.area()
        distances = shapely.distance(outer, area.boundary)
        usual = float(np.median(distances))
        within = np.abs(distances - usual) < max(0.03, 0.15 * usual)
        if usual < BORDER_WITHIN_IN and within.mean() > 0.7:
            along = distances[within]
            borders.append(Border(area, float(along.min()), usual, float(along.max())))
            taken.add(k)
    return borders, taken


def _is_seen(mark: Mark, zones: DieZones, sight: Sight) -> bool:
    """Returns whether a mark shows, where it is near the cut, against what lies round it there."""
    step = 1.5 / sight.view.ppi
    inner, outer = mark.area.buffer(-0.6 * step), mark.area.buffer(step)
    inside = _samples(inner if not inner.is_empty else mark.area.centroid)
    outside = _samples(outer)
    near = ~shapely.contains_xy(zones.safe, outside[:, 0], outside[:, 1])
    outside = outside[near] if near.any() else outside
    if not len(inside) or not len(outside):
        return True
    mean_inside = sight.colours_at(inside).mean(axis=0)
    difference = np.abs(sight.colours_at(outside) - mean_inside).max(axis=1)
    return bool(np.percentile(difference, 75) > VISIBLE)


def _samples(area: BaseGeometry) -> NDArray[np.float64]:
    if area.geom_type == "Point":
        return np.asarray(area.coords)
    points = shapely.get_coordinates(area.boundary)
    return points[:: max(1, len(points) // SAMPLES)]
