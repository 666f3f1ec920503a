"""How a piece stands: a yes covers the fingerprint it was given to, and nothing else."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.record.events import Event
from mockup.record.fingerprint import Named
from mockup.record.reading import Record, read_record
from mockup.record.status import NOT_KNOWN, Standing, Status, status_of
from mockup.record.writing import write_event
from tests.record.made import answer, item, order, proof, suite_in

CARD, CHANGED = item("card", quantity="120"), item("card", quantity="140")
MAP = item("map", colour="oat")
FIRST, SECOND = proof(1, CARD, MAP), proof(2, CHANGED, MAP)
YES = answer(FIRST, "approve")


def _record(folder: Path, *events: Event) -> Record:
    for event in events:
        write_event(read_record(suite_in(folder)), event)
    return read_record(suite_in(folder))


def _status(folder: Path, events: tuple[Event, ...], *items: Named) -> Status:
    return status_of(items, _record(folder, *events))


def _card(folder: Path, *events: Event, now: Named = CARD) -> Standing:
    return _status(folder, events, now).standings[0]


def test_before_any_proof_nothing_is_said(tmp_path: Path) -> None:
    assert _card(tmp_path) == Standing(CARD, "not proofed")


def test_a_proof_without_an_answer_waits(tmp_path: Path) -> None:
    told = _card(tmp_path, FIRST)
    assert told == Standing(CARD, "waiting", 1, "2026-11-26", proofed=1)


def test_a_yes_is_told_with_its_revision_day_and_name(tmp_path: Path) -> None:
    told = _card(tmp_path, FIRST, YES)
    assert told == Standing(CARD, "approved", 1, "2026-11-26", "Ida Marsh", proofed=1)


def test_a_yes_to_one_piece_is_none_to_another(tmp_path: Path) -> None:
    status = _status(tmp_path, (FIRST, answer(FIRST, "approve", "card")), CARD, MAP)
    assert [each.state for each in status.standings] == ["approved", "waiting"]
    assert not status.approved and status.order_holds


def test_a_change_after_a_yes_is_told_in_words(tmp_path: Path) -> None:
    told = _card(tmp_path, FIRST, YES, now=CHANGED)
    assert (told.state, told.revision, told.by, told.since) == ("changed", 1, "Ida Marsh", 1)
    assert told.changed == ("quantity changed from 120 to 140",) and told.proofed is None
    waiting = _card(tmp_path, SECOND, now=CHANGED)
    assert waiting.state == "changed" and waiting.proofed == 2
    assert _card(tmp_path, answer(SECOND, "approve"), now=CHANGED).revision == 2


def test_who_goes_back_to_what_was_approved_has_its_yes_again(tmp_path: Path) -> None:
    told = _card(tmp_path, FIRST, YES, SECOND, now=CARD)
    assert (told.state, told.revision) == ("approved", 1)


def test_a_wish_is_told_with_its_comment_and_the_last_word_counts(tmp_path: Path) -> None:
    wish = answer(FIRST, "change", comment="Half past five, please")
    told = _card(tmp_path, FIRST, wish)
    assert (told.state, told.comment) == ("to change", "Half past five, please")
    assert _card(tmp_path, YES).state == "approved"
    assert _card(tmp_path, answer(FIRST, "change", by="Jo Reed")).state == "to change"


def test_a_wish_that_was_met_is_still_told_while_it_waits(tmp_path: Path) -> None:
    wish = answer(FIRST, "change", comment="More of them")
    told = _card(tmp_path, FIRST, wish, SECOND, now=CHANGED)
    assert (told.state, told.revision, told.since, told.proofed) == ("waiting", 2, 1, 2)
    assert told.changed == ("quantity changed from 120 to 140",)
    assert told.comment == "More of them"


def test_changed_since_a_proof_that_nobody_answered(tmp_path: Path) -> None:
    told = _card(tmp_path, FIRST, now=CHANGED)
    assert (told.state, told.since, told.revision) == ("not proofed", 1, None)
    assert told.changed == ("quantity changed from 120 to 140",)


def test_a_piece_that_was_renamed_keeps_its_yes_also_once_it_was_proofed_again(
    tmp_path: Path,
) -> None:
    renamed = item("rsvp", quantity="120")
    assert _card(tmp_path, FIRST, YES, now=renamed).state == "approved"
    assert _card(tmp_path, proof(2, renamed, MAP), now=renamed).state == "approved"


def test_a_piece_of_the_same_making_does_not_share_a_yes(tmp_path: Path) -> None:
    """Two pieces of one file: she approved the one, and wanted the other changed."""
    twin = item("menu", quantity="120")
    both = proof(1, CARD, twin)
    events = (both, answer(both, "approve", "card"), answer(both, "change", "menu"))
    status = _status(tmp_path, events, CARD, twin)
    assert [each.state for each in status.standings] == ["approved", "to change"]


def test_a_yes_whose_proof_is_lost_still_counts_but_tells_no_change(tmp_path: Path) -> None:
    record = _record(tmp_path, FIRST, YES)
    (record.folder / record.entries[0].file).unlink()
    assert _card(tmp_path).state == "approved"
    assert _card(tmp_path, now=CHANGED).changed == (NOT_KNOWN,)


def test_answers_recorded_apart_that_disagree_count_as_a_change_and_are_told(
    tmp_path: Path,
) -> None:
    """Two copies of one record: one has a yes, the other, longer one, had a no before its end."""
    ours, theirs = tmp_path / "ours", tmp_path / "theirs"
    no = answer(FIRST, "change", by="Jo Reed")
    for folder, events in (
        (ours, (FIRST, proof(1, CARD, MAP, date="2026-12-01"), YES)),
        (theirs, (FIRST, no)),
    ):
        folder.mkdir()
        _record(folder, *events)
    for file in (theirs / "suite.record").iterdir():
        file.replace(ours / "suite.record" / file.name)
    status = _status(ours, (), CARD)
    assert status.standings[0].state == "to change" and not status.approved
    assert "recorded apart, say yes and no to card" in status.told[0]
    again = _status(ours, (answer(FIRST, "approve", by="Ida Marsh, again"),), CARD)
    assert again.standings[0].state == "approved" and again.told == ()


def test_what_was_ordered_is_told_and_what_changed_since(tmp_path: Path) -> None:
    events = (FIRST, YES, order([CARD], "no proof of the envelope"))
    status = _status(tmp_path, events, CARD, MAP)
    ordered = status.standings[0].ordered
    assert ordered and (ordered.date, ordered.printer) == ("2026-11-26", "Weir Lane Press")
    assert ordered.anyway == ("no proof of the envelope",) and ordered.changed == ()
    assert status.standings[1].ordered is None and status.order_holds and status.approved
    later = _status(tmp_path, (), CHANGED, MAP)
    assert later.standings[0].ordered and not later.order_holds
    assert later.standings[0].ordered.changed == ("quantity changed from 120 to 140",)
    assert _status(tmp_path, (order([CHANGED]),), CHANGED, MAP).order_holds


def test_a_piece_taken_away_is_told_and_breaks_an_order_that_holds_it(tmp_path: Path) -> None:
    status = _status(tmp_path, (FIRST, YES), CARD)
    assert [each.item.name for each in status.gone] == ["map"] and status.approved
    ordered = _status(tmp_path, (order([CARD, MAP]),), CARD)
    assert not ordered.order_holds
    assert ordered.gone[0].ordered and ordered.gone[0].ordered.changed == (
        "taken out of the suite",
    )


def test_a_file_that_does_not_count_leaves_a_doubt(tmp_path: Path) -> None:
    record = _record(tmp_path, FIRST, YES)
    assert status_of([CARD, MAP], record).approved
    (record.folder / "0003-answer-1-ABCDEFGH.toml").write_text("perhaps a no")
    assert not status_of([CARD, MAP], read_record(suite_in(tmp_path))).approved


@given(st.lists(st.sampled_from(["1", "2", "yes1", "yes2", "no1", "no2"]), max_size=7), st.data())
def test_no_card_is_approved_that_was_not_said_yes_to(
    tmp_path_factory: pytest.TempPathFactory, told: list[str], data: st.DataObject
) -> None:
    folder = tmp_path_factory.mktemp("any")
    made: dict[str, Event] = {"1": FIRST, "2": SECOND}
    for number, proofed in (("1", FIRST), ("2", SECOND)):
        made[f"yes{number}"] = answer(proofed, "approve")
        made[f"no{number}"] = answer(proofed, "change")
    now = data.draw(st.sampled_from([CARD, CHANGED]))
    standing = _card(folder, *(made[each] for each in told), now=now)
    mine = "1" if now is CARD else "2"
    said = [each for each in dict.fromkeys(told) if each in (f"yes{mine}", f"no{mine}")]
    assert (standing.state == "approved") == (said[-1:] == [f"yes{mine}"])
    assert (standing.state == "to change") == (said[-1:] == [f"no{mine}"])
