"""Which number a proof has: that of the last one while nothing changed, else the next."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from mockup.record.events import Proof
from mockup.record.fingerprint import Named, mark_of
from mockup.record.reading import Record

_WHOLE = re.compile(r"[1-9][0-9]{0,5}")


def revision_of(record: Record, items: Sequence[Named], written: str) -> int:
    """Returns the revision of a proof of these pieces and envelopes.

    `written` is what the suite file says of it: where that is a whole number counting begins
    there, and goes on from there once it is above the record's own. Every proof takes part,
    the studio's too: two different proofs never have one number.
    """
    last = last_proof(record)
    if last is not None:
        marks = {each.mark for each in record.proofs if each.revision == last.revision}
        if marks == {mark_of(items)}:  # of a number that stands for two proofs none is kept
            return last.revision
    asked = int(written) if _WHOLE.fullmatch(written.strip()) else 1
    return max(record.last_revision + 1, asked)


def last_proof(record: Record) -> Proof | None:
    """Returns the proof with the highest revision, of several the newest; None where none is."""
    return max(reversed(record.proofs), key=lambda each: each.revision, default=None)


def revision_told(revision: int, written: str) -> str:
    """Returns a revision as a proof prints it: `3`; where the suite file has a word of its own for
    it, `B, no. 3`."""
    word = written.strip()
    return str(revision) if not word or _WHOLE.fullmatch(word) else f"{word}, no. {revision}"


@dataclass(frozen=True)
class Issue:
    """What a proof bears: its revision, as it is printed too, its day (ISO 8601), and all that is
    on it with their fingerprints."""

    revision: int
    told: str
    date: str
    items: tuple[Named, ...]

    @property
    def mark(self) -> str:
        """The code of the whole suite, as `7K2M9QXD`."""
        return mark_of(self.items)

    @property
    def codes(self) -> dict[str, str]:
        """The short fingerprint of every piece and envelope, by its name."""
        return {each.name: each.fingerprint.short for each in self.items}


def next_issue(record: Record, items: Sequence[Named], written: str, date: str) -> Issue:
    """Returns what the next proof of a suite bears; `written` is as revision_of takes it."""
    revision = revision_of(record, items, written)
    return Issue(revision, revision_told(revision, written), date, tuple(items))
