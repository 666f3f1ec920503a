"""Bleed of single shapes: straight ends between cut and bleed's end, also over other art."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from mockup.geometry.point import Box, Point
from mockup.reading.die_zones import REACHED_IN, DieZones
from mockup.reading.part import Part, densified
from mockup.reading.parts import Parts
from mockup.reading.sight import Sight

# Judgement: an end this near the cut was meant to reach it; the same by picture.
JUST_INSIDE_IN = 0.02
# Judgement: sine of the angle between an end and the cut, below which it runs along it.
PARALLEL = 0.08
SHARE = 0.5  # judgement: share of a shape's width along the cut that has to end so
END_SHARE = 0.8  # judgement: of a shape's whole width, of which its end is the better part
LONG_IN = 0.2  # judgement: straight sides of leaves and letters are shorter
SAMPLE_IN = 0.01  # judgement: three pixels at 300 to the inch
SEEN = 12.0  # judgement: 255ths; a step of less is not seen at the edge of a card
WIDEST_END_IN = 0.3  # judgement: an end so wide is one whatever the width of its shape
SIMPLE_POINTS = 16  # judgement: bars and polygons have fewer points, drawings more
CAP_WIDTHS = 1.5  # judgement: the end of a stroke is as long as the pen is wide, its sides longer


@dataclass(frozen=True)
class ShortBleed:
    """A stretch of the cut where art ends too soon: how far beyond the cut it goes, negative where
    it stops before it; where on the cut; where it ends; how long the stretch is. Inches."""

    reach_in: float
    at: Point
    end: Point
    along_in: float


def short_edges(parts: Parts, zones: DieZones, sight: Sight) -> dict[int, ShortBleed]:
    """Returns which shapes, drawn as paths or placed as images, end along the cut too soon."""
    found: dict[int, ShortBleed] = {}
    for k, part in enumerate(parts.all):
        if part.place not in ("crossing", "bleeding") or part.is_type:
            continue
        short = _short_end(part, zones, sight)
        if short is None or k in parts.lettered or k in parts.texture:
            continue
        if k not in parts.repeated:
            found[k] = short
    return found


def is_repeated(parts: Parts, stretch: ShortBleed) -> bool:
    """Returns whether a stretch ends at the edge of a shape that is repeated over the page: such
    stripes and squares end where they end."""
    return any(_on_edge(parts.all[k].box, stretch.end) for k in parts.repeated)


def _on_edge(box: Box, point: Point) -> bool:
    around = box.grown(0.01)
    inside = around.left < point.x < around.right and around.top < point.y < around.bottom
    edges = (
        abs(point.x - box.left), abs(point.x - box.right),
        abs(point.y - box.top), abs(point.y - box.bottom),
    )  # fmt: skip
    return inside and min(edges) < 0.01


def _short_end(part: Part, zones: DieZones, sight: Sight) -> ShortBleed | None:
    """Returns the straight end of one shape that runs along the cut short of the bleed, if any.

    Of intricate shapes that bleed somewhere only long straight sides are looked at.
    """
    only_long = part.place == "bleeding" and len(part.ring) > SIMPLE_POINTS
    if only_long and not _has_long_side(part):
        return None
    ring = _outline(part)
    if ring is None:
        return None
    middles, directions, lengths = _segments(ring, _ends(ring, part, only_long))
    if not len(middles):
        return None
    signed = zones.signed(middles)
    close = (signed < JUST_INSIDE_IN) & (signed > -(zones.bleed_in - REACHED_IN))
    middles, directions, lengths = middles[close], directions[close], lengths[close]
    if not len(middles):
        return None
    outward = _outward(middles, zones)
    sine = np.abs((directions * outward).sum(axis=1))
    flat = (sine < PARALLEL) & _faces_out(ring, middles, outward)
    if not flat.any() or lengths[flat].sum() < _least_length(part, zones, outward[flat]):
        return None
    if not _changes(middles[flat], outward[flat], sight):
        return None
    return _nearest_end(middles[flat], signed[close][flat], outward[flat], lengths[flat])


def _ends(ring: NDArray[np.float64], part: Part, only_long: bool) -> NDArray[np.bool_]:
    """Returns which sides of an outline are ends: the long ones of a shape, the caps of a line."""
    steps = np.hypot(*np.diff(ring, axis=0).T)
    kept = steps > (LONG_IN if only_long else 1e-9)
    if part.painted.pen is not None:
        kept &= steps < CAP_WIDTHS * part.painted.pen.width_in
    return kept


def _nearest_end(
    middles: NDArray[np.float64],
    signed: NDArray[np.float64],
    outward: NDArray[np.float64],
    lengths: NDArray[np.float64],
) -> ShortBleed:
    nearest = int(np.argmax(signed))
    end, reach = middles[nearest], -float(signed[nearest])
    at = end - reach * outward[nearest]
    return ShortBleed(
        reach, Point(float(at[0]), float(at[1])), Point(float(end[0]), float(end[1])),
        float(lengths.sum()),
    )  # fmt: skip


def _has_long_side(part: Part) -> bool:
    x, y = part.ring.T
    closing = np.hypot(x[0] - x[-1], y[0] - y[-1])
    return bool(max(np.hypot(np.diff(x), np.diff(y)).max(), closing) > LONG_IN)


def _outline(part: Part) -> NDArray[np.float64] | None:
    if part.painted.pen is None:
        return np.vstack([part.ring, part.ring[:1]]) if len(part.ring) > 2 else None
    area = part.area()
    return np.asarray(area.exterior.coords) if isinstance(area, Polygon) else None


def _segments(
    ring: NDArray[np.float64], kept: NDArray[np.bool_]
) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    """Returns the middles, directions and lengths of short pieces of some of a ring's sides."""
    pieces = [densified(np.stack([ring[k], ring[k + 1]]), SAMPLE_IN) for k in np.flatnonzero(kept)]
    if not pieces:
        empty = np.empty((0, 2))
        return empty, empty, np.empty(0)
    middles = np.concatenate([(p[:-1] + p[1:]) / 2 for p in pieces])
    across = np.concatenate([np.diff(p, axis=0) for p in pieces])
    lengths = np.hypot(*across.T)
    return middles, across / np.maximum(lengths, 1e-12)[:, None], lengths


