"""Poses: how pieces are turned, and which lies over which, before their places are sought."""

from __future__ import annotations

from collections.abc import Sequence

from mockup.render.arrangement.board import Pose
from mockup.render.arrangement.model import Item, ring_of
from mockup.render.arrangement.search import Chance
from mockup.render.arrangement.sprites import area_of

TURN_DEG = 6.0  # so that no line looks as if it were meant to be straight
LEANING_EVERY = 3  # one start in so many has pieces that lean; the others lie straight
LEANING_MOST = 9  # of many pieces none leans: rows read better
LEANING_SHARE = 0.35
CARDS_MIXED = 0.5  # by how much chance may better a card's claim to lie higher


def posed(
    items: Sequence[Item],
    claims: Sequence[float],
    above: frozenset[tuple[int, int]],
    chance: Chance,
    start: int,
) -> Pose:
    """Returns a pose; `claims` are the items', `above` holds pairs by index, the lower first."""
    order = _order(claims, above, chance)
    leaning = start % LEANING_EVERY == LEANING_EVERY - 1 and 2 < len(items) <= LEANING_MOST
    turns = [_turn(item, chance) if leaning else 0.0 for item in items]
    return Pose(tuple(turns), order)


def _turn(item: Item, chance: Chance) -> float:
    leans, side = chance.share() < LEANING_SHARE, chance.share() < 0.5
    if item.role == "main" or not leans:
        return 0.0
    return TURN_DEG if side else -TURN_DEG


def _order(
    claims: Sequence[float], above: frozenset[tuple[int, int]], chance: Chance
) -> tuple[int, ...]:
    """Returns items bottom to top: envelopes, then cards, those full of type and small ones high.

    Raises ValueError where `above` goes in a circle.
    """
    claim = [each + CARDS_MIXED * chance.share() for each in claims]
    left, order = set(range(len(claims))), list[int]()
    while left:
        free = [index for index in left if not any(h == index and low in left for low, h in above)]
        if not free:
            raise ValueError("what lies above what goes in a circle")
        lowest = min(free, key=lambda index: (claim[index], index))
        order.append(lowest)
        left.remove(lowest)
    return tuple(order)


def claim_of(item: Item) -> float:
    """Returns an item's claim to lie high, which chance may better; the same at every draft."""
    if item.role == "envelope":
        return -1.0
    clear = sum(area_of(ring_of(each)) for each in item.keep_clear)
    box = item.box
    small = 1.0 / (1.0 + box.width * box.height / 12.0)
    return 0.6 * min(1.0, clear / (box.width * box.height)) + small + 0.3 * (item.role == "main")
