"""The proposed scale and shift against an exhaustive search, and proven by checking again."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from mockup.checks.clearing import largest_clear
from mockup.checks.safe import check_safe, clearing
from mockup.dies import make_die
from mockup.geometry.point import Box, Point
from mockup.reading.die_zones import DieZones
from tests.checks.bench.sheet import INK
from tests.checks.contexts import context_of

SAFE_IN = 0.125
TARGET = 0.002  # of the best scale there is


def _zones(die: str, parameters: dict) -> DieZones:
    made = make_die(die, 5, 7, parameters)
    return DieZones(made.shape, SAFE_IN, 0.125, Box(-0.125, -0.125, 5.125, 7.125))


def _exhaustive(points: np.ndarray, allowed: shapely.Geometry, about: Point) -> float:
    """Returns the best scale of a grid: scales 0.05 % apart, shifts 0.01 in apart, then nine times
    finer round the best."""
    shapely.prepare(allowed)

    def fits(scale: float, shifts: np.ndarray) -> np.ndarray:
        moved = about + scale * (points - about)
        places = moved[None, :, :] + shifts[:, None, :]
        inside = shapely.contains_xy(allowed, places[..., 0], places[..., 1])
        return inside.all(axis=1)

    def grid(centre, reach, count):
        steps = np.linspace(-reach, reach, count)
        return np.stack(np.meshgrid(steps, steps), axis=-1).reshape(-1, 2) + centre

    best, where = 0.0, np.zeros(2)
    for scale in np.arange(1.0, 0.6, -0.002):
        hits = fits(scale, grid((0, 0), 0.3, 31))
        if hits.any():
            best, where = scale, grid((0, 0), 0.3, 31)[np.argmax(hits)]
            break
    for scale in np.arange(min(1.0, best + 0.006), best, -0.0005):
        hits = fits(scale, grid(where, 0.04, 41))
        if hits.any():
            return float(scale)
    return float(best)


@pytest.mark.parametrize(
    ("die", "parameters", "box"),
    [
        ("rectangle", {}, (0.06, 0.5, 4.6, 6.5)),
        ("ellipse", {}, (0.9, 1.4, 4.1, 5.8)),
        ("ticket-corner", {"radius": 0.5}, (0.3, 0.3, 4.6, 6.4)),
        ("scalloped-edge", {}, (0.28, 0.4, 4.6, 6.7)),
        ("lancet-arch", {}, (1.2, 1.4, 4.0, 6.8)),
    ],
)
def test_the_scale_is_the_best_there_is(die, parameters, box):
    zones = _zones(die, parameters)
    allowed = zones.inside(SAFE_IN)
    outline = shapely.segmentize(shapely.box(*box).exterior, 0.1)
    points = shapely.get_coordinates(outline)
    about = zones.shape.box.centre
    found = largest_clear(points, allowed, about)
    assert found is not None
    assert shapely.contains_xy(allowed.buffer(1e-5), *found.moved(points).T).all()
    best = _exhaustive(points, allowed, about)
    assert found.scale >= best - TARGET
    assert found.scale <= best + TARGET


def test_closed_form_for_a_rectangle():
    """A box W wide in a room R wide: the scale is R / W, whatever the shift."""
    zones = _zones("rectangle", {})
    points = np.array(Box(0.0, 1.0, 5.0, 2.0).corners())
    found = largest_clear(points, zones.inside(SAFE_IN), Point(2.5, 3.5))
    assert found is not None
    assert found.scale == pytest.approx(4.75 / 5, abs=0.001)


def test_closed_form_for_an_ellipse():
    """A centred box a x b in a circle of radius r: half its diagonal, scaled, is r - margin."""
    made = make_die("circle", 5, 5)
    zones = DieZones(made.shape, SAFE_IN, 0.125, Box(-0.125, -0.125, 5.125, 5.125))
    points = np.array(Box(0.5, 1.0, 4.5, 4.0).corners())  # 4 x 3, half diagonal 2.5
    found = largest_clear(points, zones.inside(SAFE_IN), Point(2.5, 2.5))
    assert found is not None
    assert found.scale == pytest.approx((2.5 - SAFE_IN) / 2.5, abs=0.0015)


def test_a_shift_alone_is_preferred_and_is_the_smallest():
    zones = _zones("rectangle", {})
    points = np.array(Box(0.06, 3.0, 3.0, 3.2).corners())
    found = largest_clear(points, zones.inside(SAFE_IN), Point(2.5, 3.5))
    assert found is not None
    assert found.scale == 1.0
    assert found.shift == pytest.approx((0.065, 0.0), abs=0.006)


def test_what_cannot_be_cleared_is_not():
    zones = _zones("rectangle", {})
    points = np.array(Box(-3.0, 3.0, 8.0, 3.2).corners())
    assert largest_clear(points, zones.inside(SAFE_IN), Point(2.5, 3.5)) is None


def test_checking_again_at_the_proposed_placement_finds_nothing(tmp_path):
    def crowded(sheet, scale=1.0, shift=(0.0, 0.0)):
        # The whole drawing about the card's middle, scaled and moved as proposed.
        cx, cy = 2.5, 3.5
        matrix = f"{scale:.6f} 0 0 {scale:.6f} {cx - scale * cx + shift[0]:.6f} "
        sheet.ops.append(f"q {matrix}{cy - scale * cy + shift[1]:.6f} cm")
        sheet.outlined(0.35, 3.0, "Come in on the flood at half past five", 16, INK)
        sheet.outlined(0.5, 6.2, "Fiddles in the grain loft", 14, INK)
        sheet.ops.append("Q")

    before = context_of(crowded, tmp_path, die="ellipse")
    assert check_safe(before)
    change = clearing(before)
    assert change is not None
    after = context_of(lambda s: crowded(s, change.scale, change.shift), tmp_path, die="ellipse")
    assert check_safe(after) == []
