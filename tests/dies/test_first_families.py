"""The dies of the main job at 5 x 7 in against closed forms worked out apart with mpmath."""

import pytest

from mockup.dies import make_die
from mockup.geometry.measure import area, perimeter

# (name, parameters, area, perimeter): W 5, H 7; closed forms of elementary geometry, 30 digits.
CASES = [
    ("rectangle", {}, 35, 24),
    ("rounded-corner", {"radius": 0.25}, 34.94634954085, 23.57079632679),
    ("rounded-corner", {"radius": "0.125 in"}, 34.98658738521, 23.78539816340),
    ("ellipse", {}, 27.48893571891, 18.98068446738),
    ("round-arch", {}, 32.31747704247, 21.85398163397),
    ("lancet-arch", {}, 28.70398613800, 20.81172147412),
    ("scalloped-edge", {"lobe": 0.5}, 33.76603943954, 36.12831551628),
    ("ticket-corner", {"radius": 0.5}, 34.21460183660, 23.14159265359),
]


@pytest.mark.parametrize(("name", "parameters", "area_in2", "perimeter_in"), CASES)
def test_area_and_perimeter_are_the_closed_forms(name, parameters, area_in2, perimeter_in):
    die = make_die(name, 5, 7, parameters)
    assert area(die.shape) == pytest.approx(area_in2, rel=1e-11)
    assert perimeter(die.shape.outer) == pytest.approx(perimeter_in, rel=1e-11)
    assert die.shape.box == pytest.approx((0, 0, 5, 7), abs=1e-9)
