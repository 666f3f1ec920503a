"""What a printed page says of a piece, by the ink in its two boxes."""

from __future__ import annotations

import pytest

from mockup.record.answering import Heard, choices_of, of_field, of_looks, unclear
from mockup.record.paper import Look
from tests.record.made import item, proof

INVITATION = item("invitation", size="5 x 7")
EMPTY, SPECK, TICK, SCRIBBLE = (Look(dark, "") for dark in (0.0, 0.02, 0.2, 0.6))


@pytest.mark.parametrize(
    ("approve", "change", "expected"),
    [
        (TICK, EMPTY, Heard("approve")),
        (EMPTY, TICK, Heard("change")),
        (TICK, SPECK, Heard("approve")),
        (TICK, SCRIBBLE, Heard("change")),  # a tick struck out is less than what strikes it out
        (EMPTY, EMPTY, Heard()),
        (SPECK, SPECK, Heard()),
        (TICK, TICK, Heard(both=True)),
        (Look(0.3, ""), TICK, Heard(both=True)),
    ],
)
def test_the_box_with_clearly_more_ink_is_meant(
    approve: Look, change: Look, expected: Heard
) -> None:
    assert of_looks(approve, change, EMPTY) == expected


def test_words_beside_the_boxes_are_kept_whatever_is_ticked() -> None:
    words = Look(0.1, " the tide \n is at  seven ")
    for approve, change in ((EMPTY, EMPTY), (TICK, TICK), (TICK, EMPTY)):
        assert of_looks(approve, change, words).comment == "the tide is at seven"


def test_both_boxes_are_no_yes() -> None:
    shown = proof(1, INVITATION)
    heard = {"invitation": of_looks(TICK, TICK, EMPTY)}
    assert choices_of(shown, heard) == ()
    (line,) = unclear(shown, heard)
    assert "both boxes are ticked" in line


def test_a_forms_button_says_one_of_two_things_or_nothing() -> None:
    assert of_field("approve", " ") == Heard("approve")
    assert of_field("change", " larger ") == Heard("change", "larger")
    assert of_field("Off", "") == Heard()
