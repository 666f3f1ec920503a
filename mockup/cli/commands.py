"""The commands in one table, and their arguments read."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from itertools import pairwise
from typing import Annotated, Any

import typer
from typer.main import get_command

from mockup import __version__
from mockup.cli import console
from mockup.cli.check_command import check
from mockup.cli.colours_command import colours
from mockup.cli.demo_command import demo
from mockup.cli.dies_command import dies
from mockup.cli.envelopes_command import envelopes
from mockup.cli.flatlay_command import flatlay
from mockup.cli.liner_command import liner
from mockup.cli.options_command import options
from mockup.cli.order_command import order
from mockup.cli.papers_command import papers
from mockup.cli.piece_command import piece
from mockup.cli.portfolio_command import portfolio
from mockup.cli.proof_command import proof
from mockup.cli.scenes_command import scenes
from mockup.cli.signoff_command import signoff
from mockup.cli.start_command import start
from mockup.cli.status_command import status
from mockup.errors import ExitCode, Mistake, RequestError

COMMANDS: tuple[Callable[..., Any], ...] = (
    start,
    piece,
    dies,
    options,
    colours,
    liner,
    papers,
    envelopes,
    scenes,
    check,
    flatlay,
    proof,
    signoff,
    status,
    order,
    portfolio,
    demo,
)

app = typer.Typer(
    name="mockup",
    add_completion=False,
    pretty_exceptions_enable=False,
    help="Honest flat-lays and proofs of die-cut stationery, drawn from your print PDFs.",
    epilog="Begin with `mockup demo DIR`, or with `mockup start *.pdf -o suite.toml`.",
)
for _command in COMMANDS:
    app.command()(_command)

# The parser's own class stands in another package from one release to the next; its name does not.
_USAGE: type[Exception] = next(
    each
    for each in typer.BadParameter.__mro__
    if issubclass(each, Exception) and each.__name__ == "ClickException"
)

_PATHS = ("-o", "--output", "--catalogues", "--papers", "--things-from", "--press", "--sheet",
           "--marked", "--shifted")  # fmt: skip

# What the parser says of a number, and before typer 0.29, what the parser below it says.
_MEANINGS = (
    (re.compile(r"Input should be a valid integer\b.*"), "write a whole number"),
    (re.compile(r"Input should be a (?:valid|finite) number\b.*"), "write a number"),
    (re.compile(r"(?<=: )'.*' is not a valid integer(?: range)?\."), "write a whole number"),
    (re.compile(r"(?<=: )'.*' is not a valid float(?: range)?\."), "write a number"),
    (re.compile(r"Value error, "), ""),
)


def _show_version(wanted: bool) -> None:
    if wanted:
        console.say(f"mockup {__version__} (AGPL-3.0-or-later; your pictures and PDFs are yours)")
        raise typer.Exit


@app.callback()
def _options(
    version: Annotated[
        bool,
        typer.Option(
            "--version", callback=_show_version, is_eager=True, help="Show version and licence."
        ),
    ] = False,
) -> None:
    del version  # its callback has said it


def run(arguments: list[str]) -> int:
    """Runs the command that arguments name, and returns its exit code.

    Without arguments the help is shown, and the code is that of wrong usage. Raises RequestError
    for arguments that cannot be read, and what the command raises.
    """
    _refuse_empty_paths(arguments)
    try:
        code = _parser().main(arguments or ["--help"], "mockup", standalone_mode=False)
    except _USAGE as error:
        raise RequestError(f"{_words(error)} (`{_path(error)} --help` says more)") from error
    return int(code or 0) if arguments else int(ExitCode.USAGE)


def _refuse_empty_paths(arguments: list[str]) -> None:
    """Raises RequestError for a file or folder of no letters, as a variable of a script gives that
    was never set: it would be read as this folder, and filled."""
    for before, each in pairwise(["", *arguments]):
        option = each.removesuffix("=") if each else before
        given = each == "" and not before.startswith("-")
        if given or (option in _PATHS and (each == "" or each.endswith("="))):
            raise RequestError(
                Mistake(
                    "is empty; name a file or a folder",
                    "",
                    option if option in _PATHS else "argument",
                )
            )


@cache
def _parser() -> Any:
    """Returns what reads the arguments; made of every command's signature, so made once."""
    return get_command(app)


def _words(error: Exception) -> str:
    """Returns what the parser says, without the words of the library it reads numbers with."""
    told = " ".join(getattr(error, "format_message", error.__str__)().split())
    for theirs, ours in _MEANINGS:
        told = theirs.sub(ours, told)
    return told


def _path(error: Exception) -> str:
    context = getattr(error, "ctx", None)
    return str(getattr(context, "command_path", "mockup"))
