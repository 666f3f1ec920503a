"""Every error a user can meet: one sentence each, and the exit code it ends the program with."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from enum import IntEnum
from typing import TypeVar, cast

Read = TypeVar("Read")
Other = TypeVar("Other")
LONGEST_QUOTED = 60  # judgement: enough to find the place by


class ExitCode(IntEnum):
    """What the process answers.

    2 is the argument parser's own code for wrong usage; 70 is EX_SOFTWARE of BSD's sysexits, for a
    fault of the program's own; 128 and a signal's number is what shells say of a signal.
    """

    DONE = 0
    USAGE = 2
    SUITE = 3
    INPUT = 4
    OUTPUT = 5
    SYSTEM = 6
    LIMIT = 7
    WARNINGS = 10
    STOPS = 20
    FAULT = 70
    INTERRUPTED = 130
    TERMINATED = 143


@dataclass(frozen=True)
class Mistake:
    """One thing that is wrong: the sentence a user reads, and the place it stands at.

    `file` is the file as it was named, `key` the path of keys inside it (`pieces.reply.die`, the
    second of a list `dies.2`), `value` what was found there; each is empty where there is none.
    """

    sentence: str
    file: str = ""
    key: str = ""
    value: str = ""

    def __str__(self) -> str:
        """Returns the one line a user reads; what no line can hold is escaped."""
        return one_line(": ".join(part for part in (self.file, self.key, self.sentence) if part))


class MockupError(Exception):
    """Mistakes told in a line each: what is wrong, where, and what to do."""

    exit_code = ExitCode.INPUT

    def __init__(self, *told: str | Mistake) -> None:
        self.mistakes = tuple(Mistake(each) if isinstance(each, str) else each for each in told)
        super().__init__("\n".join(map(str, self.mistakes)))

    def __reduce__(self) -> tuple[type[MockupError], tuple[Mistake, ...]]:
        # An error is handed from one process to another; its mistakes keep their places.
        return type(self), self.mistakes


class RequestError(MockupError):
    """A value asked for that cannot be: no number, out of range, no such choice."""

    exit_code = ExitCode.USAGE


class SuiteError(MockupError):
    """Something in a suite file: a key, a name or a value that cannot be."""

    exit_code = ExitCode.SUITE


class DieError(SuiteError):
    """A die that does not exist, or that cannot be cut at the size asked for."""


class InputError(MockupError):
    """An artwork or scene file that cannot be used as it is."""

    exit_code = ExitCode.INPUT


class OutputError(MockupError):
    """A file that cannot be written."""

    exit_code = ExitCode.OUTPUT


class RefusedError(OutputError):
    """A print file that, looked at again, is not what it was to be; it is not left behind."""


class StoppedError(MockupError):
    """Work that is not done while something stands against it, which the user may waive."""

    exit_code = ExitCode.STOPS


class SystemLibraryError(MockupError):
    """A library of the operating system that is not installed."""

    exit_code = ExitCode.SYSTEM


class LimitError(MockupError):
    """A page, picture or piece of work larger than the program takes on."""

    exit_code = ExitCode.LIMIT


def with_file(error: MockupError, file: str) -> MockupError:
    """Returns an error each of whose mistakes names a file: `file` where it names none itself."""
    return type(error)(*(_placed(each, file) for each in error.mistakes))


def _placed(mistake: Mistake, file: str) -> Mistake:
    if mistake.file or not file or mistake.sentence.startswith(file):
        return mistake
    return replace(mistake, file=file)


def together(*readings: Callable[[], Read]) -> tuple[Read, ...]:
    """Returns what all readings return. Raises every mistake of them in one error, of the class of
    the first that fails: who reads several files at once is told all of it at once."""
    errors: list[MockupError] = []
    found: list[Read] = []
    for reading in readings:
        try:
            found.append(reading())
        except MockupError as error:
            errors.append(error)
    if errors:
        told = dict.fromkeys(each for error in errors for each in error.mistakes)
        raise type(errors[0])(*told) from errors[0]
    return tuple(found)


def both(first: Callable[[], Read], second: Callable[[], Other]) -> tuple[Read, Other]:
    """Returns what two readings return. Raises every mistake of both in one error, as together."""
    readings: tuple[Callable[[], object], ...] = (first, second)
    one, other = together(*readings)
    return cast(Read, one), cast(Other, other)


def quoted(text: str) -> str:
    """Returns text in quotes, on one line, a long one shortened: `"A7"`."""
    short = text if len(text) <= LONGEST_QUOTED else f"{text[: LONGEST_QUOTED - 1]}…"
    return f'"{one_line(short)}"'


def one_line(text: str) -> str:
    """Returns text with control characters, line ends and turns of direction escaped."""
    return "".join(
        each if each.isprintable() or each == " " else each.encode("unicode_escape").decode()
        for each in text
    )


def nearest(name: str, allowed: Iterable[str]) -> str:
    """Returns the hint `; did you mean "ticket-corner"?`, or nothing when no name is near."""
    if len(name) > LONGEST_QUOTED:
        return ""  # no name is that long, and comparing takes its time
    said = name.lower()
    matches = difflib.get_close_matches(said, list(allowed), n=2, cutoff=0.5)
    # Of two as near, the one of the same letters is meant: fingers slip over each other.
    matches.sort(key=lambda each: sorted(each) != sorted(said))
    return f'; did you mean "{matches[0]}"?' if matches else ""
