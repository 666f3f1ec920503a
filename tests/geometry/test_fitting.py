"""Fitted cubics: how far off they are, asked of curves whose distance is known exactly."""

import itertools
import math

import numpy as np
import pytest

from mockup.geometry.fitting import Curve, fit
from mockup.geometry.point import Point


def _circle(radius):
    def at(t):
        point = Point(radius * math.cos(t), radius * math.sin(t))
        return point, Point(-point.y, point.x)

    return Curve(at, lambda p: math.hypot(*p) - radius)


@pytest.mark.parametrize("tolerance", [1e-4, 1e-6, 2e-8])
def test_a_circle_is_within_the_tolerance_everywhere(tolerance):
    cubics = fit(_circle(1.0), 0, math.pi, tolerance)
    radii = [math.hypot(*cubic.at(t)) for cubic in cubics for t in np.linspace(0, 1, 501)]
    assert max(abs(r - 1) for r in radii) <= 1.05 * tolerance


def test_the_error_is_of_sixth_order():
    def worst(sweep):
        (cubic,) = fit(_circle(1.0), 0, sweep, 1.0)
        return max(abs(math.hypot(*cubic.at(t)) - 1) for t in np.linspace(0, 1, 501))

    assert worst(1.0) / worst(0.5) == pytest.approx(2**6, rel=0.15)


def test_joints_share_points_and_directions():
    cubics = fit(_circle(2.0), 0, 3, 1e-8)
    for a, b in itertools.pairwise(cubics):
        assert a.end == b.start
        before = math.atan2(a.end.y - a.control2.y, a.end.x - a.control2.x)
        after = math.atan2(b.control1.y - b.start.y, b.control1.x - b.start.x)
        assert math.remainder(before - after, math.tau) == pytest.approx(0, abs=1e-9)


def test_a_curve_that_is_not_what_it_says_is_refused():
    liar = Curve(_circle(1.0).at, lambda p: math.hypot(*p) - 2.0)
    with pytest.raises(ValueError, match="cannot be fitted"):
        fit(liar, 0, 1)
