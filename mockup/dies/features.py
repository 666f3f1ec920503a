"""The smallest slot and the smallest neck of a die, which a blade may not follow.

A slot narrower than a width is filled by closing the shape with a disc of that width, a neck is
lost by opening it (mathematical morphology). Corners are rounded by both, and are told apart by
how deep the loss goes: less than the disc's radius at any corner of 60 degrees or more. Sharper
corners, such as the cusps between scallops, are bent into the rule, and only counted.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from shapely.geometry import MultiPoint, Polygon, box
from shapely.geometry import Point as Dot
from shapely.geometry.base import BaseGeometry

from mockup.geometry.flatten import polygon
from mockup.geometry.offset import polygons_of, quadrant_segments
from mockup.geometry.outline import Outline, Shape
from mockup.geometry.point import Point
from mockup.trade.tolerances import SMALLEST_SLOT
from mockup.units import Unit, format_length, format_place

HARD_TO_CUT_IN = SMALLEST_SLOT.value  # slots, necks and punched holes under it
SHARP_DEG = 60.0
LOOK_IN = 0.25  # nothing wider is looked for
_WITHIN_IN = 0.0005
_DEEPER = 1.08  # more than a corner of 60 degrees loses, with room for flattening


@dataclass(frozen=True)
class Feature:
    """A narrow place of a die: its width and where it is, inches."""

    width_in: float
    at: Point


@dataclass(frozen=True)
class Features:
    """What is narrow on a die; None where nothing is under 1/4 in. `sharp` counts sharp corners."""

    slot: Feature | None
    neck: Feature | None
    sharp: int


def features(shape: Shape) -> Features:
    """Returns the narrowest slot (or hole) and neck of a shape, widths to 0.001 in."""
    flat = polygon(shape)
    corners = sharp_corners(shape)
    spare = MultiPoint(corners).buffer(2 * _WITHIN_IN) if corners else Polygon()
    around = box(*flat.bounds).buffer(2 * LOOK_IN, join_style="mitre").difference(flat)
    return Features(_narrowest(around, spare), _narrowest(flat, spare), len(corners))


def cutting_notes(found: Features, units: Unit = "in") -> tuple[str, ...]:
    """Returns a line for each place that is hard to cut, for the reader; none where all is well."""
    return tuple(
        f"the narrowest {what} is {format_length(feature.width_in, units)} wide, near "
        f"{format_place(feature.at, units)}; under {_hard_told(units)} is hard "
        "to cut: ask the printer"
        for what, feature in (("slot", found.slot), ("neck", found.neck))
        if feature is not None and feature.width_in < HARD_TO_CUT_IN - _WITHIN_IN
    )


def _hard_told(units: Unit) -> str:
    return "3/32 in" if units == "in" else format_length(HARD_TO_CUT_IN, units)


def sharp_corners(shape: Shape) -> list[Point]:
    """Returns the corners of a shape, outward or inward, of less than 60 degrees."""
    return [corner for outline in shape.outlines for corner in _sharp(outline)]


def _sharp(outline: Outline) -> list[Point]:
    found: list[Point] = []
    following = (*outline.segments[1:], outline.segments[0])
    for segment, after in zip(outline.segments, following, strict=True):
        back, ahead = segment.at(1 - 1e-4), after.at(1e-4)
        here = after.start
        before = math.atan2(back.y - here.y, back.x - here.x)
        onward = math.atan2(ahead.y - here.y, ahead.x - here.x)
        if abs(math.degrees(math.remainder(before - onward, 2 * math.pi))) < SHARP_DEG - 0.1:
            found.append(here)
    return found


def _narrowest(flat: BaseGeometry, spare: BaseGeometry) -> Feature | None:
    low, high = 0.0, LOOK_IN
    found = _lost(flat, spare, high)
    if found is None:
        return None
    while high - low > _WITHIN_IN:
        middle = (low + high) / 2
        there = _lost(flat, spare, middle)
        if there is None:
            low = middle
        else:
            high, found = middle, there
    return Feature((low + high) / 2, found)


def _lost(flat: BaseGeometry, spare: BaseGeometry, width_in: float) -> Point | None:
    """Returns a place too narrow for a disc of a width, or None.

    Narrow is where the disc's middle can no longer pass from one part to another or round a hole,
    or where the loss goes deeper than at any corner.
    """
    radius = width_in / 2
    segments = quadrant_segments(radius, 0.0001)
    eroded = flat.buffer(-radius, quad_segs=segments)
    opened = eroded.buffer(radius, quad_segs=segments)
    before, after = polygons_of(flat), polygons_of(eroded)
    if len(after) > len(before) or _holes(after) < _holes(before):
        wider = flat.buffer(_WITHIN_IN - radius, quad_segs=segments)
        bridges = polygons_of(wider.difference(eroded.buffer(1.5 * _WITHIN_IN)))
        # Well past the width itself there is no bridge any more; bisection comes back to it.
        parts = bridges or polygons_of(flat.difference(opened)) or before
        return _middle(max(parts, key=lambda part: part.length))
    for part in polygons_of(flat.difference(opened.buffer(_WITHIN_IN / 2))):
        if part.intersects(spare):
            continue
        if not after or _depth(part, opened, radius) > radius * _DEEPER + _WITHIN_IN:
            return _middle(part)
    return None


def _holes(parts: list[Polygon]) -> int:
    return sum(len(part.interiors) for part in parts)


def _middle(part: Polygon) -> Point:
    middle = part.representative_point()
    return Point(middle.x, middle.y)


def _depth(part: Polygon, opened: BaseGeometry, step_in: float) -> float:
    edge = part.exterior.segmentize(step_in)
    return max(Dot(corner).distance(opened) for corner in edge.coords)
