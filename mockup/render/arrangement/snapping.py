"""Straight layouts from the grid put exactly in line."""

from __future__ import annotations

from collections.abc import Sequence

from mockup.geometry.point import Point
from mockup.render.arrangement.model import Arrangement, Item, Placed, place
from mockup.render.arrangement.sprites import CELL_IN

WITHIN_IN = 0.55 * CELL_IN  # less than a cell off was meant to be in line


def snapped(items: Sequence[Item], arrangement: Arrangement) -> Arrangement | None:
    """Returns an arrangement with edges and axes that nearly agree in line; None for leaning ones.

    A piece moves by less than a cell, onto a line of one that is larger.
    """
    if len(items) == 1 or any(placed.angle_deg for placed in arrangement.placed):
        return None
    by_name = {placed.name: placed for placed in arrangement.placed}
    done: dict[str, Placed] = {}
    lines_x: list[float] = []
    lines_y: list[float] = []
    largest = sorted(items, key=lambda item: (-item.box.width * item.box.height, item.name))
    for item in largest:
        placed, box = by_name[item.name], item.box
        x = _onto(placed.centre.x, box.width / 2, lines_x)
        y = _onto(placed.centre.y, box.height / 2, lines_y)
        done[item.name] = place(item, 0.0, Point(x, y), placed.layer)
        lines_x += (x - box.width / 2, x, x + box.width / 2)
        lines_y += (y - box.height / 2, y, y + box.height / 2)
    return Arrangement(
        tuple(done[placed.name] for placed in arrangement.placed),
        arrangement.frame,
        arrangement.score,
    )


def _onto(middle: float, half: float, lines: Sequence[float]) -> float:
    """Returns a middle moved so that an edge or the axis lies on the nearest line near it."""
    shifts = [line - (middle + side) for side in (-half, 0.0, half) for line in lines]
    near = [shift for shift in shifts if abs(shift) <= WITHIN_IN]
    return middle + min(near, key=abs) if near else middle
