"""How each piece of a suite stands: approved, asked to change, changed since, ordered.

A yes covers the fingerprint it was given to and nothing else. A piece goes by its name; one whose
name is new goes on where another left off whose fingerprint it has and whose name is gone.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from mockup.record.changes import changed
from mockup.record.events import Answer, Choice, Entry, Order, Proof
from mockup.record.fingerprint import Named
from mockup.record.reading import Record

State = Literal["approved", "to change", "changed", "waiting", "not proofed"]
"""`changed`: approved once, but not as it is now. `waiting`: proofed as it is, and not answered."""

NOT_KNOWN = "what changed cannot be told: that proof is not in the record"


@dataclass(frozen=True)
class Ordered:
    """The last order of a piece: its day, the printer, what changed since, what was waived."""

    date: str
    printer: str
    changed: tuple[str, ...]
    anyway: tuple[str, ...]


@dataclass(frozen=True)
class Standing:
    """How a piece stands. `revision`, `date`, `by` and `comment` are of the answer that tells its
    state, or, of one that waits, of the proof; empty where there is none.

    `changed` says in words what differs from what was answered, else from what was last proofed;
    `since` is the revision of that. `proofed` is the newest revision that shows it as it is now.
    """

    item: Named
    state: State
    revision: int | None = None
    date: str = ""
    by: str = ""
    comment: str = ""
    changed: tuple[str, ...] = ()
    since: int | None = None
    proofed: int | None = None
    ordered: Ordered | None = None


@dataclass(frozen=True)
class Status:
    """How a suite stands: each piece and envelope, those that are gone since they were last
    proofed or ordered, and what of the record does not count."""

    standings: tuple[Standing, ...]
    gone: tuple[Standing, ...]
    told: tuple[str, ...]

    @property
    def approved(self) -> bool:
        """Whether every piece is approved as it is now, and the record holds nothing in doubt."""
        return not self.told and all(each.state == "approved" for each in self.standings)

    @property
    def order_holds(self) -> bool:
        """Whether all that was ordered is still as it was ordered."""
        orders = [each.ordered for each in (*self.standings, *self.gone)]
        return not any(each.changed for each in orders if each is not None)


@dataclass(frozen=True)
class _Answered:
    """One choice of an answer, and its place in the record."""

    entry: Entry
    answer: Answer
    choice: Choice


def status_of(items: Sequence[Named], record: Record) -> Status:
    """Returns how pieces and envelopes, as they are now, stand by their record."""
    present = {each.name for each in items}
    names = {each.name: _names(each, present, record) for each in items}
    standings = tuple(_standing(each, names[each.name], record) for each in items)
    known = {name for each in names.values() for name in each}
    gone = tuple(_gone(each, record) for each in _last_of_all(record) if each.name not in known)
    at_odds = [line for each in items for line in _at_odds(each, names[each.name], record)]
    return Status(standings, gone, (*record.told, *at_odds))


def _names(item: Named, present: set[str], record: Record) -> frozenset[str]:
    """Returns the names a piece goes by in the record: its own, and those it was renamed from."""
    digest = item.fingerprint.digest
    former = {
        each.name
        for each in _shown(record)
        if each.fingerprint.digest == digest and each.name not in present
    }
    return frozenset({item.name} | former)


def _standing(item: Named, names: frozenset[str], record: Record) -> Standing:
    answered = [each for each in _answers(record) if each.choice.name in names]
    said = _said_now(item, answered, record)
    proofed = _proofed(item, names, record)
    revision = None if proofed is None else proofed.revision
    ordered = _ordered(item, names, record)
    if said is not None:
        state: State = "approved" if said.choice.said == "approve" else "to change"
        return Standing(item, state, *_told(said), (), None, revision, ordered)
    yes = [each for each in answered if each.choice.said == "approve"]
    if yes:
        since = (_changed_since(yes[-1], item, record), yes[-1].answer.revision)
        return Standing(item, "changed", *_told(yes[-1]), *since, revision, ordered)
    words, since_revision, comment = _since_last(item, names, answered, record)
    if proofed is None:
        told = (None, "", "", comment, words, since_revision)
        return Standing(item, "not proofed", *told, None, ordered)
    told = (revision, proofed.date, "", comment, words, since_revision)
    return Standing(item, "waiting", *told, revision, ordered)


def _told(said: _Answered) -> tuple[int, str, str, str]:
    """Returns revision, day, name and comment of an answer; the whole proof's comment where the
    piece has none of its own."""
    answer = said.answer
    return answer.revision, answer.date, answer.by, said.choice.comment or answer.comment


def _said_now(item: Named, answered: Sequence[_Answered], record: Record) -> _Answered | None:
    """Returns the last answer to a piece as it is now, None where there is none.

    Of answers recorded apart, none of which knew of the other, one that asks for a change counts.
    """
    last = _last_said(item, answered, record)
    asking = [each for each in last if each.choice.said == "change"]
    return next(reversed(asking or last), None)


def _last_said(item: Named, answered: Sequence[_Answered], record: Record) -> list[_Answered]:
    """Returns the answers to a piece as it is now that no other one of them followed."""
    now = [each for each in answered if each.choice.digest == item.fingerprint.digest]
    return [
        each for each in now if not any(record.followed(each.entry, other.entry) for other in now)
    ]


def _at_odds(item: Named, names: frozenset[str], record: Record) -> list[str]:
    """Returns a line where answers recorded apart contradict one another."""
    answered = [each for each in _answers(record) if each.choice.name in names]
    last = _last_said(item, answered, record)
    if len({each.choice.said for each in last}) < 2:
        return []
    files = " and ".join(each.entry.file for each in last)
    return [
        f"{record.folder}: {files}, recorded apart, say yes and no to {item.name}; it counts as to "
        "be changed until it is answered again"
    ]


def _changed_since(said: _Answered, item: Named, record: Record) -> tuple[str, ...]:
    digest = said.choice.digest
    was = next((each for each in _shown(record) if each.fingerprint.digest == digest), None)
    return changed(was.fingerprint.facts, item.fingerprint.facts) if was else (NOT_KNOWN,)


def _since_last(
    item: Named, names: frozenset[str], answered: Sequence[_Answered], record: Record
) -> tuple[tuple[str, ...], int | None, str]:
    """Returns what differs from the last answer, else the last proof that shows it otherwise: in
    words, its revision, and what was asked for then."""
    if answered:
        said = answered[-1]
        return _changed_since(said, item, record), said.answer.revision, _told(said)[-1]
    for proof in reversed(record.proofs):
        for was in proof.items:
            if was.name in names and not _is(item, was):
                words = changed(was.fingerprint.facts, item.fingerprint.facts)
                return words, proof.revision, ""
    return (), None, ""


def _proofed(item: Named, names: frozenset[str], record: Record) -> Proof | None:
    """Returns the newest proof that shows a piece as it is now."""
    fitting = (
        proof
        for proof in reversed(record.proofs)
        if any(each.name in names and _is(item, each) for each in proof.items)
    )
    return next(fitting, None)


def _is(item: Named, other: Named) -> bool:
    return other.fingerprint.digest == item.fingerprint.digest


def _ordered(item: Named, names: frozenset[str], record: Record) -> Ordered | None:
    found = _last_order(names, record)
    if found is None:
        return None
    order, was = found
    words = changed(was.fingerprint.facts, item.fingerprint.facts)
    return Ordered(order.date, order.printer, words, order.anyway)


def _last_order(names: frozenset[str], record: Record) -> tuple[Order, Named] | None:
    for order in reversed(record.orders):
        for was in order.items:
            if was.name in names:
                return order, was
    return None


def _gone(item: Named, record: Record) -> Standing:
    """Returns how a piece stands that the suite has no more."""
    found = _last_order(frozenset({item.name}), record)
    if found is None:
        return Standing(item, "not proofed")
    order, _ = found
    ordered = Ordered(order.date, order.printer, ("taken out of the suite",), order.anyway)
    return Standing(item, "not proofed", ordered=ordered)


def _last_of_all(record: Record) -> list[Named]:
    """Returns what the newest proof shows and what any order holds, each name once."""
    last = [each for proof in record.proofs[-1:] for each in proof.items]
    held = [each for order in reversed(record.orders) for each in order.items]
    return list({each.name: each for each in reversed([*last, *held])}.values())[::-1]


def _shown(record: Record) -> Iterator[Named]:
    """Yields what proofs and orders hold, the oldest first."""
    for entry in record.entries:
        if not isinstance(entry.event, Answer):
            yield from entry.event.items


def _answers(record: Record) -> Iterator[_Answered]:
    """Yields every choice of every answer, the oldest first."""
    for entry in record.entries:
        if isinstance(entry.event, Answer):
            yield from (_Answered(entry, entry.event, choice) for choice in entry.event.choices)
