"""The command `mockup`: its subcommands in one table, and the one place where errors end."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any

import typer

from mockup import __version__
from mockup.cli import console
from mockup.cli.check_command import check
from mockup.cli.demo_command import demo
from mockup.cli.dies_command import dies
from mockup.cli.flatlay_command import flatlay
from mockup.cli.options_command import options
from mockup.cli.piece_command import piece
from mockup.cli.portfolio_command import portfolio
from mockup.cli.proof_command import proof
from mockup.cli.start_command import start
from mockup.errors import MockupError

COMMANDS: tuple[Callable[..., Any], ...] = (
    start,
    piece,
    dies,
    options,
    check,
    flatlay,
    proof,
    portfolio,
    demo,
)

app = typer.Typer(
    name="mockup",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    help="Honest flat-lays and proofs of die-cut stationery, drawn from your print PDFs.",
    epilog="Begin with `mockup demo DIR`, or with `mockup start *.pdf -o suite.toml`.",
)
for _command in COMMANDS:
    app.command()(_command)


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


def main() -> None:
    """Runs the command line; every MockupError becomes lines on standard error and an exit code."""
    try:
        app()
    except MockupError as error:
        console.stop(error)
    except KeyboardInterrupt:
        console.stop_interrupted()
