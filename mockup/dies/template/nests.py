"""Outlines that lie in one another at an equal distance: bleed, cut and safe zone of one die."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely

from mockup.dies.template.rings import Ring
from mockup.geometry.point import Box
from mockup.trade.tolerances import BLEED, BLEED_METRIC, SAFE_MARGINS
from mockup.units import mm_to_in

EVEN_WITHIN_IN = 0.012  # judgement: sides drawn at one distance differ by rounding alone
USUAL_WITHIN_IN = 0.006  # judgement: tells 1/8 in from 3 mm (0.007 in apart) and no less
SAMPLES = 160  # judgement: every 0.15 in of an A7 card
EVEN_SHARE = 0.9  # judgement: corners of a form of their own stray
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
    """Returns how one outline lies in another where it does so evenly, at a usual distance.

    Evenly is all the way round, or as boxes: a rectangle of bleed round a die of any form.
    """
    gap = even_gap(outer.box, inner.box)
    if gap is None and not _near(outer.box, inner.box):
        return None
    if not outer.ground.buffer(0.001).contains(inner.ground):
        return None
    distance = _true_distance(outer, inner)
    if distance is not None and is_usual(distance) and distance <= SAFE_MAX_IN:
        return Nested(distance, True)
    if gap is not None and is_usual(gap) and gap <= SAFE_MAX_IN:
        return Nested(gap, False)
    return None


def _near(outer: Box, inner: Box) -> bool:
    """Returns whether a box lies in another with no more than a margin to spare on most sides."""
    gaps = sorted(
        (
            inner.left - outer.left,
            inner.top - outer.top,
            outer.right - inner.right,
            outer.bottom - inner.bottom,
        )
    )
    return gaps[0] > 0 and gaps[1] <= SAFE_MAX_IN and gaps[3] <= 4 * SAFE_MAX_IN


def _true_distance(outer: Ring, inner: Ring) -> float | None:
    """Returns the distance one outline keeps from another all the way round; None where it varies.

    From the inner one, whose points all lie at it: corners outside may be round or mitred.
    """
    edge = outer.ground.boundary
    line = inner.flat.exterior
    steps = np.linspace(0.0, 1.0, SAMPLES, endpoint=False)
    places = shapely.line_interpolate_point(line, steps, normalized=True)
    distances = shapely.distance(places, edge)
    usual = float(np.median(distances))
    even = np.abs(distances - usual) <= EVEN_WITHIN_IN
    return usual if even.mean() >= EVEN_SHARE else None


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
