"""The proposed scale and shift against an exhaustive search, and proven by checking again."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from mockup.checks.clearing import largest_clear
from mockup.checks.safe import check_safe, clearing
from mockup.checks.settings import Settings
from mockup.dies import make_die
from mockup.geometry.point import Box, Point
from mockup.reading.die_zones import DieZones
from tests.checks.bench.sheet import INK, outlines
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


LINES = ((0.05, 3.0, "Come in on the flood at half past five", 16),
         (0.5, 6.2, "Fiddles in the grain loft", 14))  # fmt: skip


def _crowded(sheet, changes=()):
    """Two lines that reach out of an ellipse, each scaled and moved as proposed for it."""
    for k, (x, y, text, size_pt) in enumerate(LINES):
        if changes:
            scale, (dx, dy), (cx, cy) = changes[k].scale, changes[k].shift, changes[k].about
            place = f"{cx - scale * cx + dx:.6f} {cy - scale * cy + dy:.6f}"
            sheet.ops.append(f"q {scale:.6f} 0 0 {scale:.6f} {place} cm")
        sheet.outlined(x, y, text, size_pt, INK)
        sheet.ops += ["Q"] if changes else []


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_checking_again_at_the_proposed_placement_finds_nothing(tmp_path, unit):
    settings = Settings(units=unit)
    before = context_of(_crowded, tmp_path, settings, die="ellipse")
    assert len(check_safe(before)) == 2
    marks = sorted(before.page.marks.near, key=lambda mark: mark.area.bounds[1])
    changes = [clearing(before, mark.whole) for mark in marks]
    after = context_of(lambda s: _crowded(s, changes), tmp_path, settings, die="ellipse")
    assert check_safe(after) == []


@pytest.mark.parametrize(
    ("unit", "told"), [("in", "move it 0.065 in right"), ("mm", "move it 1.65 mm right")]
)
def test_the_remedy_is_the_smallest_move_as_finely_as_it_is_told(tmp_path, unit, told):
    """0.125 - 0.06 is 0.065 in, 1.651 mm: told to 0.001 in and to 0.01 mm, short by no more than
    the check lets pass."""
    context = context_of(
        lambda sheet: sheet.outlined(0.06 - _left_bearing("Tide"), 3.0, "Tide", 14, INK),
        tmp_path, Settings(units=unit),
    )  # fmt: skip
    (finding,) = check_safe(context)
    assert finding.fix == told


def test_a_move_clears_what_bleeding_art_forbids_to_scale(tmp_path):
    """A line near the cut over a ground that bleeds: nobody is told to scale the ground."""

    def on_a_ground(sheet):
        sheet.flood(INK)
        sheet.outlined(0.05, 3.0, "Tide Mill", 14, (0.0, 0.0, 0.0, 0.0))

    (finding,) = check_safe(context_of(on_a_ground, tmp_path))
    assert "scale" not in finding.fix
    assert "right" in finding.fix


def test_one_line_near_both_sides_is_one_finding_in_two_places(tmp_path):
    text = "Come in on the flood at half past five, and stay"
    size_pt = 14.0
    *_, box = outlines(0, 0, text, size_pt)
    size_pt *= 4.9 / (box[2] - box[0])  # from 0.05 in to 4.95 in
    *_, box = outlines(0, 0, text, size_pt)

    def wide(sheet):
        sheet.outlined(0.05 - box[0], 3.0, text, size_pt, INK)

    (finding,) = check_safe(context_of(wide, tmp_path))
    assert "in 2 places" in finding.message
    assert finding.fix.startswith("scale it to 96.9 %")  # 4.75 of 4.9 in


def _left_bearing(text):
    *_, box = outlines(0, 0, text, 14)
    return box[0]
