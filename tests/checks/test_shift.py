"""Die shift: the worst case, and a run whose shares agree with closed forms."""

from __future__ import annotations

from math import erf, sqrt

import numpy as np
import pytest

from mockup.checks.settings import Settings
from mockup.checks.shift import rim_points, try_run, worst_case
from mockup.dies import make_die
from mockup.geometry.point import Box, Point
from mockup.reading.die_zones import DieZones

SHIFT_IN = 1 / 16
SIGMA_IN = SHIFT_IN / 2


def _zones(name: str, width: float, height: float) -> DieZones:
    die = make_die(name, width, height)
    return DieZones(die.shape, 0.125, 0.125, Box(-0.125, -0.125, width + 0.125, height + 0.125))


def _settings(**given) -> Settings:
    return Settings(**{"turn_deg": 0.0, "run": 20_000, **given})


@pytest.mark.parametrize("nearer_in", [0.0, 0.02, 0.04])
def test_a_rectangle_in_a_rectangle_has_a_closed_form(nearer_in):
    """All four sides of a box clear by c: a piece is nearer than x when |dx| or |dy| > c - x, so
    the share is 1 - erf((c - x) / (sigma sqrt 2))^2 (two independent normals)."""
    clear = 0.07
    zones = _zones("rectangle", 5, 7)
    points = np.array(Box(clear, clear, 5 - clear, 7 - clear).corners())
    run = try_run(points, zones, _settings())
    expected = 1 - erf((clear - nearer_in) / (SIGMA_IN * sqrt(2))) ** 2
    spread = sqrt(expected * (1 - expected) / 20_000)
    assert run.share_under(nearer_in) == pytest.approx(expected, abs=4 * spread + 1e-4)


def test_a_point_in_the_middle_of_an_ellipse_has_a_closed_form():
    """A mark at the centre of an ellipse a, b is cut when (dx/a)^2 + (dy/b)^2 > 1. With a wander so
    large that this happens, the share is the mean over directions of exp(-r(phi)^2 / 2 sigma^2),
    r(phi) the radius of the ellipse: the normal law in polar coordinates."""
    zones = _zones("ellipse", 1.0, 2.0)
    wander = 0.8
    run = try_run(np.array([[0.5, 1.0]]), zones, _settings(cut_shift_in=wander))
    a, b, sigma = 0.5, 1.0, wander / 2
    phi = np.linspace(0, 2 * np.pi, 20_000, endpoint=False)
    radius = a * b / np.hypot(b * np.cos(phi), a * np.sin(phi))
    expected = float(np.exp(-(radius**2) / (2 * sigma**2)).mean())
    spread = sqrt(expected * (1 - expected) / 20_000)
    assert run.share_under(0.0) == pytest.approx(expected, abs=4 * spread)


def test_a_circle_has_the_rayleigh_law():
    """A mark at the centre of a circle of radius R is nearer than x to the cut when the shift is
    longer than R - x: exp(-(R - x)^2 / 2 sigma^2) (Rayleigh)."""
    zones = _zones("circle", 1.0, 1.0)
    run = try_run(np.array([[0.5, 0.5]]), zones, _settings(cut_shift_in=0.5))
    expected = float(np.exp(-((0.5 - 0.1) ** 2) / (2 * 0.25**2)))
    assert run.share_under(0.1) == pytest.approx(expected, abs=0.015)


def test_the_same_seed_gives_the_same_run():
    zones = _zones("rectangle", 5, 7)
    points = np.array([[0.1, 3.0]])
    one, two = (try_run(points, zones, Settings(seed=7)) for _ in range(2))
    other = try_run(points, zones, Settings(seed=8))
    assert (one.clearances == two.clearances).all()
    assert (one.clearances != other.clearances).any()


def test_the_worst_case_takes_the_whole_shift_and_the_turn():
    zones = _zones("rectangle", 5, 7)
    points = np.array([[0.1, 0.5]])
    straight, at = worst_case(points, zones, SHIFT_IN, 0.0)
    assert straight == pytest.approx(0.1 - SHIFT_IN, abs=1e-9)
    assert at == Point(0.1, 0.5)
    turned, _ = worst_case(points, zones, SHIFT_IN, 1.0)
    # Turned by t about the middle (2.5, 3.5), the point comes nearer the side by 3 sin t.
    nearer = 3.0 * np.sin(np.radians(1.0)) - 2.4 * (1 - np.cos(np.radians(1.0)))
    assert turned == pytest.approx(straight - nearer, abs=1e-6)


def test_leaving_out_what_is_far_changes_nothing():
    zones = _zones("ellipse", 5, 7)
    angle = np.linspace(0, 2 * np.pi, 2000)
    rim = np.stack([2.5 + 2.3 * np.cos(angle), 3.5 + 3.28 * np.sin(angle)], axis=1)
    inner = np.stack([2.5 + np.cos(angle), 3.5 + np.sin(angle)], axis=1)
    settings = Settings(run=60)
    everything = try_run(np.vstack([rim, inner]), zones, settings)
    chosen = rim_points(np.vstack([rim, inner]), zones, settings)
    thinned = try_run(chosen, zones, settings)
    assert len(chosen) < 1200
    assert np.abs(everything.clearances - thinned.clearances).max() < 0.002


def test_best_typical_and_worst_are_in_that_order():
    zones = _zones("rectangle", 5, 7)
    run = try_run(np.array([[0.1, 3.0], [4.9, 3.0]]), zones, Settings(run=200))
    best, typical, worst = (run.clearances[k] for k in run.chosen())
    assert best == run.clearances.max()
    assert worst == run.clearances.min()
    assert worst <= typical <= best
