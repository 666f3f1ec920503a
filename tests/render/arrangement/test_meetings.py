"""Tables of meetings against shapely and by hand: overlap, what is hidden, lines too near."""

from dataclasses import replace

import numpy as np
import pytest
from shapely import affinity
from shapely.geometry import Polygon

from mockup.render.arrangement.meetings import NEAR_LINES, Meetings, canvas_for
from mockup.render.arrangement.sprites import CELL_IN
from tests.render.arrangement.suites import arch, card, envelope

ITEMS = [arch(), envelope("outer"), card("details", 4.25, 5.5, 0.75)]


@pytest.fixture(scope="module")
def meetings() -> Meetings:
    return Meetings(ITEMS, canvas_for(ITEMS))


def at(table: np.ndarray, x_in: float, y_in: float) -> float:
    rows, columns = table.shape
    row, column = rows // 2 + round(y_in / CELL_IN), columns // 2 + round(x_in / CELL_IN)
    return float(table[row, column]) if 0 <= row < rows and 0 <= column < columns else 0.0


@pytest.mark.parametrize("place", [(0, 0), (3, 0), (-2.5, 4), (0.5, -6), (6, 7)])
@pytest.mark.parametrize("angle", [0.0, 6.0])
def test_overlap_is_the_area_of_the_intersection(
    meetings: Meetings, place: tuple[float, float], angle: float
) -> None:
    overlap, _ = meetings.near(0, 0.0, 1, angle)
    one, other = (affinity.translate(Polygon(i.outline), *-middle(i)) for i in ITEMS[:2])
    other = affinity.rotate(other, angle, origin=(0, 0))
    exact = affinity.translate(one, *place).intersection(other).area
    assert at(overlap, *place) * CELL_IN**2 == pytest.approx(exact, abs=0.35)


def middle(item: object) -> np.ndarray:
    return np.array(item.box.centre)  # type: ignore[attr-defined]


def test_a_table_seen_from_the_other_piece_is_turned_about(meetings: Meetings) -> None:
    there, back = meetings.near(0, 0.0, 2, 0.0), meetings.near(2, 0.0, 0, 0.0)
    for one, other in zip(there, back, strict=True):
        assert (one == other[::-1, ::-1]).all()


@pytest.mark.parametrize(
    ("x", "y", "near"),
    [(4.375, 0, True), (4.75, 1, False), (3.0, 0, True), (3.0, 1.0, False), (4.0, 1.0, True)],
    ids=["gap of an eighth", "clear", "flush", "overlapping", "sliver"],
)
def test_lines_side_by_side_are_too_near(x: float, y: float, near: bool) -> None:
    pair = [card("a", 4.25, 5.5, 0.2), card("b", 4.25, 5.5, 0.2)]
    _, close = Meetings(pair, canvas_for(pair)).near(0, 0.0, 1, 0.0)
    assert (at(close, x, y) > 0) == near


def test_hiding_type_costs_more_than_all_else_gains(meetings: Meetings) -> None:
    over = meetings.cost(2, 0.0, 0, 0.0)
    assert at(over, 0.5, 0.5) > 50
    bare = [replace(item, keep_clear=()) for item in ITEMS]
    free = Meetings(bare, canvas_for(bare)).cost(2, 0.0, 0, 0.0)
    assert at(free, 0.5, 0.5) < 15


def test_far_apart_pieces_cost_nothing(meetings: Meetings) -> None:
    cost = meetings.cost(1, 0.0, 2, 0.0)
    assert not cost[0].any() and not cost[:, 0].any()
    assert cost.max() > NEAR_LINES
