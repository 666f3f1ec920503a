"""The record: what is written is read again, in its order; what is broken hides nothing else."""

from __future__ import annotations

import os
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.errors import InputError, OutputError
from mockup.record.events import Answer, Choice, Event
from mockup.record.facts import Fact
from mockup.record.fingerprint import Named, fingerprint_of
from mockup.record.folder import record_folder, refuse_record
from mockup.record.reading import Record, read_record
from mockup.record.text import entry_of, written
from mockup.record.writing import write_event
from tests.record.made import answer, item, order, proof, suite_in

FIRST = proof(1, item("card"), item("envelopes.outer", colour="oat"))
YES = answer(FIRST, "approve", comment="As it is.")
EVENTS: tuple[Event, ...] = (
    FIRST,
    YES,
    order(FIRST.items, "no yes", "a stop"),
    order([item("x")]),
    order([]),
    proof(4),
)


def _kept(folder: Path, *events: Event) -> Record:
    suite = suite_in(folder)
    for event in events:
        write_event(read_record(suite), event)
    return read_record(suite)


def test_what_is_written_is_read_again_in_its_order(tmp_path: Path) -> None:
    record = _kept(tmp_path, *EVENTS)
    assert tuple(each.event for each in record.entries) == EVENTS
    assert [each.number for each in record.entries] == [1, 2, 3, 4, 5, 6]
    assert (record.last_number, record.last_revision, record.told) == (6, 4, ())
    assert record.proofs == (FIRST, proof(4)) and record.answers == (YES,)
    assert len(record.orders) == 3
    assert record.proof(1) == FIRST and record.proof(2) is None
    assert record.proof(1, FIRST.mark) == FIRST and record.proof(1, "ANOTHER0") is None


def test_an_empty_record_is_none_yet(tmp_path: Path) -> None:
    record = read_record(suite_in(tmp_path))
    assert record == Record(tmp_path / "suite.record")
    assert list(tmp_path.iterdir()) == []


def test_an_event_is_not_written_twice(tmp_path: Path) -> None:
    record = _kept(tmp_path, *EVENTS, *EVENTS)
    assert tuple(each.event for each in record.entries) == EVENTS


@pytest.mark.parametrize("event", EVENTS, ids=lambda each: type(each).__name__)
def test_a_file_is_plain_toml_that_says_what_it_is(event: Event) -> None:
    file = written(event, 7)
    table = tomllib.loads(file.content.decode())
    assert file.content.startswith(b"# ") and table["number"] == 7
    assert table["event"] == file.name.split("-")[1] and table["date"] == event.date
    assert written(event, 7) == file


@given(st.text(), st.text(max_size=300), st.sampled_from(["approve", "change"]))
def test_any_words_come_back_as_they_were(by: str, comment: str, said: str) -> None:
    event = Answer(3, "M", "2026-11-26", by, (Choice("card", "e" * 64, said, comment),), comment)  # type: ignore[arg-type]
    file = written(event, 12345)
    assert entry_of(Path(file.name), file.content).event == event


@given(st.text(min_size=1), st.text(), st.text())
def test_any_facts_come_back_as_they_were(name: str, value: str, told: str) -> None:
    event = proof(2, Named("card", "Card", fingerprint_of([Fact(name, value, told)])))
    file = written(event, 1)
    assert entry_of(Path(file.name), file.content).event == event


BROKEN: dict[str, tuple[str, bytes]] = {
    "half a file": ("0005-proof-2-ABCDEFGH.toml", b"record = 1\nevent = "),
    "no text": ("0005-order-ABCDEFGH.toml", b"\xff\xfe\0\0"),
    "empty": ("0005-answer-2-ABCDEFGH.toml", b""),
    "a note": ("notes.txt", b"call Ida"),
    "a merge's leavings": ("0001-proof-1-ABCDEFGH.toml.orig", b"x"),
    "two sides of a merge": ("0005-proof-2-ABCDEFGH.toml", b"<<<<<<< ours\nrecord = 1\n"),
}


