"""What the command line says: answers, progress on a terminal, a line for a mistake.

All text is escaped: a name in a file must not be able to move a terminal's cursor.
"""

from __future__ import annotations

import errno
import io
import json
import os
import sys
import unicodedata
from collections.abc import Generator, Iterable
from contextlib import contextmanager, suppress

from mockup.errors import ExitCode, Mistake, OutputError
from mockup.progress import Progress

_SILENT = {"Cc", "Cf", "Zl", "Zp", "Cs"}
"""Unicode categories shown as escapes: controls, formats (bidi), separators, lone surrogates."""

_NARROWEST = 80  # letters: a narrower terminal turns long lines over; a word that is cut is lost
_WANTED = {"\u200c", "\u200d"}  # joiners that some scripts are written with


class ReaderGone(Exception):  # noqa: N818
    """Who read our answer has read enough, and closed the pipe: no error, but an end."""


class _Answers(io.TextIOWrapper):
    """Standard output, whose failures are told in our own words whoever writes to it."""

    lost = False
    before: io.TextIOWrapper | None = None
    """The stream it writes for: let go of, that one would close what is below both."""

    def write(self, s: str, /) -> int:
        with self._told_in_words():
            return super().write(s)

    def flush(self) -> None:
        with self._told_in_words():
            super().flush()

    @contextmanager
    def _told_in_words(self) -> Generator[None]:
        try:
            yield
        except OSError as error:
            self.lost = True
            with suppress(OSError, ValueError):  # what is held back goes nowhere, and quietly
                nowhere = os.open(os.devnull, os.O_WRONLY)
                os.dup2(nowhere, self.fileno())
                os.close(nowhere)
            if error.errno in (errno.EPIPE, errno.EINVAL):  # the second is how Windows says it
                raise ReaderGone from error
            why = error.strerror or error
            told = f"standard output cannot be written ({why})"
            raise OutputError(f"{told}; a file that was asked for is whole or not there") from error


def prepare() -> None:
    """Makes standard output and error fit for any text on any terminal."""
    for number in range(3):  # a file opened by us must not become standard output by chance
        try:
            os.fstat(number)
        except OSError:
            os.open(os.devnull, os.O_RDWR)
    # Where a stream was closed there is none at all, though its type does not say so.
    sys.stdout = sys.stdout or open(os.devnull, "w", encoding="utf-8")  # noqa: PTH123, SIM115
    sys.stderr = sys.stderr or open(os.devnull, "w", encoding="utf-8")  # noqa: PTH123, SIM115
    if isinstance(sys.stdout, io.TextIOWrapper):
        before = sys.stdout
        sys.stdout = _Answers(
            before.buffer, before.encoding, "replace", line_buffering=before.isatty()
        )
        sys.stdout.before = before
    if isinstance(sys.stderr, io.TextIOWrapper):
        sys.stderr.reconfigure(errors="replace")


def escaped(text: str) -> str:
    """Returns text with control characters and turns of direction written as escapes."""
    return "".join(_visible(letter) for letter in text)


def say(text: str) -> None:
    """Prints a line of answer on standard output. Raises OutputError where it cannot be written."""
    _write(escaped(text) + "\n")


def say_each(lines: Iterable[str]) -> None:
    """Prints each line of answer on standard output; a line stays one line."""
    for line in lines:
        _write(escaped(line) + "\n")


def say_json(answer: object) -> None:
    """Prints a machine's answer: one JSON document on standard output, in ASCII letters alone."""
    _write(json.dumps(answer, indent=2) + "\n")


def say_table(table: object, **settings: bool) -> None:
    """Prints a table of rich's on standard output. Raises OutputError where it cannot be."""
    from rich.console import Console

    console = Console(**settings)  # pyright: ignore[reportArgumentType]
    console.width = max(console.width, _NARROWEST)
    console.print(table)
    sys.stdout.flush()


def say_rows(heads: Iterable[str], rows: Iterable[Iterable[str]]) -> None:
    """Prints rows under their heads, the columns aligned."""
    from rich.table import Table

    table = Table(*heads, box=None, header_style="bold", pad_edge=False)
    for row in rows:
        table.add_row(*map(escaped, row))
    say_table(table, highlight=False)


def say_styled(text: str, style: str, word: str) -> None:
    """Prints a line of answer, on a terminal with the word, or all of it, in a style of rich's.

    The line stays one line, however wide the terminal. Raises OutputError as `say` does.
    """
    if not (style and sys.stdout.isatty()):
        say(text)
        return
    from rich.console import Console
    from rich.text import Text

    styled = Text(escaped(text))
    if not styled.highlight_words([word], style):
        styled.stylize(style)
    Console(soft_wrap=True, highlight=False).print(styled)
    sys.stdout.flush()


def tell(lines: Iterable[str]) -> None:
    """Prints lines for the reader, beside the answer, on standard error, if anybody reads it."""
    with suppress(OSError, ValueError):
        for line in lines:
            sys.stderr.write(f"{escaped(line)}\n")
        sys.stderr.flush()


def tell_mistakes(mistakes: Iterable[Mistake]) -> None:
    """Prints a line for each mistake on standard error, if there is anybody to read it."""
    with suppress(OSError, ValueError):
        for mistake in mistakes:
            sys.stderr.write(f"mockup: {escaped(str(mistake))}\n")
        sys.stderr.flush()


def say_mistakes(mistakes: Iterable[Mistake], code: ExitCode) -> None:
    """Prints mistakes for a machine: `{"error": {"exit_code": 3, "mistakes": [...]}}`."""
    rows = [
        {"file": each.file, "key": each.key, "value": each.value, "sentence": each.sentence}
        for each in mistakes
    ]
    say_json({"error": {"exit_code": int(code), "mistakes": rows}})


def flush() -> None:
    """Writes out what is still held back. Raises OutputError and ReaderGone."""
    sys.stdout.flush()


def can_answer() -> bool:
    """Returns whether standard output still reaches anybody."""
    nowhere = getattr(sys.stdout, "name", "") == os.devnull  # it was closed at the start
    return not (nowhere or (isinstance(sys.stdout, _Answers) and sys.stdout.lost))


@contextmanager
def progress(what: str) -> Generator[Progress]:
    """Yields a function told the share done, 0 to 1; a bar on a terminal, nothing in a pipe."""
    if not sys.stderr.isatty():
        yield lambda share: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, TextColumn
    from rich.progress import Progress as Bar

    columns = (TextColumn("{task.description}"), BarColumn())
    with Bar(*columns, console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task(what, total=1.0)
        yield lambda share: bar.update(task, completed=share)


def _write(text: str) -> None:
    sys.stdout.write(text)
    sys.stdout.flush()


def _visible(letter: str) -> str:
    if unicodedata.category(letter) not in _SILENT or letter in _WANTED:
        return letter
    point = ord(letter)
    return f"\\x{point:02x}" if point < 0x100 else f"\\u{point:04x}"
