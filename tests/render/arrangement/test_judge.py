"""The benchmark's judge sees what is planted, and the random suites of its first half pass it."""

from __future__ import annotations

import pytest

from benchmarks.arrangement.judge import judged
from benchmarks.arrangement.suites import random_suite
from mockup.geometry.point import Box, Point
from mockup.render.arrangement import Arrangement, Frame, Item, Score, arrange
from mockup.render.arrangement.model import place
from tests.render.arrangement.suites import rectangle

NO_SCORE = Score(*[0.0] * len(Score._fields))


def laid(*spots: tuple[Item, float, float, float]) -> tuple[list[Item], Arrangement]:
    placed = tuple(
        place(item, angle, Point(x, y), layer) for layer, (item, x, y, angle) in enumerate(spots)
    )
    return [item for item, *_ in spots], Arrangement(placed, Frame(12, 10, 0.5), NO_SCORE)


def plain(name: str, width: float, height: float, clear: tuple[Box, ...] = ()) -> Item:
    return Item(name, rectangle(width, height), clear)


@pytest.mark.parametrize(
    ("x", "y", "angle", "tangents"),
    [(6.0, 5.0, 0, 1), (7.9, 5.5, 0, 1), (8.1, 5.5, 0, 1), (6.1, 5.09, 2, 1), (6.3, 5.9, 30, 0)],
    ids=["flush", "sliver", "all but touching", "hardly turned", "turned"],
)
def test_tangents_are_seen(x: float, y: float, angle: float, tangents: int) -> None:
    verdict = judged(*laid((plain("a", 4, 4), 4, 5, 0), (plain("b", 4, 4), x, y, angle)))
    assert len(verdict.tangents) == tangents


def test_tangents_under_a_third_piece_are_not() -> None:
    pair = (plain("a", 4, 4), 4, 5, 0.0), (plain("b", 4, 4), 8.1, 5, 0.0)
    assert judged(*laid(*pair)).tangents
    assert not judged(*laid(*pair, (plain("over", 2, 5), 6.05, 5, 0.0))).tangents


def test_hidden_type_and_fill_are_measured() -> None:
    under = plain("under", 4, 4, (Box(1, 1, 3, 3),))
    verdict = judged(*laid((under, 4, 5, 0), (plain("over", 4, 4), 6, 6, 0)))
    assert len(verdict.hidden) == 1
    assert verdict.fill == pytest.approx((16 + 16 - 2 * 3) / 120)


@pytest.mark.parametrize("seed", [1, 4, 7, 9])
def test_random_suites_pass(seed: int) -> None:
    suite = random_suite(seed)
    verdict = judged(suite.items, arrange(suite.items, suite.aspect))
    assert (verdict.hidden, verdict.tangents, verdict.outside) == ((), (), ())
    assert verdict.fill >= 0.55
