"""What cannot be cut is refused in one line, and the value the line names works."""

import re

import pytest

from mockup.dies import make_die
from mockup.errors import DieError

BEYOND = [
    ("rounded-corner", "radius", 9),
    ("ticket-corner", "radius", 2.4),
    ("chamfered-corner", "cut", 3),
    ("notched-corner", "across", 3),
    ("notched-corner", "down", 4),
    ("superellipse", "exponent", 1),
    ("superellipse", "exponent", 40),
    ("segmental-arch", "rise", 3),
    ("segmental-arch", "rise", 0.01),
    ("three-centred-arch", "rise", 2.5),
    ("lancet-arch", "rise", 2),
    ("lancet-arch", "rise", 8),
    ("ogee-arch", "rise", 2),
    ("ogee-arch", "rise", 6),
    ("ogee-arch", "point", 20),
    ("quarter-arch", "radius", 6),
    ("trefoil-top", "radius", 1),
    ("trefoil-top", "radius", 2.4),
    ("scalloped-edge", "lobe", 0.01),
    ("scalloped-edge", "lobe", 4),
    ("wavy-edge", "wave", 3),
    ("wavy-edge", "depth", 0.4),
    ("ogee-label", "depth", 2),
    ("hexagon", "point", 4),
    ("gable", "rise", 0),
    ("tag", "cut", 3),
    ("tag", "hole", 2),
    ("tag", "inset", 0.05),
    ("petal", "petals", 2),
    ("petal", "depth", 0.9),
]


@pytest.mark.parametrize(("name", "parameter", "value"), BEYOND)
def test_a_value_out_of_range_is_refused_and_the_nearest_one_works(name, parameter, value):
    with pytest.raises(DieError) as refused:
        make_die(name, 5, 7, {parameter: value})
    line = str(refused.value)
    assert "\n" not in line and f"die {name} at 5 × 7 in" in line and parameter in line
    named = float(re.search(r"the (?:least|most) is ([\d.]+)", line).group(1))
    assert make_die(name, 5, 7, {parameter: named}).name == name


def test_lobes_of_a_scalloped_circle_come_in_fours():
    with pytest.raises(DieError, match="use 24"):
        make_die("scalloped-circle", 5, 5, {"lobes": 23})


def test_a_circle_on_an_oblong_card_is_told_what_would_do():
    with pytest.raises(DieError, match="5 × 5 in, or use ellipse"):
        make_die("circle", 5, 7)


@pytest.mark.parametrize(
    ("name", "parameters", "hint"),
    [
        ("tickt", {}, 'did you mean "ticket-corner"'),
        ("zzz", {}, "there are rectangle"),
        ("ticket-corner", {"radios": 1}, 'did you mean "radius"'),
        ("rectangle", {"radius": 1}, "it takes none"),
        ("round-arch", {"side": "topp"}, 'did you mean "top"'),
        ("round-arch", {"side": 3}, "one of top, right, bottom, left"),
        ("ticket-corner", {"radius": "half"}, '"half" is not a length'),
        ("ticket-corner", {"radius": [1, 2]}, "has 2 values"),
        ("petal", {"petals": 5.4}, "try 5"),
        ("petal", {"petals": [5]}, "one value"),
        ("petal", {"petals": float("nan")}, "not a number"),
        ("superellipse", {"exponent": "many"}, "not a number"),
    ],
)
def test_a_wrong_name_or_value_gets_the_nearest(name, parameters, hint):
    with pytest.raises(DieError, match=re.escape(hint)):
        make_die(name, 5, 7, parameters)


@pytest.mark.parametrize("size", [(0, 7), (5, float("nan")), (5, -7), (500, 7), (5, float("inf"))])
def test_a_size_that_cannot_be_cut_is_refused(size):
    with pytest.raises(DieError, match=r"from 0\.25 in to 200 in"):
        make_die("rectangle", *size)


def test_lengths_are_read_with_their_units():
    inch = make_die("ticket-corner", 5, 7, {"radius": 0.5})
    millimetres = make_die("ticket-corner", 5, 7, {"radius": "12.7 mm"})
    assert millimetres.parameters[0][1] == pytest.approx(0.5, abs=1e-12)
    assert make_die("ticket-corner", 5, 7, {"radius": ["36pt"] * 4}).shape == inch.shape
