"""Torn sides: ragged within what is told, only where asked, the same each time, thin at the edge."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.dies import make_die
from mockup.dies.sides import straight_spans
from mockup.geometry.affine import IDENTITY, Affine, rotation
from mockup.geometry.flatten import rings
from mockup.geometry.outline import Shape
from mockup.geometry.point import Point
from mockup.pixels import View
from mockup.render.torn import TORN_IN, tears, torn_press, torn_rings
from mockup.suite.suite import TORN_SIDES, TornSide

CARD = (np.array([[0.0, 0.0], [5.0, 0.0], [5.0, 7.0], [0.0, 7.0]]),)
SIZE = (5.0, 7.0)


def die_of(family: str, **shape: float) -> Shape:
    return make_die(family, *SIZE, shape).shape


FLAT = die_of("rectangle")


@settings(max_examples=20, deadline=None)
@given(st.sets(st.sampled_from(TORN_SIDES), min_size=1), st.text(max_size=5))
def test_a_torn_edge_lies_within_what_is_told_of_its_side(sides: set[TornSide], name: str) -> None:
    (ring,) = torn_rings(CARD, tears(sorted(sides), FLAT, IDENTITY, name))
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
    (ring,) = torn_rings(CARD, tears(["right"], FLAT, IDENTITY, "a"))
    assert (ring[:, 0] == 0).sum() == 2 and ring[:, 1].min() == 0 and ring[:, 1].max() == 7
    assert np.ptp(ring[ring[:, 0] > 4][:, 0]) > 0.01


def test_the_same_card_is_torn_alike_and_another_is_not() -> None:
    one, again, other = (
        torn_rings(CARD, tears(["left"], FLAT, IDENTITY, name))[0] for name in ("a", "a", "b")
    )
    assert np.array_equal(one, again)
    assert not np.array_equal(one, other)


def test_a_turned_card_is_torn_as_it_was() -> None:
    turn = rotation(30)
    turned = (np.array([_at(turn, x, y) for x, y in CARD[0]]),)
    (ring,) = torn_rings(turned, tears(["top"], FLAT, turn, "a"))
    (flat,) = torn_rings(CARD, tears(["top"], FLAT, IDENTITY, "a"))
    expected = np.array([_at(turn, x, y) for x, y in flat])
    assert shapely.Polygon(ring).symmetric_difference(shapely.Polygon(expected)).area < 1e-9


def test_round_sides_stay_whole() -> None:
    circle = die_of("ellipse")
    outline = rings(circle)
    torn = tears(TORN_SIDES, circle, IDENTITY, "a")
    assert np.array_equal(torn_rings(outline, torn)[0], outline[0])


def test_an_arch_is_torn_where_it_is_straight_and_nowhere_else() -> None:
    """The tear runs out where the side bends away: no step is left in the outline."""
    arch = die_of("round-arch")
    ((spring, _),) = straight_spans(arch, "left")
    outline = rings(arch)
    made = shapely.Polygon(torn_rings(outline, tears(["left"], arch, IDENTITY, "a"))[0])
    whole = shapely.Polygon(outline[0])
    gone = whole.difference(made)
    left, top, right, bottom = gone.bounds
    assert made.is_valid and 0 < spring < 7
    assert (left, right) == pytest.approx((0, TORN_IN), abs=0.02) and right <= TORN_IN
    assert bottom == pytest.approx(7, abs=1e-6) and spring <= top < spring + 0.2
    low = gone.intersection(shapely.box(0, spring, 1, spring + 0.05))
    assert low.area < 0.05 * TORN_IN / 4
    view = View(0, 0, 250, 350, 50)
    press = torn_press(tears(["left"], arch, IDENTITY, "a"), view, 0.04, view)
    inner = press.plate[-press.top_px : -press.top_px + 350, -press.left_px :]
    assert not inner[: int(spring * 50)].any() and inner[300, 0] > 200


def test_paper_is_thin_at_the_torn_edge_and_whole_within() -> None:
    view = View(0, 0, 250, 350, 50)
    press = torn_press(tears(["left"], FLAT, IDENTITY, "a"), view, 0.04, view)
    inner = press.plate[-press.top_px : -press.top_px + 350, -press.left_px :]
    assert inner[:, 0].min() > 200
    assert not inner[:, 20:].any()
    assert 0 < press.depth_in < 0.04
