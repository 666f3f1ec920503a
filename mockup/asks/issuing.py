"""How a proof goes out: under which number, over no other, in the record before it does."""

from __future__ import annotations

from collections.abc import Generator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from mockup.asks.keeping import keep_pictures
from mockup.errors import Mistake, OutputError
from mockup.output.files import whole_file
from mockup.record.events import Proof
from mockup.record.fingerprint import as_shown, fingerprints
from mockup.record.folder import refuse_record
from mockup.record.reading import Record, read_record
from mockup.record.revisions import Issue, next_issue
from mockup.record.untouched import digests_of
from mockup.record.writing import write_event
from mockup.sources import is_there, read_whole, sha256_of
from mockup.suite.audience import Audience
from mockup.suite.suite import Suite
from mockup.trade.limits import FILE_MAX_BYTES


@dataclass(frozen=True)
class Issuing:
    """A proof about to be made: the suite as it is shown, its record so far, what it will bear."""

    suite: Suite
    record: Record
    issue: Issue
    audience: Audience

    @property
    def usual_name(self) -> Path:
        """The file a proof is written to where none is named: beside the suite, by its number."""
        path = self.suite.path
        return path.with_name(f"{path.stem}-proof-{self.issue.revision}.pdf")


def open_issue(suite: Suite, audience: Audience, date: str) -> Issuing:
    """Returns a proof about to be made of a suite.

    Raises OutputError where its record cannot be written, so that no proof is made that the record
    does not know; InputError and LimitError for art or a record that cannot be read.
    """
    refuse_record(suite.path)
    record = read_record(suite.path)
    issue = next_issue(record, fingerprints(suite), suite.revision, date)
    return Issuing(as_shown(suite), record, issue, audience)


def refuse_sent(issuing: Issuing, output: Path) -> None:
    """Raises OutputError where a file is a client's proof of another revision, or one that was
    changed since it was written: filled in, perhaps."""
    if not is_there(output):
        return
    sent = [each for each in issuing.record.proofs if each.audience is Audience.CLIENT]
    mark = sha256_of(read_whole(output, FILE_MAX_BYTES, OutputError))
    same = next((each for each in sent if each.sha256 == mark), None)
    other = f"name another file, such as {issuing.usual_name.name}"
    if same is not None and same.revision != issuing.issue.revision:
        said = (
            f"is the proof of revision {same.revision}, {same.date}, which is not written over; "
            f"this one is revision {issuing.issue.revision}: {other}"
        )
        raise OutputError(Mistake(said, str(output)))
    named = [each for each in sent if each.file == output.name]
    if same is None and named and output.parent.samefile(issuing.suite.path.parent):
        said = (
            f"was the proof of revision {named[-1].revision} and was changed since, filled in "
            f"perhaps; it is not written over: {other}"
        )
        raise OutputError(Mistake(said, str(output)))


def keep_proof(issuing: Issuing, output: Path, beside: Path) -> None:
    """Keeps a proof in the record: a small picture of each piece, then the event.

    `beside` holds the bytes that will be `output` once this is done: a proof that can be sent is in
    the record; one that was stopped here is made again, to the same event. Raises OutputError.
    """
    issue, record = issuing.issue, issuing.record
    keep_pictures(issuing.suite, record, issue.items)
    mark = sha256_of(read_whole(beside, FILE_MAX_BYTES, OutputError))
    told = (issue.revision, issue.date, issuing.audience, issuing.suite.title)
    pages = digests_of(beside)
    write_event(record, Proof(*told, output.name, mark, issue.items, pages))


@contextmanager
def sent(issuing: Issuing, output: Path) -> Generator[Path]:
    """Yields a file to write a proof to, which is in the record before it has its name."""
    with whole_file(output) as beside:
        try:
            yield beside
        except OutputError as error:  # which names the file that was being written
            told = (
                replace(each, sentence=each.sentence.replace(str(beside), str(output)))
                for each in error.mistakes
            )
            raise OutputError(*told) from error
        keep_proof(issuing, output, beside)
