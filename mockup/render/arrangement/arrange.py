"""The arrangement of a suite: many layouts tried, the sound ones ranked, the N-th given."""

from __future__ import annotations

import math
from collections.abc import Sequence
from random import Random

from mockup.geometry.point import Point
from mockup.render.arrangement.model import Arrangement, Item, place
from mockup.render.arrangement.rules import broken
from mockup.render.arrangement.scoring import frame_around, framed, judged
from mockup.render.arrangement.search import Found, found
from mockup.render.arrangement.sprites import Table, table_for

STARTS = 8  # layouts sought before ranking; more when more distinct ones are asked for
APART = 0.15  # two layouts are distinct when a piece lies this far elsewhere, in frame sizes
ROUNDS = 40  # after this many rounds of starts no further distinct layout is expected


def arrange(items: Sequence[Item], aspect: float, seed: int = 0, nth: int = 1) -> Arrangement:
    """Returns the `nth` best distinct arrangement of items in a picture of a given aspect.

    `aspect` is the picture's width over its height. Inches, table origin at the frame's top left; `placed` runs bottom to top.
    The same arguments give the same answer on every machine. Raises ValueError without items,
    for `nth` below 1 or when there are not that many distinct arrangements.
    """
    if not items or nth < 1:
        raise ValueError("an arrangement needs at least one item, and nth counts from 1")
    ordered = sorted(items, key=_setting_order)
    table = table_for(ordered, aspect)
    kept: list[Found] = []
    arrangements: list[Arrangement] = []
    for batch in range(ROUNDS):
        rng = Random(f"{seed}/{batch}")
        tried = [found(table, rng, upright=k % 3 == 2) for k in range(STARTS)]
        for one in sorted(tried, key=lambda each: each.total):
            if any(_alike(table, one, other) for other in kept):
                continue
            arrangement = _told(table, one)
            if broken(ordered, arrangement):
                continue
            kept.append(one)
            arrangements.append(arrangement)
        if len(arrangements) >= nth:
            return arrangements[nth - 1]
    raise ValueError(f"found only {len(arrangements)} distinct arrangements, not {nth}")


def _setting_order(item: Item) -> tuple[int, float]:
    box = item.box
    return ("main", "envelope", "card").index(item.role), -box.width * box.height


def _told(table: Table, one: Found) -> Arrangement:
    frame, margin = frame_around(table, one.layout)
    placed = tuple(
        place(
            table.items[index],
            one.layout.spots[index].angle_deg,
            Point(
                one.layout.spots[index].x - frame.left,
                one.layout.spots[index].y - frame.top,
            ),
            layer,
        )
        for layer, index in enumerate(one.layout.order)
    )
    return Arrangement(placed, framed(frame, margin), judged(table, one.layout, frame, margin))


def _alike(table: Table, one: Found, other: Found) -> bool:
    a, b = frame_around(table, one.layout)[0].centre, frame_around(table, other.layout)[0].centre
    return all(
        math.dist((p.x - a.x, p.y - a.y), (q.x - b.x, q.y - b.y)) < APART * table.size
        for p, q in zip(one.layout.spots, other.layout.spots, strict=True)
    )
