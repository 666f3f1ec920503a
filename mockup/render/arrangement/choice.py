"""The arrangement of a suite: many layouts tried, the sound ones ranked, the N-th given."""

from __future__ import annotations

import math
from collections.abc import Sequence
from random import Random

from mockup.geometry.point import Point
from mockup.render.arrangement.model import Arrangement, Frame, Item, place
from mockup.render.arrangement.rules import broken
from mockup.render.arrangement.search import Found, found, in_rows
from mockup.render.arrangement.sprites import Table, table_for

STARTS = 4  # layouts sought in a round, at least; more rounds when more are asked for
SETTINGS = 18  # small suites are quickly tried: more starts, so many pieces set down in a round
UPRIGHT_EVERY = 3  # one start in so many is laid straight and in line
BLEMISH = 0.05  # of a head or a lining hidden; not given while others can be had
APART = 0.15  # two layouts are distinct when a piece lies this far elsewhere, in frame sizes
DEG_PER_SIZE = 80.0  # a turn as telling as a shift by one frame size
ROUNDS = 16  # after this many rounds of starts no further distinct layout is expected
ROUNDS_AS_STRICT = 2  # then layouts less far apart count as distinct, and so on


def arrange(items: Sequence[Item], aspect: float, seed: int = 0, nth: int = 1) -> Arrangement:
    """Returns the `nth` best distinct arrangement of items in a picture of a given aspect.

    `aspect` is the picture's width over its height. Inches, table origin at the frame's top left;
    `placed` runs bottom to top. The same arguments give the same answer on every machine.
    Raises ValueError without items, for `nth` below 1 and when there are fewer arrangements.
    """
    if not items or nth < 1:
        raise ValueError("an arrangement needs at least one item, and nth counts from 1")
    ordered = sorted(items, key=_setting_order)
    table = table_for(ordered, aspect)
    starts = max(STARTS, SETTINGS // len(ordered))
    kept: list[Found] = []
    arrangements: list[Arrangement] = []
    for batch in range(ROUNDS):
        rng = Random(f"{seed}/{batch}")
        apart = APART * 0.6 ** (batch // ROUNDS_AS_STRICT)
        tried = [found(table, rng, upright=k % UPRIGHT_EVERY == 2) for k in range(starts)]
        ranked = sorted(tried, key=lambda each: each.total)
        fine = [one for one in ranked if not _blemished(one)]
        strict = batch < ROUNDS_AS_STRICT and (fine or kept)
        for one in fine if strict else ranked:
            if any(_distance(table, one, other) < apart for other in kept):
                continue
            arrangement = _told(table, one)
            if not broken(ordered, arrangement):
                kept.append(one)
                arrangements.append(arrangement)
        if batch == ROUNDS_AS_STRICT and not kept:
            arrangements.append(_told(table, in_rows(table)))
        if len(arrangements) >= nth:
            return arrangements[nth - 1]
    raise ValueError(
        f"these pieces have only {len(arrangements)} distinct arrangements here, not {nth}"
    )


def _setting_order(item: Item) -> tuple[int, float]:
    box = item.box
    return ("main", "envelope", "card").index(item.role), -box.width * box.height


def _blemished(one: Found) -> bool:
    return one.score.touching > 0 or one.score.heads > BLEMISH or one.score.liner > BLEMISH


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
