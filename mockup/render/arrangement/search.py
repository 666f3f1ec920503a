"""Layouts found: pieces set down one by one, then moved, turned and lifted until nothing gains.

All chance comes from one seeded `random.Random`, all areas are counted bits: the same items,
picture and seed give the same layout on every machine.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from random import Random

from mockup.geometry.point import Box
from mockup.render.arrangement.model import WEIGHTS, Score
from mockup.render.arrangement.scoring import (
    Layout,
    Spot,
    Stack,
    frame_around,
    judged,
    judged_below,
    layout_of,
    looked_at,
)
from mockup.render.arrangement.sprites import GAP_IN, Table

DRAFTS = 6  # layouts set down, of which the best is bettered
TRIES = 30  # places tried for each piece set down
MOVES = 300  # moves tried for each piece of the best draft
MOST_MOVES = 2400  # for all pieces together
START_SLACK = 0.25  # how much worse a move may be at first, in units of the total score
REACH = 0.14  # of a shift at first, in frame sizes
STEP_DEG = 0.5
MAIN_DEG = 3.0
LEAST_DEG, MOST_DEG = 1.5, 7.0


Spots = tuple[Spot, ...]
Order = tuple[int, ...]


@dataclass(frozen=True)
class Found:
    """A layout, the frame it asks for on the same table, and its score there."""

    layout: Layout
    frame: Box
    margin: float
    score: Score
    total: float


def found(table: Table, rng: Random, upright: bool) -> Found:
    """Returns one good layout; `upright` lays all pieces straight and in line."""
    drafts = [_set_down(table, rng, upright) for _ in range(DRAFTS)]
    return _bettered(table, min(drafts, key=lambda draft: draft.total), rng, upright)


def in_rows(table: Table) -> Found:
    """Returns all pieces side by side, upright, none over another: what always can be done."""
    order = range(len(table.items))
    layouts = [layout_of(table, _rows(table, length + 1), order) for length in order]
    choices = [_judged(table, layout, looked_at(layout)) for layout in layouts]
    return min(choices, key=lambda one: one.frame.width)


def _rows(table: Table, length: int) -> list[Spot]:
    """Returns spots in rows of `length` pieces, each row centred."""
    gap, top = GAP_IN * 1.5, 0.0
    spots: list[Spot] = []
    for first in range(0, len(table.items), length):
        boxes = [item.box for item in table.items[first : first + length]]
        height = max(box.height for box in boxes)
        left = -(sum(box.width for box in boxes) + gap * (len(boxes) - 1)) / 2
        for box in boxes:
            spots.append(Spot(left + box.width / 2, top + height / 2, 0.0))
            left += box.width + gap
        top += height + gap
    x, y = table.width / 2, (table.height - top) / 2
    return [Spot(spot.x + x, spot.y + y, 0.0) for spot in spots]


def _bettered(table: Table, draft: Found, rng: Random, upright: bool) -> Found:
    best = here = draft
    count = min(MOVES * len(table.items), MOST_MOVES) if len(table.items) > 1 else 0
    for step in range(count):
        left = 1 - step / count
        spots, order = _moved(table, here.layout, rng, left, upright)
        limit = here.total + START_SLACK * left * left * left
        there = _better(table, _laid(table, spots, order, here.layout), limit)
        if there:
            here = there
            if here.total < best.total:
                best = here
    return best


def _laid(table: Table, spots: Spots, order: Order, old: Layout) -> Layout:
    """Returns a layout; regions of pieces that stay are taken over from an old one."""
    sprites = tuple(
        old.sprites[index]
        if index < len(old.spots) and old.spots[index] is spot
        else table.placed(index, spot.angle_deg, spot.x, spot.y)
        for index, spot in enumerate(spots)
    )
    return Layout(spots, order, sprites)


def _better(table: Table, layout: Layout, limit: float) -> Found | None:
    """Returns a layout judged, or None where its total is not below a limit."""
    stack = looked_at(layout)
    hidden = WEIGHTS.hidden * stack.hidden * table.cell**2
    if hidden + WEIGHTS.heads * sum(stack.head_covered) >= limit:
        return None  # other faults can only add to it
    pieces = layout.extents()
    frame, margin = frame_around(table, pieces, stack)
    score = judged_below(limit, table, layout, stack, pieces, frame, margin)
    one = _found(layout, frame, margin, score) if score else None
    return one if one and one.total < limit else None


def _judged(table: Table, layout: Layout, stack: Stack) -> Found:
    pieces = layout.extents()
    frame, margin = frame_around(table, pieces, stack)
    return _found(layout, frame, margin, judged(table, layout, stack, pieces, frame, margin))


def _found(layout: Layout, frame: Box, margin: float, score: Score) -> Found:
    return Found(layout, frame, margin, score, round(score.total, 9))


def _set_down(table: Table, rng: Random, upright: bool) -> Found:
    """Returns a layout made by setting pieces down in turn, each at the best place tried."""
    spot = Spot(table.width / 2, table.height / 2, _angle(table, 0, rng, upright))
    layout = layout_of(table, (spot,), (0,))
    best = _judged(_part(table, 1), layout, looked_at(layout))
    for index in range(1, len(table.items)):
        part, here = _part(table, index + 1), best.layout
        first = _added(part, here, index, rng, upright)
        best = _judged(part, first, looked_at(first))
        for _ in range(TRIES - 1):
            layout = _added(part, here, index, rng, upright)
            best = _better(part, layout, best.total) or best
    return best


def _part(table: Table, count: int) -> Table:
    """Returns the same table for the first items only."""
    return replace(table, items=table.items[:count], areas=table.areas[:count])


def _added(table: Table, here: Layout, index: int, rng: Random, upright: bool) -> Layout:
    spot = _beside(table, here, index, rng, upright)
    order = _inserted(table, list(here.order), index, rng)
    return _laid(table, (*here.spots, spot), order, here)


def _inserted(table: Table, order: list[int], index: int, rng: Random) -> Order:
    """Returns an order with an item put in somewhere: envelopes lie lowest, cards on them."""
    envelopes = sum(table.items[other].role == "envelope" for other in order)
    if table.items[index].role == "envelope":
        order.insert(rng.randint(0, envelopes), index)
    else:
        order.insert(rng.randint(envelopes, len(order)), index)
    return tuple(order)


def _angle(table: Table, index: int, rng: Random, upright: bool) -> float:
    if upright:
        return 0.0
    if table.items[index].role == "main":
        return rng.randint(-int(MAIN_DEG / STEP_DEG), int(MAIN_DEG / STEP_DEG)) * STEP_DEG
    size = rng.randint(int(LEAST_DEG / STEP_DEG), int(MOST_DEG / STEP_DEG)) * STEP_DEG
    return size if rng.random() < 0.5 else -size


def _beside(table: Table, layout: Layout, index: int, rng: Random, upright: bool) -> Spot:
    """Returns a spot where an item overlaps or neighbours one that lies already."""
    other = rng.choice([k for k in range(len(layout.spots)) if k != index])
    angle = _angle(table, index, rng, upright)
    there, mine = layout.spots[other], table.sprite(index, angle).extent
    theirs = layout.sprites[other].extent
    reach_x = (mine[2] - mine[0] + theirs[2] - theirs[0]) / 2
    reach_y = (mine[3] - mine[1] + theirs[3] - theirs[1]) / 2
    main, side = rng.uniform(0.55, 1.1), rng.uniform(-0.9, 0.9)
    main = main if rng.random() < 0.5 else -main
    a, b = (main, side) if rng.random() < 0.5 else (side, main)
    spot = Spot(there.x + a * reach_x, there.y + b * reach_y, angle)
    if upright:
        spot = _in_line(table, layout, index, spot, other, rng)
    return _within(table, index, spot)


def _in_line(table: Table, layout: Layout, index: int, spot: Spot, other: int, rng: Random) -> Spot:
    """Returns a spot with an edge or axis, in each direction, in line with another piece's."""
    mine, theirs = table.sprite(index, spot.angle_deg).extent, layout.sprites[other].extent
    there = layout.spots[other]
    xs = _stops(there.x, (mine[0], mine[2]), (theirs[0], theirs[2]))
    ys = _stops(there.y, (mine[1], mine[3]), (theirs[1], theirs[3]))
    x = min(xs, key=lambda value: abs(value - spot.x))
    y = min(ys, key=lambda value: abs(value - spot.y))
    which = rng.randrange(3)  # one direction or both
    return Spot(x if which != 1 else spot.x, y if which != 0 else spot.y, spot.angle_deg)


