"""Where a piece goes on the paper, and what the proof says of it."""

from __future__ import annotations

import pytest

from mockup.dies import make_die
from mockup.errors import LimitError
from mockup.output.proof.grid import PAPERS_IN, fitted
from mockup.output.proof.words import die_measures, die_name, scale_words, size_in_mm


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize(
    ("width_in", "height_in", "ratios"),
    [
        (5, 7, (1, 1)),
        (7, 5, (1, 1)),
        (5.25, 7.25, (1, 1)),
        (5.5, 8.5, (1, 2)),  # as wide as A4 leaves no room for the notes beside it
        (7, 7, (1, 1)),
        (8.625, 3.625, (1, 1)),
        (11, 17, (2, 3)),
        (25, 35, (5, 5)),
    ],
)
def test_a_piece_has_room_at_the_scale_given(
    paper: str, width_in: float, height_in: float, ratios: tuple[int, int]
) -> None:
    place = fitted(paper, width_in, height_in, lambda frame, ratio: True)
    ratio = ratios[("letter", "a4").index(paper)]
    assert place.ratio == ratio
    frame, field = place.frame, place.frame.field
    assert {frame.width_in, frame.height_in} == set(PAPERS_IN[paper])
    assert width_in / ratio <= field.width + 1e-6
    assert height_in / ratio <= field.height + 1e-6
    assert field.left > 0
    assert field.right < frame.width_in
    for column in frame.columns:
        assert column.right <= field.left or column.top >= field.bottom


def test_a_piece_too_large_for_any_scale_is_refused() -> None:
    with pytest.raises(LimitError, match="too large for a proof"):
        fitted("letter", 190, 190, lambda frame, ratio: True)


def test_what_is_not_at_true_size_says_so() -> None:
    assert scale_words(1) == "True size, 100\u00a0%"
    assert scale_words(2) == "Half size, 1\u00a0:\u00a02"
    assert scale_words(1.5) == "Two thirds of true size, 2\u00a0:\u00a03"
    assert scale_words(10) == "Reduced, 1\u00a0:\u00a010"


@pytest.mark.parametrize(
    ("name", "given", "told"),
    [
        ("rectangle", {}, ""),
        ("lancet-arch", {"rise": 4}, "rise 4 in"),
        ("lancet-arch", {"rise": 4, "side": "left"}, "rise 4 in, side left"),
        ("ticket-corner", {"radius": 0.5}, "radius 0.5 in"),
        ("superellipse", {"exponent": 3}, "exponent 3"),
        ("ogee-arch", {"point": 80}, "point 80\u00b0"),
    ],
)
def test_dies_are_told_in_words(name: str, given: dict[str, float | str], told: str) -> None:
    die = make_die(name, 5, 7, given)
    assert die_name(die) == name.replace("-", " ").capitalize()
    assert told in die_measures(die).replace("\u00a0", " ")


def test_millimetres_are_exact_to_a_tenth() -> None:
    """1 in = 25.4 mm (international inch, 1959)."""
    assert size_in_mm(5, 7).replace("\u00a0", " ") == "127 \u00d7 177.8 mm"
    assert size_in_mm(4.25, 5.5).replace("\u00a0", " ") == "108 \u00d7 139.7 mm"  # 107.95
