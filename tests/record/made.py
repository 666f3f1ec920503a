"""Records made for tests: items of a few facts, proofs, answers and orders of them."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from mockup.record.events import Answer, Choice, Order, OrderedFile, Proof, Said
from mockup.record.facts import Fact
from mockup.record.fingerprint import Named, fingerprint_of
from mockup.suite.audience import Audience

DAY = "2026-11-26"


def item(name: str, **facts: str) -> Named:
    """A piece with facts; by itself the one art."""
    said = {"art": "a" * 64, **facts}
    told = [Fact(key.replace("_", " "), value, value) for key, value in said.items()]
    return Named(name, name.title(), fingerprint_of(told))


def proof(revision: int, *items: Named, date: str = DAY, sha256: str = "b" * 64) -> Proof:
    return Proof(revision, date, Audience.CLIENT, "Supper", "proof.pdf", sha256, items)


def answer(to: Proof, said: Said, *names: str, by: str = "Ida Marsh", comment: str = "") -> Answer:
    chosen = [each for each in to.items if each.name in names or not names]
    choices = tuple(Choice(each.name, each.fingerprint.digest, said, comment) for each in chosen)
    return Answer(to.revision, to.mark, DAY, by, choices, "", "back.pdf", "c" * 64, "form fields")


def order(items: Sequence[Named], *anyway: str) -> Order:
    files = tuple(OrderedFile(f"{each.name}-cut-line.pdf", each.name, "d" * 64) for each in items)
    return Order(DAY, "Weir Lane Press", files, tuple(items), anyway)


def suite_in(folder: Path) -> Path:
    """The path of a suite whose record is tested; the file itself is not read."""
    return folder / "suite.toml"
