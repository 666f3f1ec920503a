"""Torn sides: ragged within what is told, only where asked, the same each time, thin at the edge."""

import numpy as np
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.geometry.affine import IDENTITY, Affine, rotation
from mockup.geometry.point import Point
from mockup.pixels import View
from mockup.render.torn import TORN_IN, tears, torn_press, torn_rings
from mockup.suite.suite import TORN_SIDES, TornSide

CARD = (np.array([[0.0, 0.0], [5.0, 0.0], [5.0, 7.0], [0.0, 7.0]]),)
SIZE = (5.0, 7.0)


@settings(max_examples=20, deadline=None)
@given(st.sets(st.sampled_from(TORN_SIDES), min_size=1), st.text(max_size=5))
def test_a_torn_edge_lies_within_what_is_told_of_its_side(sides: set[TornSide], name: str) -> None:
    (ring,) = torn_rings(CARD, tears(sorted(sides), SIZE, IDENTITY, name))
    made = shapely.Polygon(ring)
    whole = shapely.box(0, 0, *SIZE)
    assert made.is_valid
    assert whole.buffer(1e-9).contains(made)
    left, top, right, bottom = (side in sides for side in ("left", "top", "right", "bottom"))
    least = shapely.box(TORN_IN * left, TORN_IN * top, 5 - TORN_IN * right, 7 - TORN_IN * bottom)
    assert made.buffer(1e-9).contains(least)


def _at(turn: Affine, x: float, y: float) -> tuple[float, float]:
    placed = turn.point(Point(x, y))
    return placed.x, placed.y


def test_only_the_sides_asked_for_are_torn() -> None:
    (ring,) = torn_rings(CARD, tears(["right"], SIZE, IDENTITY, "a"))
    assert (ring[:, 0] == 0).sum() == 2 and ring[:, 1].min() == 0 and ring[:, 1].max() == 7
    assert np.ptp(ring[ring[:, 0] > 4][:, 0]) > 0.01


def test_the_same_card_is_torn_alike_and_another_is_not() -> None:
    one, again, other = (
        torn_rings(CARD, tears(["left"], SIZE, IDENTITY, name))[0] for name in ("a", "a", "b")
    )
    assert np.array_equal(one, again)
    assert not np.array_equal(one, other)


def test_a_turned_card_is_torn_as_it_was() -> None:
    turn = rotation(30)
    turned = (np.array([_at(turn, x, y) for x, y in CARD[0]]),)
    (ring,) = torn_rings(turned, tears(["top"], SIZE, turn, "a"))
    (flat,) = torn_rings(CARD, tears(["top"], SIZE, IDENTITY, "a"))
    expected = np.array([_at(turn, x, y) for x, y in flat])
    assert shapely.Polygon(ring).symmetric_difference(shapely.Polygon(expected)).area < 1e-9


def test_round_sides_stay_whole() -> None:
    turn = np.linspace(0, 2 * np.pi, 200, endpoint=False)
    circle = (np.column_stack([2.5 + 2.5 * np.cos(turn), 2.5 + 2.5 * np.sin(turn)]),)
    torn = tears(TORN_SIDES, (5.0, 5.0), IDENTITY, "a")
    assert np.array_equal(torn_rings(circle, torn)[0], circle[0])


def test_paper_is_thin_at_the_torn_edge_and_whole_within() -> None:
    view = View(0, 0, 250, 350, 50)
    press = torn_press(tears(["left"], SIZE, IDENTITY, "a"), view, 0.04, view)
    inner = press.plate[-press.top_px : -press.top_px + 350, -press.left_px :]
    assert inner[:, 0].min() > 200
    assert not inner[:, 20:].any()
    assert 0 < press.depth_in < 0.04
