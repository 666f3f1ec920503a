"""The judge: type hidden, tangent edges and fill, measured on the true outlines with shapely.

It shares nothing with the search: no grid, no table, no rule of it. What it calls a tangent is
judged on what is seen: edges under a third piece do not count.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from shapely import LineString, Point, Polygon, affinity, box, unary_union
from shapely.geometry.base import BaseGeometry

from mockup.geometry.point import Box
from mockup.render.arrangement import Arrangement, Item

NEAR_IN = 1 / 8
PARALLEL_DEG = 4.0  # judgement: edges within it seem to run side by side
RUN_IN = 0.25  # judgement: a shorter run is not seen
CORNER_DEG = 30.0
PIECE_IN = 0.1  # edges are judged in parts no longer than this
COUNTS_IN2 = 1e-6


@dataclass(frozen=True)
class Verdict:
    """What a layout does wrong, one sentence each, and the share of the picture under paper."""

    hidden: tuple[str, ...]
    tangents: tuple[str, ...]
    outside: tuple[str, ...]
    fill: float


def judged(items: Sequence[Item], arrangement: Arrangement) -> Verdict:
    """Returns the verdict on an arrangement of items."""
    by_name = {item.name: item for item in items}
    placed = arrangement.placed
    bodies = [_laid(by_name[p.name], by_name[p.name].outline, p) for p in placed]
    frame = arrangement.frame
    picture = box(0, 0, frame.width_in, frame.height_in)
    hidden = [
        f"{placed[high].name} over the type of {placed[low].name}"
        for low in range(len(placed))
        for high in range(low + 1, len(placed))
        for region in by_name[placed[low].name].keep_clear
        if _laid(by_name[placed[low].name], _ring(region), placed[low])
        .intersection(bodies[high])
        .area
        > COUNTS_IN2
    ]
    fill = unary_union(bodies).intersection(picture).area / picture.area
    outside = [p.name for p, body in zip(placed, bodies, strict=True) if not picture.contains(body)]
    return Verdict(tuple(hidden), tuple(_tangents(placed, bodies)), tuple(outside), fill)


def _tangents(placed: Sequence[object], bodies: Sequence[Polygon]) -> list[str]:
    seen = [body.exterior.difference(unary_union(bodies[k + 1 :])) for k, body in enumerate(bodies)]
    found: list[str] = []
    for low in range(len(bodies)):
        for high in range(low + 1, len(bodies)):
            if bodies[low].distance(bodies[high]) >= NEAR_IN:
                continue
            names = f"{placed[high].name} and {placed[low].name}"  # type: ignore[attr-defined]
            if _corner_near(bodies[low], seen[low], seen[high]) or _corner_near(
                bodies[high], seen[high], seen[low]
            ):
                found.append(f"{names}: a corner by an edge")
            elif _run(seen[low], seen[high]) > RUN_IN:
                found.append(f"{names}: edges side by side")
    return found


def _corner_near(body: Polygon, own: BaseGeometry, others: BaseGeometry) -> bool:
    """Returns whether a corner that is seen lies by another's edge that is seen."""
    points = np.array(body.exterior.simplify(0.003).coords[:-1])
    into, away = points - np.roll(points, 1, axis=0), np.roll(points, -1, axis=0) - points
    turned = np.degrees(np.arctan2(away[:, 1], away[:, 0]) - np.arctan2(into[:, 1], into[:, 0]))
    sharp = points[np.abs((turned + 180) % 360 - 180) >= CORNER_DEG]
    return any(
        Point(point).distance(own) < 1e-6 and Point(point).distance(others) < NEAR_IN - 1e-9
        for point in sharp
    )


def _run(one: BaseGeometry, other: BaseGeometry) -> float:
    """Returns for how long one's edges run near and nearly parallel to another's, inches."""
    near = one.intersection(other.buffer(NEAR_IN - 1e-9))
    others = _parts(other.intersection(one.buffer(NEAR_IN)))
    length = 0.0
    for part in _parts(near):
        direction = _direction(part)
        for each in others:
            off = abs(direction - _direction(each)) % 180
            if min(off, 180 - off) < PARALLEL_DEG and part.distance(each) < NEAR_IN:
                length += part.length
                break
    return length


def _parts(line: BaseGeometry) -> list[LineString]:
    if line.is_empty:
        return []
    pieces: list[LineString] = []
    for each in getattr(line, "geoms", [line]):
        if not isinstance(each, LineString):
            continue
        coords = np.array(each.segmentize(PIECE_IN).coords)
        pieces += [LineString(coords[k : k + 2]) for k in range(len(coords) - 1)]
    return pieces


def _direction(part: LineString) -> float:
    (x0, y0), (x1, y1) = part.coords[0], part.coords[-1]
    return float(np.degrees(np.arctan2(y1 - y0, x1 - x0))) % 180


def _ring(region: object) -> object:
    return region.corners() if isinstance(region, Box) else region


def _laid(item: Item, points: object, placed: object) -> Polygon:
    """Returns a ring of an item where it lies, turned by shapely about its box's middle."""
    low, high = item.outline.min(axis=0), item.outline.max(axis=0)
    middle = (low + high) / 2
    turned = affinity.rotate(Polygon(points), placed.angle_deg, origin=tuple(middle))  # type: ignore[attr-defined]
    centre = placed.centre  # type: ignore[attr-defined]
    return affinity.translate(turned, centre.x - middle[0], centre.y - middle[1])
