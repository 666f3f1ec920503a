"""A breakage to plant: a realistic fault, one exact text put in place of another."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Breakage:
    """A fault: its name, the file under mockup/, the text that is there and the text put there."""

    name: str
    file: str
    old: str
    new: str


def planted(file: str, *rows: tuple[str, str, str]) -> tuple[Breakage, ...]:
    """Returns the breakages of one file."""
    return tuple(Breakage(name, file, old, new) for name, old, new in rows)
