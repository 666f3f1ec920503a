"""Outlines that lie in one another at an equal distance: bleed, cut and safe zone of one die."""

from __future__ import annotations

from dataclasses import dataclass

from mockup.dies.template.rings import Ring
from mockup.geometry.offset import quadrant_segments
from mockup.geometry.point import Box
from mockup.trade.tolerances import BLEED, BLEED_METRIC, SAFE_MARGINS
from mockup.units import mm_to_in

EVEN_WITHIN_IN = 0.012  # judgement: sides drawn at one distance differ by rounding alone
USUAL_WITHIN_IN = 0.006  # judgement: tells 1/8 in from 3 mm (0.007 in apart) and no less
TRUE_WITHIN_IN = 0.03  # judgement: a corner that is mitred instead of rounded strays as far
# Bleeds and safe margins as printers ask for them; common practice, no source.
USUAL_IN = (
    *(limit.value for limit in (BLEED, BLEED_METRIC, *SAFE_MARGINS)),
    *(1 / 16, 3 / 32, 5 / 32, 3 / 8, 1 / 2),
    *(mm_to_in(length) for length in (1.5, 2, 2.5, 4, 6, 8, 10)),
)
BLEED_MAX_IN = 0.27  # common practice, no source: bleeds are 1/4 in at most
SAFE_MAX_IN = 0.52  # common practice, no source: margins are 1/2 in at most


@dataclass(frozen=True)
class Nested:
    """One outline that lies inside another: how far on each side, whether all the way round."""

    distance_in: float
    true: bool
    """It follows the other round; else only their boxes lie at that distance."""


def nested(outer: Ring, inner: Ring) -> Nested | None:
    """Returns how one outline lies in another where it does so evenly, at a usual distance."""
    distance = even_gap(outer.box, inner.box)
    if distance is None or distance > SAFE_MAX_IN or not is_usual(distance):
        return None
    if not outer.ground.buffer(0.001).contains(inner.ground):
        return None
    segments = quadrant_segments(distance)
    grown = inner.ground.buffer(distance, quad_segs=segments)
    shrunk = outer.ground.buffer(-distance, quad_segs=segments)
    strays = min(
        grown.boundary.hausdorff_distance(outer.ground.boundary),
        shrunk.boundary.hausdorff_distance(inner.ground.boundary) if not shrunk.is_empty else 9.0,
    )
    return Nested(distance, strays <= max(TRUE_WITHIN_IN, 0.45 * distance))


def even_distance(outer: Ring, inner: Ring) -> float | None:
    """Returns how far inside another an outline runs where it follows it round, inches; or None."""
    found = nested(outer, inner)
    return found.distance_in if found is not None and found.true else None


def even_gap(outer: Box, inner: Box) -> float | None:
    """Returns the distance from a box to one inside it where it is the same on all four sides."""
    gaps = (
        inner.left - outer.left,
        inner.top - outer.top,
        outer.right - inner.right,
        outer.bottom - inner.bottom,
    )
    if min(gaps) < 0.02 or max(gaps) - min(gaps) > EVEN_WITHIN_IN:
        return None
    return sum(gaps) / 4


def is_usual(distance_in: float) -> bool:
    """Returns whether bleeds or safe margins are made so wide."""
    return any(abs(distance_in - usual) <= USUAL_WITHIN_IN for usual in USUAL_IN)
