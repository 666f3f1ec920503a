"""Clearances against a brute-force distance: every outline as points 1/1,200 in apart, shapely."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from mockup.checks.safe import check_safe, clearance
from tests.checks.bench.case import Case, die_polygon
from tests.checks.bench.faults_cut import curve_points
from tests.checks.bench.sheet import CREAM, INK, outlines
from tests.checks.contexts import context_of
from tests.quickly import quickly

DIES = [
    ("rectangle", {}),
    ("ellipse", {}),
    ("lancet-arch", {}),
    ("ticket-corner", {"radius": 0.5}),
    ("scalloped-edge", {}),
    ("wavy-edge", {}),
    ("ogee-arch", {}),
    ("notched-corner", {}),
]
WORD = "Tide"
WITHIN_IN = 0.0015  # 1/1,200 in of sampling, and the flattening of both


def _rim(cut: shapely.Polygon) -> shapely.STRtree:
    edge = shapely.segmentize(cut.boundary, 1 / 1200)
    return shapely.STRtree(shapely.points(shapely.get_coordinates(edge)))


def _least_by_brute_force(points: np.ndarray, rim: shapely.STRtree) -> float:
    _, distance = rim.query_nearest(shapely.points(points), return_distance=True)
    return float(distance.min())


def _places_near(cut: shapely.Polygon, seed: int) -> list[tuple[float, float]]:
    """Returns six places, by a seeded chance, at which a word stands inside the cut and near it."""
    random = np.random.default_rng(seed)
    places: list[tuple[float, float]] = []
    while len(places) < 6:
        x, y = random.uniform(0.0, 4.8), random.uniform(0.1, 7.0)
        box = shapely.box(*outlines(x, y, WORD, 12)[1])
        if cut.contains(box) and cut.exterior.distance(box) < 0.15:
            places.append((x, y))
    return places


@pytest.mark.parametrize("case", quickly(DIES, lambda n: n % 3 == 1), ids=lambda case: case[0])
def test_type_wherever_it_stands_is_measured_as_by_brute_force(case, tmp_path):
    """What is nearer than the margin must be told, to measure; what is clear of it must not."""
    die, parameters = case
    cut = die_polygon(Case("", lambda s: None, die=die, parameters=parameters))
    rim, told = _rim(cut), 0
    for number, (x, y) in enumerate(_places_near(cut, sum(map(ord, die)))):
        points = np.concatenate([curve_points(part) for part in outlines(x, y, WORD, 12)[0]])
        expected = _least_by_brute_force(points, rim)

        def draw(sheet, x=x, y=y):
            sheet.flood(CREAM)
            sheet.outlined(x, y, WORD, 12, INK)

        folder = tmp_path / str(number)
        folder.mkdir()
        findings = check_safe(context_of(draw, folder, die=die, parameters=parameters))
        if expected > 0.125 + WITHIN_IN:
            assert findings == []
        elif expected < 0.125 - WITHIN_IN:
            told += 1
            assert min(f.value for f in findings) == pytest.approx(expected, abs=WITHIN_IN)
    assert told >= 2


def test_a_mark_that_runs_over_the_cut_is_measured_by_how_far(tmp_path):
    context = context_of(lambda sheet: sheet.circle(4.98, 3.0, 0.06, INK), tmp_path)
    (mark,) = context.page.marks.near
    assert clearance(mark.area, mark.crossing, context).value_in == pytest.approx(-0.04, abs=1e-4)
