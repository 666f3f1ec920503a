"""What a record tells of: a proof made, an answer to one, an order made."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from mockup.record.fingerprint import Named, mark_of
from mockup.suite.audience import Audience

Said = Literal["approve", "change"]


@dataclass(frozen=True)
class Proof:
    """A proof that was made: its revision, the day it bears, what is on it, the file as written.

    `date` is as ISO 8601 writes a day; `file` is its name alone, for paths differ from one machine
    to another; `sha256` is of its bytes.
    """

    revision: int
    date: str
    audience: Audience
    title: str
    file: str
    sha256: str
    items: tuple[Named, ...]
    pages: tuple[str, ...] = ()
    """The SHA-256 of what each page draws, whatever file holds it."""

    @property
    def mark(self) -> str:
        """The code of all that is on it, as `7K2M9QXD`: two proofs of one suite have the same."""
        return mark_of(self.items)

    def item(self, name: str) -> Named | None:
        """Returns a piece or an envelope of the proof, None where it is not on it."""
        return next((each for each in self.items if each.name == name), None)


@dataclass(frozen=True)
class Choice:
    """What was said of one piece, by its name and the digest of its fingerprint on the proof."""

    name: str
    digest: str
    said: Said
    comment: str = ""


@dataclass(frozen=True)
class Answer:
    """A proof that came back: which revision and mark it answers, by whom, and what was said.

    `file` is the name of the file it was read from and `sha256` the mark of its bytes; `read_as`
    says how it was read, in words: `form fields`, `by hand`.
    """

    revision: int
    mark: str
    date: str
    by: str
    choices: tuple[Choice, ...]
    comment: str = ""
    file: str = ""
    sha256: str = ""
    read_as: str = ""


@dataclass(frozen=True)
class OrderedFile:
    """A file made for the printer: its name, which piece it is of, the SHA-256 of its bytes."""

    file: str
    name: str
    sha256: str


@dataclass(frozen=True)
class Order:
    """An order that was made: for whom, its files, what it was made of, and what was waived.

    `anyway` has a line for everything that stood against it and was ordered all the same.
    """

    date: str
    printer: str
    files: tuple[OrderedFile, ...]
    items: tuple[Named, ...]
    anyway: tuple[str, ...] = ()

    def item(self, name: str) -> Named | None:
        """Returns a piece or an envelope of the order, None where it was not ordered."""
        return next((each for each in self.items if each.name == name), None)


Event = Proof | Answer | Order


@dataclass(frozen=True)
class Entry:
    """An event in its place: the number it was written under, the name of its file, the mark of
    its text, and the marks of those events that nothing had followed when it was written."""

    number: int
    file: str
    event: Event
    mark: str
    after: tuple[str, ...]
