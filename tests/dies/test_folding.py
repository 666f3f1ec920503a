"""The flat sheet of a folded card: twice the closed shape, alike on both sides of its fold."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.dies import make_die
from mockup.dies.folding import FOLDS, Fold, flat_size, to_front, unfolded
from mockup.errors import DieError
from mockup.geometry.affine import Affine
from mockup.geometry.flatten import polygon
from mockup.geometry.measure import area

FOLDED = [
    ("rectangle", "left"),
    ("rectangle", "top"),
    ("ticket-corner", "top"),
    ("round-arch", "left"),
    ("quarter-arch", "left"),
    ("tag", "top"),
]
SIDES = st.integers(20, 100).map(lambda steps: steps / 10)


@given(SIDES, SIDES, st.sampled_from(FOLDS))
def test_a_rectangle_unfolds_into_one_of_twice_the_area(w: float, h: float, fold: Fold) -> None:
    flat = unfolded(make_die("rectangle", w, h), fold)
    assert (flat.width_in, flat.height_in) == flat_size(w, h, fold)
    assert area(flat.shape) == pytest.approx(2 * w * h)
    assert flat.shape.box == pytest.approx((0, 0, flat.width_in, flat.height_in))


@pytest.mark.parametrize(("name", "fold"), FOLDED)
def test_the_front_is_the_closed_shape_and_the_back_its_mirror_image(name: str, fold: Fold) -> None:
    die = make_die(name, 5, 7)
    flat = unfolded(die, fold)
    sheet = polygon(flat.shape)
    front = polygon(die.shape.mapped(to_front(5, 7, fold)))
    over = Affine(-1, 0, 0, 1, 10, 0) if fold == "left" else Affine(1, 0, 0, -1, 0, 14)
    back = polygon(die.shape.mapped(over @ to_front(5, 7, fold)))
    assert sheet.symmetric_difference(front.union(back)).area < 1e-3
    assert front.intersection(back).area < 1e-6


@pytest.mark.parametrize(("name", "fold"), FOLDED)
def test_it_is_folded_along_the_straight_part_between_its_panels(name: str, fold: Fold) -> None:
    ((crease,), *_) = unfolded(make_die(name, 5, 7), fold).folds
    middle, ends = (5, (crease.start.x, crease.end.x)) if fold == "left" else (
        7, (crease.start.y, crease.end.y))  # fmt: skip
    assert ends == pytest.approx((middle, middle))
    length = abs(crease.end.x - crease.start.x) + abs(crease.end.y - crease.start.y)
    assert length >= 0.5 * (7 if fold == "left" else 5)


@pytest.mark.parametrize(
    ("name", "fold", "said"),
    [
        ("ellipse", "left", "the left side of die ellipse has nothing straight"),
        ("round-arch", "top", "the top of die round-arch has nothing straight"),
        ("lancet-arch", "left", r"is straight for 2\.67 in of 7 in"),
    ],
)
def test_a_shape_without_a_straight_side_is_refused(name: str, fold: Fold, said: str) -> None:
    with pytest.raises(DieError, match=said):
        unfolded(make_die(name, 5, 7), fold)
