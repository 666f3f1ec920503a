"""The rules on true outlines, each broken once and once just kept."""

import pytest

from mockup.geometry.point import Box, Point
from mockup.render.arrangement import Arrangement, Frame, Item, Score
from mockup.render.arrangement.model import place
from mockup.render.arrangement.rules import broken
from tests.render.arrangement.suites import rectangle

FRAME = Frame(12, 10, 0.5)
NO_SCORE = Score(*[0.0] * len(Score._fields))


def plain(name: str, width: float, height: float, clear: tuple[Box, ...] = ()) -> Item:
    return Item(name, rectangle(width, height), clear)


def told(*spots: tuple[Item, float, float, float]) -> tuple[str, ...]:
    placed = tuple(
        place(item, angle, Point(x, y), layer) for layer, (item, x, y, angle) in enumerate(spots)
    )
    return broken([item for item, *_ in spots], Arrangement(placed, FRAME, NO_SCORE))


def test_hidden_type_is_told_and_only_under_what_lies_higher() -> None:
    under = plain("under", 4, 4, (Box(0, 0, 4, 4),))
    over = plain("over", 4, 4)
    assert "hides" in told((under, 4, 5, 0), (over, 7, 5.5, 0))[0]
    assert told((over, 7, 5.5, 0), (under, 4, 5, 0)) == ()


@pytest.mark.parametrize(
    ("shift", "faults"),
    [(3.5, 0), (4.3, 0), (3.9, 1), (4.1, 1)],
    ids=["overlap of half an inch", "clear gap", "sliver", "all but touching"],
)
def test_pieces_lie_clear_or_overlap_in_earnest(shift: float, faults: int) -> None:
    assert len(told((plain("a", 4, 4), 3, 5, 0), (plain("b", 4, 5), 3 + shift, 5, 0))) == faults


@pytest.mark.parametrize(
    ("x", "y", "angle", "fault"),
    [
        (6.0, 5.0, 0.0, True),
        (6.0, 5.1, 0.0, True),
        (6.0, 5.3, 0.0, False),
        (6.0, 5.1, 2.0, True),
        (6.3, 5.9, 30.0, False),
    ],
    ids=["flush", "a tenth off", "well off", "hardly turned", "turned"],
)
def test_lines_that_run_side_by_side(x: float, y: float, angle: float, fault: bool) -> None:
    lines = told((plain("a", 4, 4), 4, 5, 0), (plain("b", 4, 4), x, y, angle))
    assert bool(lines) == fault
    assert all("too near" in line for line in lines)


def test_a_corner_just_inside_another_piece() -> None:
    small = plain("small", 2, 2)
    assert "too near" in told((plain("a", 6, 6), 6, 5, 0), (small, 9 - 2**0.5 - 0.06, 5, 45.0))[0]
    assert told((plain("a", 6, 6), 6, 5, 0), (small, 6, 5, 45.0)) == ()


def test_what_reaches_into_the_margin() -> None:
    assert told((plain("a", 4, 4), 2.4, 5, 0)) == ("a reaches into the margin",)
