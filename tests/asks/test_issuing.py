"""Proofs that go out: numbered, dated, in the record first, and never written over."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pikepdf
import pytest

import mockup
from mockup import OutputError, ProofAnswer, ProofRequest, RequestError
from mockup.asks import proof as proof_ask
from mockup.record import writing
from mockup.record.pictures import kept_picture
from mockup.record.reading import Record, read_record
from mockup.suite.audience import Audience
from tests.conftest import make_pdf
from tests.quickly import quickly

pytestmark = pytest.mark.usefixtures("plain_cover")

DAY = "2026-11-26"
SUITE = """
title = "Supper"
[pieces.card]
art = "card.pdf"
card = "3.5 x 2 in"
die = "ticket-corner"
quantity = 120
[envelopes.outer]
size = "4-bar"
holds = ["card"]
"""


def _art(folder: Path, content: str = "0.2 g 60 50 100 80 re f") -> Path:
    """Writes the card, small, for its pictures are half of what a proof takes: 1/8 in round it."""
    return make_pdf(folder / "card.pdf", (3.75, 2.25), content)


@pytest.fixture
def suite(tmp_path: Path) -> Path:
    _art(tmp_path)
    path = tmp_path / "suite.toml"
    path.write_text(SUITE)
    return path


def _proofed(suite: Path, name: str | None = "proof.pdf", **asked: str) -> ProofAnswer:
    output = None if name is None else suite.parent / name
    return mockup.write_proof(ProofRequest(suite, output, **{"date": DAY, **asked}))  # type: ignore[arg-type]


def _edit(suite: Path, old: str, new: str) -> None:
    suite.write_text(suite.read_text().replace(old, new))


def test_a_proof_is_in_the_record_as_it_was_written(suite: Path) -> None:
    answer = _proofed(suite)
    record = read_record(suite)
    (kept,) = record.proofs
    assert (kept.revision, kept.date, kept.audience, kept.title) == (1, DAY, "client", "Supper")
    assert kept.file == "proof.pdf"
    assert kept.sha256 == hashlib.sha256(answer.written.read_bytes()).hexdigest()
    codes = {each.name: each.fingerprint.short for each in kept.items}
    assert dict(answer.codes) == codes and list(codes) == ["card", "envelopes.outer"]
    assert (answer.revision, answer.date, answer.record) == (1, DAY, ())
    assert str(suite.parent) not in (record.folder / record.entries[0].file).read_text()


def test_its_pages_bear_the_number_the_day_and_the_codes(suite: Path) -> None:
    import pymupdf

    answer = _proofed(suite)
    with pymupdf.open(answer.written) as document:
        pages = [" ".join(page.get_text().replace("\u00a0", " ").split()) for page in document]
    codes = dict(answer.codes)
    assert all("Revision 1 of 26 November 2026" in page for page in pages)
    assert codes["card"] in pages[1] and codes["envelopes.outer"] in pages[2]
    assert codes["card"] in pages[-1] and codes["card"] not in pages[0]


def test_the_same_suite_on_the_same_day_gives_the_same_bytes_and_one_event(suite: Path) -> None:
    first = _proofed(suite).written.read_bytes()
    again = _proofed(suite, "again.pdf")
    assert again.written.read_bytes() == first and again.revision == 1
    assert _proofed(suite).written.read_bytes() == first
    assert [each.file for each in read_record(suite).proofs] == ["proof.pdf", "again.pdf"]


def test_an_unchanged_suite_keeps_its_number_on_another_day(suite: Path) -> None:
    _proofed(suite)
    later = _proofed(suite, date="2026-12-01")
    assert later.revision == 1
    assert [each.date for each in read_record(suite).proofs] == [DAY, "2026-12-01"]


CHANGES: dict[str, Callable[[Path], object]] = {
    "the die": lambda suite: _edit(suite, "ticket-corner", "rectangle"),
    "the art": lambda suite: _art(suite.parent, "60 50 90 80 re f"),
    "the quantity": lambda suite: _edit(suite, "120", "140"),
    "the envelope": lambda suite: _edit(suite, 'size = "4-bar"', 'size = "4-bar"\ncolour = "mist"'),
    "a piece more": lambda suite: _edit(
        suite, "[envelopes", '[pieces.b]\nart = "card.pdf"\ncard = "3.5 x 2 in"\n[envelopes'
    ),
}


@pytest.mark.parametrize("what", quickly(CHANGES, lambda n: n < 2))
def test_a_changed_suite_has_the_next_number_and_leaves_the_first_proof_alone(
    what: str, suite: Path
) -> None:
    sent = _proofed(suite).written
    before = sent.read_bytes()
    CHANGES[what](suite)
    told = (
        "is the proof of revision 1, 2026-11-26, which is not written over; this one is revision 2"
    )
    with pytest.raises(OutputError, match=told):
        _proofed(suite)
    assert sent.read_bytes() == before and len(read_record(suite).proofs) == 1
    assert _proofed(suite, "second.pdf").revision == 2
    assert [each.revision for each in read_record(suite).proofs] == [1, 2]


def test_a_proof_that_came_back_under_its_name_is_kept(suite: Path) -> None:
    """The client filled it in, and it was saved where it had come from."""
    sent = _proofed(suite).written
    with pikepdf.open(sent, allow_overwriting_input=True) as document:
        document.Root.Signed = pikepdf.String("Ida Marsh")
        document.save(sent)
    before = sent.read_bytes()
    with pytest.raises(OutputError, match="was changed since, filled in perhaps"):
        _proofed(suite)
    assert sent.read_bytes() == before
    assert _proofed(suite, "another.pdf").revision == 1


def test_a_studios_proof_has_a_number_and_may_be_written_over(suite: Path) -> None:
    assert _proofed(suite, audience="studio").revision == 1
    _edit(suite, "120", "140")
    assert _proofed(suite).revision == 2
    audiences = [each.audience for each in read_record(suite).proofs]
    assert audiences == [Audience.STUDIO, Audience.CLIENT]


def test_a_proof_without_a_name_lies_beside_its_suite_by_its_number(suite: Path) -> None:
    assert _proofed(suite, None).written == suite.parent / "suite-proof-1.pdf"
    _edit(suite, "120", "140")
    assert _proofed(suite, None).written == suite.parent / "suite-proof-2.pdf"


def test_a_name_of_its_own_is_looked_at_like_any_other_door(suite: Path) -> None:
    (suite.parent / "suite-proof-1.pdf").symlink_to(suite.parent / "card.pdf")
    with pytest.raises(OutputError, match="is a link"):
        _proofed(suite, None)
    assert read_record(suite).entries == ()


@pytest.mark.parametrize("date", ["26.11.2026", "2026-02-30", "", "tomorrow", "2026-11-26T10:00"])
def test_a_day_that_is_none_is_refused(date: str, suite: Path) -> None:
    with pytest.raises(RequestError, match="is no day"):
        _proofed(suite, date=date)


def test_a_record_that_cannot_be_written_stops_the_proof_before_the_work(
    suite: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A proof that the record does not know of could not be told from any other."""
    drawn: list[object] = []
    monkeypatch.setattr(proof_ask, "flatlay_picture", lambda *all: drawn.append(all))
    (suite.parent / "away").mkdir()
    (suite.parent / "suite.record").symlink_to(suite.parent / "away")
    with pytest.raises(OutputError, match=r"suite\.record: is a link"):
        _proofed(suite)
    assert drawn == [] and not (suite.parent / "proof.pdf").exists()


