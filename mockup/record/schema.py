"""What may stand in a file of the record, in TOML's own terms."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, Strict, StringConstraints

from mockup.suite.schema import ENVELOPES_MAX, PIECES_MAX, Table
from mockup.trade.limits import PAGES_MAX

VERSION = 1
NUMBER_MAX = 1_000_000  # judgement: nobody makes so many proofs
FACTS_MAX, FILES_MAX = 200, 1_000  # judgement: many times what a suite has
AFTER_MAX = 1_000  # judgement: so many people write one record apart
TEXT_MAX = 10_000  # judgement: a long comment

Whole = Annotated[int, Field(ge=1, le=NUMBER_MAX)]
Text = Annotated[str, StringConstraints(max_length=TEXT_MAX)]
Word = Annotated[str, StringConstraints(min_length=1, max_length=TEXT_MAX)]
Digest = Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{64}$")]
Day = Annotated[str, StringConstraints(pattern=r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$")]
Three = Annotated[tuple[Word, Text, Text], Strict(False)]
"""A fact: name, value, and how it is told."""

ITEMS_MAX = PIECES_MAX + ENVELOPES_MAX


class ItemTable(Table):
    """`[[items]]`: a piece or an envelope, and its facts."""

    name: Word
    title: Word
    fingerprint: Digest
    facts: Annotated[tuple[Three, ...], Strict(False), Field(max_length=FACTS_MAX)]


Items = Annotated[tuple[ItemTable, ...], Strict(False), Field(max_length=ITEMS_MAX)]


class EventTable(Table):
    """What every event says."""

    record: Literal[1]
    number: Whole
    date: Day
    after: Annotated[tuple[Word, ...], Strict(False), Field(max_length=AFTER_MAX)]


class ProofTable(EventTable):
    """`event = "proof"`."""

    event: Literal["proof"]
    revision: Whole
    audience: Literal["client", "studio"]
    title: Word
    file: Word
    sha256: Digest
    pages: Annotated[tuple[Digest, ...], Strict(False), Field(max_length=PAGES_MAX)] = ()
    items: Items = ()


class ChoiceTable(Table):
    """`[[choices]]`: what was said of one piece."""

    name: Word
    fingerprint: Digest
    said: Literal["approve", "change"]
    comment: Text = ""


class AnswerTable(EventTable):
    """`event = "answer"`."""

    event: Literal["answer"]
    revision: Whole
    mark: Word
    by: Text
    comment: Text = ""
    file: Text = ""
    sha256: Text = ""
    read_as: Text = ""
    choices: Annotated[tuple[ChoiceTable, ...], Strict(False), Field(max_length=ITEMS_MAX)]


class FileTable(Table):
    """`[[files]]`: a file made for the printer."""

    file: Word
    name: Word
    sha256: Digest


class OrderTable(EventTable):
    """`event = "order"`."""

    event: Literal["order"]
    printer: Text
    anyway: Annotated[tuple[Word, ...], Strict(False), Field(max_length=FILES_MAX)] = ()
    files: Annotated[tuple[FileTable, ...], Strict(False), Field(max_length=FILES_MAX)]
    items: Items = ()


TABLES: dict[str, type[EventTable]] = {
    "proof": ProofTable,
    "answer": AnswerTable,
    "order": OrderTable,
}