@pytest.mark.parametrize("what", BROKEN)
def test_a_broken_file_is_told_by_name_and_hides_nothing(what: str, tmp_path: Path) -> None:
    _kept(tmp_path, *EVENTS)
    name, content = BROKEN[what]
    (record_folder(suite_in(tmp_path)) / name).write_bytes(content)
    record = read_record(suite_in(tmp_path))
    assert tuple(each.event for each in record.entries) == EVENTS
    (mistake,) = record.mistakes
    assert mistake.file.endswith(name) and mistake.sentence
    assert len(record.told) == 1 and name in record.told[0]
    later = _kept(tmp_path, proof(9, item("card")))
    assert later.proofs[-1].revision == 9 and len(later.entries) == 7


def test_numbers_of_files_that_cannot_be_read_are_not_given_again(tmp_path: Path) -> None:
    _kept(tmp_path, FIRST)
    (tmp_path / "suite.record" / "0008-proof-5-ABCDEFGH.toml").write_bytes(b"lost")
    record = read_record(suite_in(tmp_path))
    assert (record.last_number, record.last_revision) == (8, 5)
    assert write_event(record, YES).name.startswith("0009-answer-1-")


@pytest.mark.parametrize(
    ("find", "put"),
    [("approve", "change"), ("Ida", "Eve"), (DAY := "2026-11-26", "2026-11-27"), ("\n", "\n\n")],
)
def test_a_yes_that_was_edited_counts_no_longer(find: str, put: str, tmp_path: Path) -> None:
    record = _kept(tmp_path, FIRST, YES)
    file = record.folder / record.entries[1].file
    file.write_text(file.read_text(encoding="utf-8").replace(find, put, 1), encoding="utf-8")
    record = read_record(suite_in(tmp_path))
    assert record.answers == () and record.proofs == (FIRST,)
    assert "was changed since it was written" in record.told[0] and file.name in record.told[0]


def test_facts_must_have_their_fingerprint(tmp_path: Path) -> None:
    """Even under a name that fits: another's facts cannot stand beneath a fingerprint."""
    from mockup.record.text import content_mark

    text = written(FIRST, 1).content.replace(b'"oat", "oat"', b'"rust", "rust"')
    folder = record_folder(suite_in(tmp_path))
    folder.mkdir()
    (folder / f"0001-proof-1-{content_mark(text)}.toml").write_bytes(text)
    record = read_record(suite_in(tmp_path))
    assert record.entries == () and "do not have the fingerprint" in record.told[0]


def test_line_ends_of_another_system_change_nothing(tmp_path: Path) -> None:
    record = _kept(tmp_path, *EVENTS)
    for file in record.folder.iterdir():
        file.write_bytes(file.read_bytes().replace(b"\n", b"\r\n"))
    assert read_record(suite_in(tmp_path)).entries == record.entries


def test_two_peoples_records_merged_are_told_and_nothing_is_lost(tmp_path: Path) -> None:
    """As two branches of git come together: each wrote its second proof under the same number."""
    for name in ("ours", "theirs"):
        folder = tmp_path / name
        folder.mkdir()
        _kept(folder, FIRST, proof(2, item("card", quantity="1" if name == "ours" else "2")))
    ours, theirs = (tmp_path / name / "suite.record" for name in ("ours", "theirs"))
    for file in theirs.iterdir():
        file.replace(ours / file.name)
    record = read_record(suite_in(tmp_path / "ours"))
    assert len(record.proofs) == 3 and record.mistakes == ()
    (told,) = record.told
    assert "revision 2 stands for 2 different proofs" in told
    assert all(each.file in told for each in record.entries[1:])


