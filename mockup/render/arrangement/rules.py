"""The rules an arrangement must keep, checked on the true outlines."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from mockup.render.arrangement.model import Arrangement, Item, Ring, ring_of
from mockup.render.arrangement.sprites import DEPTH_IN, GAP_IN

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

    from mockup.geometry.affine import Affine

SLACK_IN = 1e-6  # for the last bits of turned coordinates


def broken(items: Sequence[Item], arrangement: Arrangement) -> tuple[str, ...]:
    """Returns the rules an arrangement breaks, one sentence each; empty when it is sound."""
    by_name = {item.name: item for item in items}
    placed = arrangement.placed
    bodies = [_polygon(by_name[p.name].outline, p.to_table) for p in placed]
    faults: list[str] = []
    frame = arrangement.frame
    for p, body in zip(placed, bodies, strict=True):
        left, top, right, bottom = body.bounds
        if min(left, top, frame.width_in - right, frame.height_in - bottom) < (
            frame.margin_in - 0.01
        ):
            faults.append(f"{p.name} reaches into the margin")
    for low, under in enumerate(placed):
        regions = [_polygon(ring_of(r), under.to_table) for r in by_name[under.name].keep_clear]
        for high in range(low + 1, len(placed)):
            names = f"{placed[high].name} over {under.name}"
            if any(region.intersection(bodies[high]).area > 0 for region in regions):
                faults.append(f"{names}: hides what must stay in sight")
            if not _clear(bodies[low], bodies[high]) and not _earnest(bodies[low], bodies[high]):
                faults.append(f"{names}: neither clear of each other nor overlapping in earnest")
    return tuple(faults)


def _clear(one: BaseGeometry, other: BaseGeometry) -> bool:
    return one.distance(other) >= GAP_IN - SLACK_IN


def _earnest(one: BaseGeometry, other: BaseGeometry) -> bool:
    return not one.intersection(other).buffer(-DEPTH_IN / 2 + SLACK_IN).is_empty


def _polygon(ring: Ring, to_table: Affine) -> BaseGeometry:
    from shapely import make_valid
    from shapely.geometry import Polygon

    a, b, c, d, e, f = to_table
    x, y = ring[:, 0], ring[:, 1]
    turned = Polygon(np.column_stack((a * x + c * y + e, b * x + d * y + f)))
    return turned if turned.is_valid else make_valid(turned)
