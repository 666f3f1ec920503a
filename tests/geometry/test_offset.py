"""Bleed and safe outlines: Steiner's formulas, A + P d + pi d^2 and P + 2 pi d, for convex dies."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.dies import make_die
from mockup.geometry.flatten import polygon
from mockup.geometry.measure import area, perimeter
from mockup.geometry.offset import offset

CONVEX = [
    "rectangle", "rounded-corner", "chamfered-corner", "ellipse", "superellipse", "stadium",
    "round-arch", "segmental-arch", "three-centred-arch", "lancet-arch", "quarter-arch",
    "hexagon", "gable",
]  # fmt: skip
# Inside, the formulas hold while d is less than the least radius of curvature, corners none.
SMOOTH = [("ellipse", 1.0), ("stadium", 2.4)]


@settings(deadline=None, max_examples=60)
@given(st.sampled_from(CONVEX), st.floats(0.02, 1.0))
def test_outward_offset_of_a_convex_die_is_steiners(name, d):
    shape = make_die(name, 5, 7).shape
    (grown,) = offset(shape, d)
    a, p = area(shape), perimeter(shape.outer)
    # Chords 2e-4 in off lose at most that much area a unit of length, seldom half of it.
    assert grown.area == pytest.approx(a + p * d + math.pi * d * d, abs=2e-4 * grown.length)
    assert grown.length == pytest.approx(p + 2 * math.pi * d, rel=2e-4)


@pytest.mark.parametrize(("name", "most"), SMOOTH)
def test_inward_offset_of_a_smooth_convex_die_is_steiners(name, most):
    shape = make_die(name, 5, 7).shape
    a, p = area(shape), perimeter(shape.outer)
    for d in (0.125, most / 2, most):
        (shrunk,) = offset(shape, -d)
        expected = a - p * d + math.pi * d * d
        assert shrunk.area == pytest.approx(expected, abs=3e-4 * p)
        assert shrunk.length == pytest.approx(p - 2 * math.pi * d, rel=3e-4, abs=2e-3)


def test_an_eighth_inch_about_an_ellipse_is_not_the_ellipse_scaled():
    """Values worked out apart with mpmath: 29.91060866255 out, 25.16543754570 in, at 1/8 in."""
    shape = make_die("ellipse", 5, 7).shape
    (bleed,) = offset(shape, 0.125)
    (safe,) = offset(shape, -0.125)
    assert bleed.area == pytest.approx(29.91060866255, abs=0.003)
    assert safe.area == pytest.approx(25.16543754570, abs=0.003)
    assert abs(bleed.area - math.pi * 2.625 * 3.625) > 0.01  # the scaled copy


def test_the_offset_keeps_its_distance_all_round():
    for name in ("ticket-corner", "scalloped-edge", "twin-arch"):
        shape = make_die(name, 5, 7).shape
        cut = polygon(shape).exterior
        for d in (0.125, -0.125):
            for part in offset(shape, d):
                samples = part.exterior.segmentize(0.05)
                distances = [cut.distance(_point(xy)) for xy in samples.coords]
                assert min(distances) >= 0.125 - 0.0006
                assert max(distances) <= 0.125 + 0.0006


def _point(xy):
    from shapely.geometry import Point

    return Point(xy)
