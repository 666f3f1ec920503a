"""What holds for every die: simple, closed, fills its box, symmetric, well flattened."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import HealthCheck, given, settings

from mockup.dies import FAMILIES, make_die
from mockup.geometry.flatten import polygon, ring
from mockup.geometry.measure import area, signed_area
from tests.dies.any_die import SQUARE_ONLY, dies

SETTINGS = settings(max_examples=70, deadline=None, suppress_health_check=[HealthCheck.too_slow])
LEFT_RIGHT_ALIKE = set(FAMILIES) - {
    "quarter-arch",
    # with corners apart they need not be
    "rounded-corner",
    "ticket-corner",
    "chamfered-corner",
    "notched-corner",
}


@SETTINGS
@given(dies())
def test_outline_is_simple_and_fills_its_box(die):
    flat = polygon(die.shape)
    assert shapely.is_valid(flat), (die.name, shapely.is_valid_reason(flat))
    box = (0, 0, die.width_in, die.height_in)
    # Fitted curves may overshoot by 2e-8 of a half-axis; all others fill it to the last bit.
    slack = 2e-7 if die.name in ("superellipse", "wavy-edge", "petal") else 1e-9
    assert die.shape.box == pytest.approx(box, abs=slack), die.name


@SETTINGS
@given(dies())
def test_outline_is_drawn_clockwise_and_shapely_agrees_on_its_area(die):
    assert signed_area(die.shape.outer) > 0
    flat = polygon(die.shape, 1e-5)
    # A chord error e loses at most e times the length.
    assert flat.area == pytest.approx(area(die.shape), abs=2e-5 * flat.length)


@SETTINGS
@given(dies())
def test_flattening_is_at_most_half_a_thousandth_off_by_distance(die):
    """House rule: 0.0005 in, measured from points of the exact curve to the polygon."""
    for outline in die.shape.outlines:
        points = ring(outline)
        flat = shapely.LinearRing(points)
        exact = [s.at(t) for s in outline.segments for t in np.linspace(0, 1, 9)]
        assert shapely.distance(flat, shapely.points(exact)).max() <= 0.0005


@SETTINGS
@given(dies(LEFT_RIGHT_ALIKE))
def test_symmetric_dies_are_symmetric(die):
    """Mirror images differ by no more than flattening costs, measured by distance."""
    parameters = dict(die.parameters)
    sideways = parameters.get("side") in ("left", "right")
    flat = polygon(die.shape).exterior
    if die.name == "petal" or not sideways:
        mirrored = shapely.affinity.affine_transform(flat, [-1, 0, 0, 1, die.width_in, 0])
    else:
        mirrored = shapely.affinity.affine_transform(flat, [1, 0, 0, -1, 0, die.height_in])
    exact = shapely.points(shapely.get_coordinates(mirrored))
    assert shapely.distance(flat, exact).max() < 0.0005, die.name


@pytest.mark.parametrize("name", sorted(FAMILIES))
def test_every_family_has_a_die_at_five_by_seven(name):
    size = (5, 5) if name in SQUARE_ONLY else (5, 7)
    die = make_die(name, *size)
    assert die.parameters == make_die(name, *size, dict(die.parameters)).parameters
    assert FAMILIES[name].about and FAMILIES[name].source


def _kinks(outline):
    """Angles between the directions in which consecutive segments meet, degrees."""
    found = []
    for a, b in zip(outline.segments, (*outline.segments[1:], outline.segments[0]), strict=True):
        (x0, y0), (x1, y1) = a.at(1 - 1e-6), a.at(1)
        (x2, y2), (x3, y3) = b.at(0), b.at(1e-6)
        before, after = math.atan2(y1 - y0, x1 - x0), math.atan2(y3 - y2, x3 - x2)
        found.append(abs(math.degrees(math.remainder(after - before, 2 * math.pi))))
    return found


@pytest.mark.parametrize(
    ("name", "parameters"),
    [
        ("wavy-edge", {}),
        ("wavy-edge", {"wave": 0.8, "depth": 0.3}),
        ("superellipse", {}),
        ("petal", {"petals": 5}),
        ("stadium", {}),
    ],
)
def test_flowing_dies_close_without_a_kink(name, parameters):
    assert max(_kinks(make_die(name, 5, 7, parameters).shape.outer)) < 0.01


def test_arches_meet_their_sides_without_a_kink():
    for name, corners in (("round-arch", 2), ("three-centred-arch", 2), ("ogee-arch", 3)):
        kinks = _kinks(make_die(name, 5, 7).shape.outer)
        assert sum(kink > 0.01 for kink in kinks) == corners, name  # the foot's, and a tip