def test_two_who_write_at_once_lose_nothing(tmp_path: Path) -> None:
    """Both read the record before either wrote."""
    record = _kept(tmp_path, FIRST)
    write_event(record, YES)
    write_event(record, answer(FIRST, "change"))
    both = read_record(suite_in(tmp_path))
    assert len(both.answers) == 2 and both.told == ()
    one, other = both.entries[1:]
    assert one.number == other.number == 2 and len(both.ends) == 2
    assert both.followed(both.entries[0], one) and not both.followed(one, other)
    after = _kept(tmp_path, order([]))
    assert all(after.followed(each, after.entries[-1]) for each in after.entries[:-1])
    assert len(after.ends) == 1


def test_a_link_in_a_record_does_not_count(tmp_path: Path) -> None:
    record = _kept(tmp_path, FIRST, YES)
    file = record.folder / record.entries[1].file
    file.rename(tmp_path / "away.toml")
    file.symlink_to(tmp_path / "away.toml")
    assert read_record(suite_in(tmp_path)).answers == ()


def test_a_record_that_is_a_link_is_not_written_through(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    record_folder(suite_in(tmp_path)).symlink_to(tmp_path / "elsewhere")
    with pytest.raises(OutputError, match="is a link"):
        refuse_record(suite_in(tmp_path))
    with pytest.raises(OutputError, match="is a link"):
        write_event(read_record(suite_in(tmp_path)), FIRST)
    assert list((tmp_path / "elsewhere").iterdir()) == []


def test_a_record_that_is_a_file_is_told(tmp_path: Path) -> None:
    record_folder(suite_in(tmp_path)).write_text("")
    with pytest.raises(OutputError, match="is no folder") as told:
        refuse_record(suite_in(tmp_path))
    assert len(told.value.mistakes) == 1
    with pytest.raises(InputError, match=r"the record cannot be read \(it is no folder\)"):
        read_record(suite_in(tmp_path))


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root writes anywhere")
def test_a_folder_that_is_read_only_is_told(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    try:
        with pytest.raises(OutputError, match="cannot be made"):
            refuse_record(suite_in(tmp_path))
    finally:
        tmp_path.chmod(0o700)


KILLED = """
import os, sys
from pathlib import Path
from mockup.record.reading import read_record
from mockup.record.writing import write_event
from tests.record.made import answer, item, order, proof

def counted(event, arguments):
    global left
    if event in ("open", "os.mkdir", "os.rename", "os.remove", "os.fsync"):
        left -= 1
        if left < 0:
            os._exit(9)

def written(folder):
    first = proof(1, item("card"))
    for event in (first, answer(first, "approve"), order(first.items)):
        write_event(read_record(folder / "suite.toml"), event)

fsync = os.fsync
os.fsync = lambda handle: (counted("os.fsync", ()), fsync(handle))[1]
for moment in range(100):
    folder = Path(sys.argv[1]) / str(moment)
    folder.mkdir()
    child = os.fork()
    if child == 0:
        left = moment
        sys.addaudithook(counted)
        written(folder)
        os._exit(0)
    if os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0:
        break
"""


@pytest.mark.skipif(not hasattr(os, "fork"), reason="no fork here")
def test_killed_at_any_moment_the_record_is_whole(tmp_path: Path) -> None:
    """A process ends without a word before each of its steps on the disk, more than 20 of them."""
    first = proof(1, item("card"))
    events = (first, answer(first, "approve"), order(first.items))
    subprocess.run([sys.executable, "-c", KILLED, tmp_path], check=True)
    told: list[int] = []
    for moment in range(len(list(tmp_path.iterdir()))):
        folder = tmp_path / str(moment)
        record = read_record(folder / "suite.toml")
        assert record.mistakes == ()
        assert tuple(each.event for each in record.entries) == events[: len(record.entries)]
        told.append(len(record.entries))
        after = _kept(folder, *events)  # and it goes on from there
        assert tuple(each.event for each in after.entries) == events
    assert len(told) > 20 and told == sorted(told)
    assert set(told) == {0, 1, 2, 3} and told[-1] == 3
