"""An event as the text of its file, and back; the file's name bears the mark of what is in it."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from mockup.errors import Mistake, SuiteError, quoted
from mockup.record.events import Answer, Choice, Entry, Event, Order, OrderedFile, Proof
from mockup.record.facts import Fact
from mockup.record.fingerprint import CODE_LETTERS, CROCKFORD, Named, code_of, fingerprint_of
from mockup.record.schema import TABLES, VERSION, AnswerTable, ItemTable, OrderTable, ProofTable
from mockup.suite.audience import Audience
from mockup.tables.reading import toml_tables
from mockup.tables.wording import form_mistakes

HEAD = "# Written by mockup; changed by hand, it counts no longer.\n"
NAME = re.compile(
    rf"(?P<number>[0-9]{{4,7}})-(?P<kind>proof|answer|order)(?:-(?P<revision>[0-9]{{1,7}}))?"
    rf"-(?P<mark>[{CROCKFORD}]{{{CODE_LETTERS}}})\.toml"
)
"""Its place, what it tells of, of which revision, and the mark of its text."""

Rows = list[tuple[str, str | int]]


@dataclass(frozen=True)
class Written:
    """An event's file: its name, and its bytes in UTF-8."""

    name: str
    content: bytes


def written(event: Event, number: int, after: Sequence[str] = ()) -> Written:
    """Returns the file of an event in its place, `after` the events of those marks. The same event
    in the same place gives the same bytes."""
    content = _text(event, number, after).encode()
    kind = event_kind(event)
    revision = "" if isinstance(event, Order) else f"-{event.revision}"
    return Written(f"{number:04d}-{kind}{revision}-{content_mark(content)}.toml", content)


def event_kind(event: Event) -> str:
    """Returns what an event is called in its file: `proof`, `answer` or `order`."""
    return {Proof: "proof", Answer: "answer", Order: "order"}[type(event)]


def content_mark(content: bytes) -> str:
    """Returns the mark of a file's text, whatever its lines end with.

    It tells a change by accident or by hand. It is no seal: who changes the name as well, or writes
    another record, is found out by the file that was sent, not by this.
    """
    return code_of(hashlib.sha256(content.replace(b"\r\n", b"\n")).hexdigest())


def entry_of(path: Path, content: bytes) -> Entry:
    """Returns the event of a file of the record. Raises SuiteError and LimitError where it is none
    of ours, was changed since it was written, or cannot be read."""
    name = NAME.fullmatch(path.name)
    if name is None:
        raise _refused(path, "is no event of this record")
    if content_mark(content) != name["mark"]:  # first: nobody is to mend it by hand
        said = "was changed since it was written, so it counts no longer; put it back as it was"
        raise _refused(path, said)
    raw = toml_tables(path, content)
    kind = raw.get("event")
    if raw.get("record") != VERSION or kind != name["kind"]:
        raise _refused(path, "was written by another version of mockup, or is no event of a record")
    table = TABLES[name["kind"]]
    if mistakes := form_mistakes(str(path), raw, table):
        raise SuiteError(*mistakes)
    read = table.model_validate(raw)
    return Entry(read.number, path.name, _event(path, read), name["mark"], read.after)


def _refused(path: Path, sentence: str) -> SuiteError:
    return SuiteError(Mistake(sentence, str(path)))


def _text(event: Event, number: int, after: Sequence[str]) -> str:
    rows: Rows = [("record", VERSION), ("event", event_kind(event)), ("number", number)]
    rows.append(("date", event.date))
    if isinstance(event, Proof):
        parts = _proof_parts(event, rows)
    elif isinstance(event, Answer):
        parts = _answer_parts(event, rows)
    else:
        parts = _order_parts(event, rows)
    return "\n".join([f"{HEAD}{_rows(rows)}after = {_list(after)}\n", *parts])


def _proof_parts(event: Proof, rows: Rows) -> list[str]:
    rows += [("revision", event.revision), ("audience", str(event.audience))]
    rows += [("title", event.title), ("file", event.file), ("sha256", event.sha256)]
    return [f"pages = {_list(event.pages)}\n", *(_item(each) for each in event.items)]


def _answer_parts(event: Answer, rows: Rows) -> list[str]:
    rows += [("revision", event.revision), ("mark", event.mark), ("by", event.by)]
    rows += [("comment", event.comment), ("file", event.file), ("sha256", event.sha256)]
    rows.append(("read_as", event.read_as))
    keys = ("name", "fingerprint", "said", "comment")
    tables = [(each.name, each.digest, each.said, each.comment) for each in event.choices]
    return [_table("choices", keys, each) for each in tables] or ["choices = []\n"]


def _order_parts(event: Order, rows: Rows) -> list[str]:
    rows.append(("printer", event.printer))
    keys = ("file", "name", "sha256")
    files = [_table("files", keys, (each.file, each.name, each.sha256)) for each in event.files]
    anyway = f"anyway = {_list(event.anyway)}\n"
    return [anyway, *(files or ["files = []\n"]), *(_item(each) for each in event.items)]


def _table(name: str, keys: Sequence[str], values: Sequence[str]) -> str:
    return f"[[{name}]]\n{_rows(zip(keys, values, strict=True))}"


def _item(item: Named) -> str:
    facts = "".join(
        f"  [{_quoted(fact.name)}, {_quoted(fact.value)}, {_quoted(fact.told)}],\n"
        for fact in item.fingerprint.facts
    )
    keys = ("name", "title", "fingerprint")
    told = _table("items", keys, (item.name, item.title, item.fingerprint.digest))
    return f"{told}facts = [\n{facts}]\n"


def _rows(rows: Iterable[tuple[str, str | int]]) -> str:
    return "".join(
        f"{key} = {value if isinstance(value, int) else _quoted(value)}\n" for key, value in rows
    )


def _list(texts: Sequence[str]) -> str:
    return f"[{', '.join(map(_quoted, texts))}]"


def _quoted(text: str) -> str:
    """Returns text as a basic string of TOML: JSON's, but for one character and lone surrogates."""
    sound = text.encode("utf-8", "replace").decode()
    return json.dumps(sound, ensure_ascii=False).replace("\x7f", "\\u007f")


def _event(path: Path, table: object) -> Event:
    if isinstance(table, ProofTable):
        audience, items = Audience(table.audience), _items(path, table.items)
        own = (table.title, table.file, table.sha256)
        return Proof(table.revision, table.date, audience, *own, items, table.pages)
    if isinstance(table, AnswerTable):
        choices = tuple(
            Choice(each.name, each.fingerprint, each.said, each.comment) for each in table.choices
        )
        told = (table.comment, table.file, table.sha256, table.read_as)
        return Answer(table.revision, table.mark, table.date, table.by, choices, *told)
    assert isinstance(table, OrderTable)
    files = tuple(OrderedFile(each.file, each.name, each.sha256) for each in table.files)
    return Order(table.date, table.printer, files, _items(path, table.items), table.anyway)


def _items(path: Path, tables: Sequence[ItemTable]) -> tuple[Named, ...]:
    return tuple(_named(path, each) for each in tables)


def _named(path: Path, table: ItemTable) -> Named:
    """Returns an item. Raises SuiteError where its facts do not have its fingerprint."""
    found = fingerprint_of([Fact(*each) for each in table.facts])
    if found.digest != table.fingerprint:
        said = f"its facts do not have the fingerprint of {quoted(table.name)}"
        raise SuiteError(Mistake(said, str(path), "items.fingerprint", table.fingerprint))
    return Named(table.name, table.title, found)
