"""Fingerprints: one short code for all that makes a piece what it is, and the facts behind it."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from mockup.reading.showing import for_client
from mockup.record.facts import Fact, envelope_facts, piece_facts
from mockup.suite.suite import Envelope, Piece, Suite

CROCKFORD = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Douglas Crockford's base 32: without I, L, O and U, which are misread or spell words."""

CODE_LETTERS = 8
_BITS_A_LETTER = 5
_SCHEME = "fingerprint 1"  # another way of counting would give other codes, and says so


@dataclass(frozen=True)
class Fingerprint:
    """The mark of a piece: the SHA-256 of its facts, in hexadecimal, and the facts themselves.

    Two are the same where their digests are: not by path, time, order of keys or machine, and not
    by the names a person gives to the same thing.
    """

    digest: str
    facts: tuple[Fact, ...]

    @property
    def short(self) -> str:
        """The code a person reads, as `7K2M-9QXD`: the first 40 bits of the digest.

        Two different pieces have the same one by a chance of 1 in 1,100,000,000,000; some two of a
        thousand, by 1 in 2,000,000. What is compared is always the whole digest.
        """
        code = code_of(self.digest)
        return f"{code[:4]}-{code[4:]}"

    @property
    def told(self) -> dict[str, str]:
        """The facts as a reader is told them, by name."""
        return {fact.name: fact.told for fact in self.facts}


@dataclass(frozen=True)
class Named:
    """A piece or an envelope by its name in the suite (`invitation`, `envelopes.outer`), its title
    and its fingerprint."""

    name: str
    title: str
    fingerprint: Fingerprint


def fingerprints(suite: Suite) -> tuple[Named, ...]:
    """Returns the fingerprint of every piece and envelope, in the suite's order.

    They are of what a client is shown, whoever looks: the studio's proof of a suite bears the same
    codes. Raises InputError and LimitError for art that cannot be read.
    """
    seen = as_shown(suite)
    pieces = [Named(each.name, each.title, piece_fingerprint(each)) for each in seen.pieces]
    envelopes = [
        Named(envelope_name(each), each.title, envelope_fingerprint(each, suite.bleed_in))
        for each in seen.envelopes
    ]
    return (*pieces, *envelopes)


def as_shown(suite: Suite) -> Suite:
    """Returns a suite as a client is shown it, whoever has it at hand. Raises as fingerprints."""
    return for_client(replace(suite, pieces=tuple(piece.whole for piece in suite.pieces)))


def envelope_name(envelope: Envelope) -> str:
    """Returns the name an envelope has in a record and in findings: `envelopes.outer`."""
    return f"envelopes.{envelope.name}"


def piece_fingerprint(piece: Piece) -> Fingerprint:
    """Returns the fingerprint of a piece as it is given, with what is left out of its art."""
    return fingerprint_of(piece_facts(piece))


def envelope_fingerprint(envelope: Envelope, bleed_in: float) -> Fingerprint:
    """Returns the fingerprint of an envelope; `bleed_in` is the bleed of the suite's liners."""
    return fingerprint_of(envelope_facts(envelope, bleed_in))


def fingerprint_of(facts: Sequence[Fact]) -> Fingerprint:
    """Returns the fingerprint of facts, the same in whatever order they come."""
    said = json.dumps(sorted((fact.name, fact.value) for fact in facts))
    return Fingerprint(_digest(_SCHEME, said), tuple(facts))


def mark_of(items: Iterable[Named]) -> str:
    """Returns the code of a whole suite, as `7K2M9QXD`: of its names and their fingerprints."""
    said = json.dumps(sorted((each.name, each.fingerprint.digest) for each in items))
    return code_of(_digest("suite 1", said))


def code_of(digest: str) -> str:
    """Returns the first 40 bits of a hexadecimal digest as 8 letters of CROCKFORD."""
    bits = int(digest, 16) >> (len(digest) * 4 - CODE_LETTERS * _BITS_A_LETTER)
    places = range(CODE_LETTERS - 1, -1, -1)
    return "".join(CROCKFORD[bits >> place * _BITS_A_LETTER & 31] for place in places)


def _digest(scheme: str, said: str) -> str:
    return hashlib.sha256(f"{scheme}\n{said}".encode()).hexdigest()
