"""Revisions: an unchanged suite keeps its number, a changed one has the next."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.record.events import Event
from mockup.record.reading import read_record
from mockup.record.revisions import revision_of, revision_told
from mockup.record.writing import write_event
from tests.record.made import answer, item, proof, suite_in

ONE, TWO = proof(1, item("card")), proof(2, item("card", quantity="2"))


def _revision(folder: Path, quantity: str, written: str, *events: Event) -> int:
    suite = suite_in(folder)
    for event in events:
        write_event(read_record(suite), event)
    return revision_of(read_record(suite), [item("card", quantity=quantity)], written)


@pytest.mark.parametrize(
    ("events", "quantity", "written", "revision"),
    [
        ((), "2", "1", 1),
        ((), "2", "4", 4),  # the studio counted before there was a record
        ((), "2", "B", 1),
        ((ONE,), "2", "1", 2),
        ((ONE, TWO), "2", "1", 2),  # unchanged
        ((ONE, TWO, answer(TWO, "change")), "2", "1", 2),
        ((ONE, TWO), "3", "1", 3),
        ((ONE, TWO), "3", "7", 7),
        ((TWO, ONE), "2", "1", 2),  # not by which came last, but by the number
        ((ONE, TWO, proof(2, item("card", quantity="5"))), "2", "1", 3),  # 2 stands for two
    ],
)
def test_the_number_of_a_proof(
    events: tuple[Event, ...], quantity: str, written: str, revision: int, tmp_path: Path
) -> None:
    assert _revision(tmp_path, quantity, written, *events) == revision


def test_gone_back_has_a_number_of_its_own(tmp_path: Path) -> None:
    back = proof(1, item("card", quantity="1"))
    assert _revision(tmp_path, "1", "1", back, TWO) == 3


@pytest.mark.parametrize(
    ("written", "told"), [("1", "3"), (" 2 ", "3"), ("B", "B, no. 3"), ("0", "0, no. 3"), ("", "3")]
)
def test_a_word_of_the_studios_own_stays_beside_the_number(written: str, told: str) -> None:
    assert revision_told(3, written) == told