def _outward(points: NDArray[np.float64], zones: DieZones) -> NDArray[np.float64]:
    """Returns the unit directions away from the card, square to the cut, at points near it."""
    outer = zones.cut.exterior
    places = shapely.line_locate_point(outer, shapely.points(points))
    ahead = shapely.line_interpolate_point(outer, (places + 0.002) % outer.length)
    behind = shapely.line_interpolate_point(outer, (places - 0.002) % outer.length)
    along = shapely.get_coordinates(ahead) - shapely.get_coordinates(behind)
    along /= np.maximum(np.hypot(*along.T), 1e-12)[:, None]
    normal = np.stack([along[:, 1], -along[:, 0]], axis=1)
    on_cut = shapely.get_coordinates(shapely.line_interpolate_point(outer, places))
    tried = on_cut + 0.001 * normal
    inside = shapely.contains_xy(zones.cut, tried[:, 0], tried[:, 1])
    return np.where(inside[:, None], -normal, normal)


def _faces_out(
    ring: NDArray[np.float64], middles: NDArray[np.float64], outward: NDArray[np.float64]
) -> NDArray[np.bool_]:
    area = Polygon(ring)
    area = area if area.is_valid else area.buffer(0)
    inner, outer = middles - 0.003 * outward, middles + 0.003 * outward
    ink_inside = shapely.contains_xy(area, inner[:, 0], inner[:, 1])
    return ink_inside & ~shapely.contains_xy(area, outer[:, 0], outer[:, 1])


def _least_length(part: Part, zones: DieZones, outward: NDArray[np.float64]) -> float:
    """Returns how long an end has to be, inches: half of what of the shape lies on the cut, or the
    better part of its width there; a short side of a star that comes to lie so is no end."""
    if part.place == "bleeding" and len(part.ring) > SIMPLE_POINTS:
        return LONG_IN
    crossing = part.area().intersection(zones.edge)
    pieces = [piece.length for piece in getattr(crossing, "geoms", [crossing]) if piece.length > 0]
    across, down = np.abs(outward).mean(axis=0)
    wide = part.box.height if across > down else part.box.width
    own = END_SHARE * wide if part.painted.pen is None else 0.0
    return max(min(max(SHARE * min(pieces, default=0.0), own), WIDEST_END_IN), 0.002)


def _changes(middles: NDArray[np.float64], outward: NDArray[np.float64], sight: Sight) -> bool:
    """Returns whether the end is seen: the colour differs on its two sides."""
    step = 2 / sight.view.ppi
    inside = sight.colours_at(middles - step * outward)
    outside = sight.colours_at(middles + step * outward)
    return bool(np.median(np.abs(inside - outside).max(axis=1)) > SEEN)