def test_where_the_record_fails_there_is_no_proof(
    suite: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(writing.os, "fsync", full)
        with pytest.raises(OutputError, match="No space left"):
            _proofed(suite)
    assert not [
        each for each in suite.parent.iterdir() if each.suffix == ".pdf" and "card" not in each.name
    ]
    assert read_record(suite) == Record(suite.parent / "suite.record")
    assert _proofed(suite).revision == 1


def test_stopped_between_the_record_and_the_file_it_is_made_again(
    suite: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The record is first; the next run comes to the same event, and to the file."""

    def stopped(path: Path, target: Path) -> None:
        if path.suffix == ".pdf" and target.name == "proof.pdf":
            raise KeyboardInterrupt
        rename(path, target)

    rename = Path.replace
    with monkeypatch.context() as patch:
        patch.setattr(Path, "replace", stopped)
        with pytest.raises(KeyboardInterrupt):
            _proofed(suite)
    entries = read_record(suite).entries
    assert len(entries) == 1 and not (suite.parent / "proof.pdf").exists()
    assert _proofed(suite).revision == 1 and read_record(suite).entries == entries
    mark = hashlib.sha256((suite.parent / "proof.pdf").read_bytes()).hexdigest()
    assert read_record(suite).proofs[0].sha256 == mark


@pytest.mark.parametrize("kind", ["*.toml", "pictures/*.png"])
def test_nothing_in_a_record_is_written_over(kind: str, suite: Path) -> None:
    _proofed(suite)
    (kept,) = (suite.parent / "suite.record").glob(kind)
    other = suite.parent / "other.pdf"
    other.hardlink_to(kept)
    with pytest.raises(OutputError, match="is read for this"):
        _proofed(suite, "other.pdf")
    if kind.startswith("pictures"):
        with pytest.raises(OutputError, match="is read for this"):
            mockup.lay_flatlay(mockup.FlatlayRequest(suite, kept, 300))


def test_what_a_revision_showed_is_kept_as_a_picture(suite: Path) -> None:
    _proofed(suite)
    _art(suite.parent, "1 0 0 rg 60 50 100 80 re f")
    _proofed(suite, "second.pdf")
    record = read_record(suite)
    first, second = (kept_picture(record, number, "card") for number in (1, 2))
    assert first and second and first.picture.shape == second.picture.shape == (602, 1052, 4)
    assert first.ppi == pytest.approx(300, abs=0.02)
    changed = np.abs(first.picture.astype(int) - second.picture).max(axis=2) > 40
    rows, columns = np.nonzero(changed)
    trim = 9  # the art lies 1/8 in outside the trim
    left, right = (60 - trim) / 72 * 300, (160 - trim) / 72 * 300
    assert columns.min() == pytest.approx(left, abs=2) and columns.max() == pytest.approx(
        right, abs=2
    )
    assert rows.max() == pytest.approx((2.125 - 50 / 72) * 300, abs=2)
    assert first.picture[0, 0, 3] == 0 and first.picture[300, 500, 3] == 255
    assert kept_picture(record, 1, "envelopes.outer") is None


def test_what_does_not_count_in_the_record_is_told_with_the_proof(suite: Path) -> None:
    _proofed(suite)
    (suite.parent / "suite.record" / "0007-proof-4-ABCDEFGH.toml").write_text("half")
    _edit(suite, "120", "140")
    answer = _proofed(suite, "second.pdf")
    assert answer.revision == 5 and "0007-proof-4-ABCDEFGH.toml" in answer.record[0]
