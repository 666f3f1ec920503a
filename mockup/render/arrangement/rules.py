"""The rules an arrangement must keep, checked on the true outlines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from mockup.render.arrangement.cells import corners, sampled, thinned
from mockup.render.arrangement.model import Arrangement, Frame, Item, Placed, Ring, ring_of

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

    from mockup.geometry.affine import Affine

GAP_IN = 0.25  # pieces that do not overlap keep at least this distance
DEPTH_IN = 0.25  # pieces that overlap do so by at least this
TANGENT_IN = 1 / 8  # lines of two pieces that come nearer, side by side or by a corner, look wrong
PARALLEL_DEG = 4.0  # less between two lines and they run side by side
RUN_IN = 0.2  # a shorter run side by side is not seen; judgement
CORNER_DEG = 30.0
STEP_IN = 0.05
SLACK_IN = 1e-6  # for the last bits of turned coordinates


@dataclass(frozen=True)
class _Body:
    """A piece where it lies: its outline, its corners, points along it with their directions."""

    placed: Placed
    shape: BaseGeometry
    corners: Ring
    points: Ring
    directions: Ring
    clear: tuple[BaseGeometry, ...]


def broken(items: Sequence[Item], arrangement: Arrangement) -> tuple[str, ...]:
    """Returns the rules an arrangement breaks, one sentence each; empty when it is sound."""
    return tuple(faults(items, arrangement.placed, arrangement.frame))


def faults(items: Sequence[Item], placed: Sequence[Placed], frame: Frame) -> Iterator[str]:
    """Yields the rules that pieces in a frame break, as they are found."""
    by_name = {item.name: item for item in items}
    bodies = [_body(by_name[each.name], each) for each in placed]
    for body in bodies:
        left, top, right, bottom = body.shape.bounds
        room = min(left, top, frame.width_in - right, frame.height_in - bottom)
        if room < frame.margin_in - 0.01:
            yield f"{body.placed.name} reaches into the margin"
    for low, under in enumerate(bodies):
        for over in bodies[low + 1 :]:
            yield from _pair(under, over)


def _pair(under: _Body, over: _Body) -> Iterator[str]:
    distance = under.shape.distance(over.shape)
    if distance >= GAP_IN - SLACK_IN:
        return
    names = f"{over.placed.name} over {under.placed.name}"
    if any(region.intersection(over.shape).area > 0 for region in under.clear):
        yield f"{names}: hides what must stay in sight"
    overlap = under.shape.intersection(over.shape)
    if overlap.buffer(-DEPTH_IN / 2 + SLACK_IN).is_empty:
        yield f"{names}: neither clear of each other nor overlapping in earnest"
    elif _tangent(under, over):
        yield f"{names}: lines run or end too near each other"


def _tangent(one: _Body, other: _Body) -> bool:
    near = TANGENT_IN - SLACK_IN
    if _nearest(one.corners, other.points) < near or _nearest(other.corners, one.points) < near:
        return True
    mine, theirs = _within_reach(one, other), _within_reach(other, one)
    apart = np.hypot(
        one.points[mine, None, 0] - other.points[None, theirs, 0],
        one.points[mine, None, 1] - other.points[None, theirs, 1],
    )
    turned = np.abs(one.directions[mine, None] - other.directions[None, theirs])
    side_by_side = (apart < near) & (np.minimum(turned, 180.0 - turned) < PARALLEL_DEG)
    return bool(side_by_side.any(axis=1).sum() * STEP_IN > RUN_IN)


def _within_reach(one: _Body, other: _Body) -> NDArray[np.int64]:
    """Returns which points of one lie in the box around the other, or near it."""
    left, top, right, bottom = other.shape.bounds
    x, y = one.points[:, 0], one.points[:, 1]
    return np.flatnonzero(
        (x > left - TANGENT_IN)
        & (x < right + TANGENT_IN)
        & (y > top - TANGENT_IN)
        & (y < bottom + TANGENT_IN)
    )


def _nearest(some: Ring, others: Ring) -> float:
    if not len(some):
        return np.inf
    return float(
        np.hypot(some[:, None, 0] - others[None, :, 0], some[:, None, 1] - others[None, :, 1]).min()
    )


def _body(item: Item, placed: Placed) -> _Body:
    outline = mapped(item.outline, placed.to_table)
    thin = thinned(outline, 0.04)
    points, directions = sampled(thin, STEP_IN)
    clear = tuple(_polygon(mapped(ring_of(each), placed.to_table)) for each in item.keep_clear)
    return _Body(placed, _polygon(outline), corners(thin, CORNER_DEG), points, directions, clear)


def mapped(ring: Ring, to_table: Affine) -> Ring:
    """Returns a ring put on the table."""
    a, b, c, d, e, f = to_table
    x, y = ring[:, 0], ring[:, 1]
    return np.column_stack((a * x + c * y + e, b * x + d * y + f))


def _polygon(ring: Ring) -> BaseGeometry:
    from shapely import make_valid
    from shapely.geometry import Polygon

    shape = Polygon(ring)
    return shape if shape.is_valid else make_valid(shape)
