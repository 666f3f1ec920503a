"""What the command line says and how it ends: progress on a terminal, one line for a mistake."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Generator
from contextlib import contextmanager
from typing import NoReturn

import typer

from mockup.errors import ExitCode, MockupError

Progress = Callable[[float], None]


def say(text: str) -> None:
    """Prints a line of answer on standard output."""
    typer.echo(text)


def say_json(answer: object) -> None:
    """Prints a machine's answer: one JSON document on standard output."""
    typer.echo(json.dumps(answer, indent=2, ensure_ascii=False))


def stop(error: MockupError) -> NoReturn:
    """Prints an error, a line for each mistake, on standard error; ends with its exit code."""
    for line in str(error).splitlines():
        typer.echo(f"mockup: {line}", err=True)
    raise SystemExit(int(error.exit_code))


def stop_interrupted() -> NoReturn:
    """Ends after an interrupt from the keyboard."""
    typer.echo("mockup: interrupted; nothing was written", err=True)
    raise SystemExit(int(ExitCode.INTERRUPTED))


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
