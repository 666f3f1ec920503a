"""The arrangement of a suite: many layouts tried, the sound ones ranked, the N-th given."""

from __future__ import annotations

import math
from collections.abc import Sequence
from random import Random

from mockup.errors import MockupError
from mockup.geometry.point import Point
from mockup.render.arrangement.model import Arrangement, Frame, Item, place
from mockup.render.arrangement.rules import broken
from mockup.render.arrangement.search import Found, found
from mockup.render.arrangement.sprites import Table, table_for

UPRIGHT_EVERY = 3
STARTS = 4  # layouts sought before ranking; more when more distinct ones are asked for
APART = 0.15  # two layouts are distinct when a piece lies this far elsewhere, in frame sizes
DEG_PER_SIZE = 40.0  # a turn as telling as a shift by one frame size
ROUNDS = 24  # after this many rounds of starts no further distinct layout is expected
ROUNDS_AS_STRICT = 3  # then layouts less far apart count as distinct, and so on


def arrange(items: Sequence[Item], aspect: float, seed: int = 0, nth: int = 1) -> Arrangement:
    """Returns the `nth` best distinct arrangement of items in a picture of a given aspect.

    `aspect` is the picture's width over its height. Inches, table origin at the frame's top left;
    `placed` runs bottom to top. The same arguments give the same answer on every machine.
    Raises ValueError without items or for `nth` below 1, MockupError when there are not that many
    distinct arrangements.
    """
    if not items or nth < 1:
        raise ValueError("an arrangement needs at least one item, and nth counts from 1")
    ordered = sorted(items, key=_setting_order)
    table = table_for(ordered, aspect)
    kept: list[Found] = []
    arrangements: list[Arrangement] = []
    for batch in range(ROUNDS):
        rng = Random(f"{seed}/{batch}")
        apart = APART * 0.7 ** (batch // ROUNDS_AS_STRICT)
        tried = [
            one
            for k in range(STARTS)
            for one in found(table, rng, upright=k % UPRIGHT_EVERY == UPRIGHT_EVERY - 1)
        ]
        for one in sorted(tried, key=lambda each: each.total):
            if any(_distance(table, one, other) < apart for other in kept):
                continue
            arrangement = _told(table, one)
            if broken(ordered, arrangement):
                continue
            kept.append(one)
            arrangements.append(arrangement)
        if len(arrangements) >= nth:
            return arrangements[nth - 1]
    raise MockupError(
        f"arrangement {nth}: these pieces have only {len(arrangements)} distinct arrangements "
        f"in this picture; ask for 1 to {len(arrangements)}"
    )


def _setting_order(item: Item) -> tuple[int, float]:
    box = item.box
    return ("main", "envelope", "card").index(item.role), -box.width * box.height


def _told(table: Table, one: Found) -> Arrangement:
    spots, frame = one.layout.spots, one.frame
    placed = tuple(
        place(
            table.items[index],
            spots[index].angle_deg,
            Point(spots[index].x - frame.left, spots[index].y - frame.top),
            layer,
        )
        for layer, index in enumerate(one.layout.order)
    )
    return Arrangement(placed, Frame(frame.width, frame.height, one.margin), one.score)


def _distance(table: Table, one: Found, other: Found) -> float:
    """Returns how far the piece that differs most lies from its other place, in frame sizes."""
    a, b = one.frame.centre, other.frame.centre
    return max(
        max(
            math.dist((p.x - a.x, p.y - a.y), (q.x - b.x, q.y - b.y)) / table.size,
            abs(p.angle_deg - q.angle_deg) / DEG_PER_SIZE,
        )
        for p, q in zip(one.layout.spots, other.layout.spots, strict=True)
    )