def _stops(
    there: float, mine: tuple[float, float], theirs: tuple[float, float]
) -> tuple[float, ...]:
    low, high = there + theirs[0], there + theirs[1]
    gap = GAP_IN * 1.5
    return (
        low - mine[0],
        high - mine[1],
        (low + high) / 2 - (mine[0] + mine[1]) / 2,
        low - gap - mine[1],
        high + gap - mine[0],
    )


def _within(table: Table, index: int, spot: Spot) -> Spot:
    left, top, right, bottom = table.sprite(index, spot.angle_deg).extent
    x = min(max(spot.x, -left), table.width - right)
    y = min(max(spot.y, -top), table.height - bottom)
    return Spot(x, y, spot.angle_deg)


def _moved(
    table: Table, layout: Layout, rng: Random, left: float, upright: bool
) -> tuple[Spots, Order]:
    """Returns a neighbour: one piece shifted, turned, taken elsewhere, exchanged or re-layered."""
    spots, order = list(layout.spots), list(layout.order)
    index, kind = rng.randrange(len(spots)), rng.random()
    spot = spots[index]
    if kind < 0.5 or (kind < 0.65 and upright):
        spots[index] = _shifted(table, layout, index, rng, left, upright)
    elif kind < 0.65:
        spots[index] = _within(
            table, index, replace(spot, angle_deg=_angle(table, index, rng, upright))
        )
    elif kind < 0.8:
        spots[index] = _beside(table, layout, index, rng, upright)
    elif kind < 0.9:
        other = rng.randrange(len(spots))
        there = spots[other]
        spots[index] = _within(table, index, replace(spot, x=there.x, y=there.y))
        spots[other] = _within(table, other, replace(there, x=spot.x, y=spot.y))
    else:
        order.remove(index)
        return layout.spots, _inserted(table, order, index, rng)
    return tuple(spots), layout.order


def _shifted(
    table: Table, layout: Layout, index: int, rng: Random, left: float, upright: bool
) -> Spot:
    spot, reach = layout.spots[index], (0.02 + REACH * left) * table.size
    x, y = spot.x + rng.uniform(-reach, reach), spot.y + rng.uniform(-reach, reach)
    spot = replace(spot, x=x, y=y)
    if upright:
        other = rng.choice([k for k in range(len(layout.spots)) if k != index])
        spot = _in_line(table, layout, index, spot, other, rng)
    return _within(table, index, spot)
