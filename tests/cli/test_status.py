"""`mockup status`: a table to read, JSON for a machine, and an exit code for a script."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

import mockup as face
from mockup.output.status_told import status_told
from mockup.record.events import Answer, Choice, Event, Order
from mockup.record.fingerprint import fingerprints
from mockup.record.reading import read_record
from mockup.record.status import status_of
from mockup.record.writing import write_event
from mockup.suite.reading import read_suite
from tests.mockup_command import mockup
from tests.record.made import answer, order, proof


def _write(suite: Path, *events: Event) -> None:
    for event in events:
        write_event(read_record(suite), event)


@pytest.fixture
def proofed(demo_suite: Path) -> Path:
    _write(demo_suite, proof(2, *fingerprints(read_suite(demo_suite))))
    return demo_suite


def _answer(suite: Path, **said: str) -> Event:
    (sent,) = read_record(suite).proofs
    choices = tuple(
        Choice(each.name, each.fingerprint.digest, "change" if each.name in said else "approve", said.get(each.name, ""))
        for each in sent.items
    )  # fmt: skip
    return Answer(2, sent.mark, "2026-11-28", "Ida Marsh", choices)


def test_before_a_proof_it_says_so(demo_suite: Path) -> None:
    told = mockup("status", demo_suite)
    assert told.returncode == 10 and told.stderr == ""
    assert told.stdout.startswith("Tide Mill Supper: 0 of 5 approved; no proof yet\n")
    assert not (demo_suite.parent / "suite.record").exists()  # nothing is written


def test_the_table_says_of_each_piece_how_it_stands(proofed: Path) -> None:
    _write(proofed, _answer(proofed, details="The hour is half past five, not five."))
    text = proofed.read_text().replace("radius = 0.5", "radius = 0.4")
    proofed.write_text(text)
    codes = [each.fingerprint.short for each in fingerprints(read_suite(proofed))]
    told = mockup("status", proofed)
    assert told.returncode == 10 and told.stderr == ""
    assert told.stdout.splitlines() == [
        "Tide Mill Supper: 3 of 5 approved; last proof revision 2, the next is revision 3",
        "",
        f"approved   {codes[0]}  Invitation           revision 2, 2026-11-28, Ida Marsh",
        f"to change  {codes[1]}  Details card         revision 2, 2026-11-28, Ida Marsh",
        "                                           “The hour is half past five, not",
        "                                             five.”",
        f"changed    {codes[2]}  Reply card           approved at revision 2, 2026-11-28,",
        "                                             Ida Marsh",
        "                                           since revision 2: die radius changed",
        "                                             from 0.5 in to 0.4 in",
        f"approved   {codes[3]}  Invitation envelope  revision 2, 2026-11-28, Ida Marsh",
        f"approved   {codes[4]}  Reply envelope       revision 2, 2026-11-28, Ida Marsh",
    ]


def test_all_approved_is_nought_and_a_change_after_the_order_twenty(proofed: Path) -> None:
    _write(proofed, _answer(proofed))
    assert mockup("status", proofed).returncode == 0
    items = fingerprints(read_suite(proofed))
    _write(proofed, order(items))
    ordered = mockup("status", proofed)
    assert ordered.returncode == 0
    assert ordered.stdout.count("ordered 2026-11-26 from Weir Lane") == len(items)
    art = proofed.parent / "reply.pdf"
    art.write_bytes(art.read_bytes() + b"\n")
    after = mockup("status", proofed)
    assert after.returncode == 20 and after.stdout.count("changed since the order") == 1


def test_a_machine_is_told_the_same(proofed: Path) -> None:
    _write(
        proofed,
        _answer(proofed, details="Later."),
        order(fingerprints(read_suite(proofed))[:1], "no yes"),
    )
    proofed.write_text(proofed.read_text().replace("[envelopes.reply]", "[envelopes.return]"))
    answer = mockup("status", proofed, "--json")
    told = json.loads(answer.stdout)
    assert answer.returncode == 10
    assert (told["title"], told["revision"], told["next_revision"]) == ("Tide Mill Supper", 2, 3)
    invitation, details, _, _, renamed = told["pieces"]
    assert invitation["state"] == "approved" and len(invitation["digest"]) == 64
    assert invitation["ordered"] == {
        "date": "2026-11-26", "printer": "Weir Lane Press", "changed": [], "anyway": ["no yes"],
    }  # fmt: skip
    assert (details["state"], details["comment"], details["by"]) == (
        "to change",
        "Later.",
        "Ida Marsh",
    )
    assert (renamed["name"], renamed["state"]) == ("envelopes.return", "approved")
    assert told["gone"] == [] and told["record"] == []
    python = face.tell_status(face.StatusRequest(proofed))
    assert [each.state for each in python.status.standings] == [
        each["state"] for each in told["pieces"]
    ]


def test_what_does_not_count_is_told_beside_the_answer(proofed: Path) -> None:
    (proofed.parent / "suite.record" / "notes.txt").write_text("call Ida")
    told = mockup("status", proofed)
    assert told.returncode == 10 and "notes.txt: is no event of this record" in told.stderr


@pytest.mark.parametrize("columns", [20, 40, 80, 200])
def test_no_line_is_wider_than_the_terminal_where_that_can_be(columns: int, proofed: Path) -> None:
    sent = read_record(proofed).proofs[0]
    _write(
        proofed,
        answer(sent, "change", comment="word " * 60),
        Order("2026-11-29", "", (), sent.items),
    )
    status = status_of(sent.items, read_record(proofed))
    lines = status_told(status, columns)
    assert all(len(each.text) <= max(columns, 68) for each in lines)
    assert sum(bool(each.state) for each in lines) == 5


def test_a_file_that_is_no_suite_is_refused_as_everywhere(tmp_path: Path) -> None:
    assert mockup("status", tmp_path / "none.toml").returncode == 3


def test_nothing_in_a_record_moves_the_cursor(proofed: Path) -> None:
    _write(proofed, _answer(proofed, details="\x1b[2J gone \u202e"))
    told = mockup("status", proofed)
    assert "\x1b" not in told.stdout and "\u202e" not in told.stdout
