"""Narrow places found where they were put: slots, necks and holes of known width."""

import pytest

from mockup.dies import FAMILIES, make_die
from mockup.dies.features import cutting_notes, features
from mockup.geometry.outline import Outline, Shape, circle_arc, polygon_outline
from mockup.geometry.point import Point


def _slotted(width):
    """A card with a slot of a width cut 1 in deep into its top edge."""
    a, b = 2 - width / 2, 2 + width / 2
    return Shape(polygon_outline((0, 0), (a, 0), (a, 1), (b, 1), (b, 0), (4, 0), (4, 5), (0, 5)))


def _necked(width):
    """Two squares joined by a strip of a width, 1 in long."""
    a, b = 1 - width / 2, 1 + width / 2
    return Shape(
        polygon_outline(
            (0, 0), (2, 0), (2, a), (3, a), (3, 0), (5, 0), (5, 2), (3, 2), (3, b), (2, b), (2, 2),
            (0, 2),
        )
    )  # fmt: skip


@pytest.mark.parametrize("width", [0.03, 0.0625, 0.09, 0.2])
def test_slots_and_necks_have_the_width_they_were_drawn_with(width):
    slot = features(_slotted(width)).slot
    assert slot.width_in == pytest.approx(width, abs=0.001)
    assert slot.at.x == pytest.approx(2, abs=width) and slot.at.y < 1
    neck = features(_necked(width)).neck
    assert neck.width_in == pytest.approx(width, abs=0.001)
    assert features(_slotted(width)).neck is None and features(_necked(width)).slot is None


def test_a_hole_is_as_narrow_as_its_diameter_and_its_web_as_the_stuff_left():
    hole = Outline((circle_arc(Point(1, 0.14), 0.04, 0, 360),))
    found = features(Shape(polygon_outline((0, 0), (2, 0), (2, 3), (0, 3)), (hole,)))
    assert found.slot.width_in == pytest.approx(0.08, abs=0.001)
    assert found.neck.width_in == pytest.approx(0.10, abs=0.002)


def test_under_three_thirty_seconds_is_told_and_above_is_not():
    """3/32 in: common practice, the smallest slot and punch of a steel-rule die."""
    (note,) = cutting_notes(features(_slotted(0.08)))
    assert "slot is 0.08 in wide, near 2, " in note and "3/32" in note
    assert cutting_notes(features(_slotted(0.1))) == ()


@pytest.mark.parametrize("name", sorted(FAMILIES))
def test_no_family_is_hard_to_cut_by_default(name):
    size = (5, 5) if name in ("circle", "scalloped-circle") else (5, 7)
    assert cutting_notes(features(make_die(name, *size).shape)) == ()


def test_sharp_corners_are_counted():
    assert features(make_die("twin-arch", 5, 7).shape).sharp == 1
    assert features(make_die("scalloped-edge", 5, 7).shape).sharp == 44
    assert features(make_die("lancet-arch", 5, 7).shape).sharp == 0
    assert features(make_die("lancet-arch", 2, 7, {"rise": 6}).shape).sharp == 1
