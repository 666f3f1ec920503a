"""True offsets of an outline: bleed outward, safe zone inward, by distance and never by scaling."""

from __future__ import annotations

import math

from shapely.geometry import MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

from mockup.geometry.flatten import TOLERANCE_IN, polygon
from mockup.geometry.outline import Shape


def offset(shape: Shape, distance_in: float) -> list[Polygon]:
    """Returns the polygons at `distance_in` outside (positive) or inside (negative) a shape.

    Corners are rounded outward, as a distance is. An inward offset may fall apart into several
    polygons, or leave none.
    """
    grown = polygon(shape).buffer(distance_in, quad_segs=quadrant_segments(abs(distance_in)))
    return polygons_of(grown)


def polygons_of(geometry: BaseGeometry) -> list[Polygon]:
    """Returns the polygons of a shapely geometry, empty ones and lower dimensions left out."""
    if isinstance(geometry, Polygon):
        return [] if geometry.is_empty else [geometry]
    if isinstance(geometry, MultiPolygon):
        return list(geometry.geoms)
    parts = getattr(geometry, "geoms", [])
    return [part for part in parts if isinstance(part, Polygon) and not part.is_empty]


def quadrant_segments(radius_in: float, tolerance_in: float = TOLERANCE_IN) -> int:
    """Returns how many chords a quarter circle needs to stay within `tolerance_in` of it."""
    if radius_in <= tolerance_in:
        return 2
    return max(2, math.ceil(math.pi / 4 / math.acos(1 - tolerance_in / radius_in)))
