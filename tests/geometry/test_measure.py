"""Areas and lengths on exact curves against scipy's quadrature of the sampled definition."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from mockup.geometry.measure import segment_length, signed_area
from mockup.geometry.outline import Arc, Cubic, Line, Outline
from mockup.geometry.point import Point

coordinates = st.floats(-4, 4).map(lambda v: round(v, 2))
points = st.builds(Point, coordinates, coordinates)


def _speed(segment, t, h=1e-6):
    a, b = segment.at(t - h), segment.at(t + h)
    return math.dist(a, b) / (2 * h)


def test_length_of_curves_is_the_integral_of_their_speed():
    arc = Arc(Point(1, 2), Point(3, 0.5), Point(-0.4, 1.2), 20, 250)
    cubic = Cubic(Point(0, 0), Point(1, 3), Point(4, -2), Point(5, 1))
    for segment in (arc, cubic, Line(Point(0, 0), Point(3, 4))):
        expected = quad(lambda t, s=segment: _speed(s, t), 0, 1, epsabs=1e-11, limit=200)[0]
        assert segment_length(segment) == pytest.approx(expected, rel=1e-8)


@settings(deadline=None)
@given(points, points, points, points)
def test_area_under_a_cubic_is_greens_integral(a, b, c, d):
    if a == d:
        return
    outline = Outline((Cubic(a, b, c, d), Line(d, a)))
    xy = np.array([outline.segments[0].at(t) for t in np.linspace(0, 1, 1001)])
    x, y = np.append(xy[:, 0], a.x), np.append(xy[:, 1], a.y)
    shoelace = 0.5 * float((x[:-1] * y[1:] - x[1:] * y[:-1]).sum())
    assert signed_area(outline) == pytest.approx(shoelace, abs=1e-3)
