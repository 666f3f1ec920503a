"""`mockup check`: what would spoil the print, where, by how much, and what mends it."""

from __future__ import annotations

import shutil
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from mockup.cli import console
from mockup.cli.printers_options import CatalogueFolder, PrinterNames
from mockup.cli.ready import make_ready

if TYPE_CHECKING:
    from mockup.checks.finding import Finding
    from mockup.units import Unit

COLUMNS = 80  # of a terminal that does not say
_STYLES = {
    "stop": "red",
    "warning": "yellow",
    "note": "cyan",
    "accepted": "green",
    "remedy": "dim",
    "why": "dim italic",
}


def check(
    suite: Annotated[Path, typer.Argument(help="The suite file.")],
    safe: Annotated[
        str | None,
        typer.Option(
            help="Margin that type keeps from the cut, 1/8 in or 3 mm if not said; bare numbers "
            "are in the suite's units."
        ),
    ] = None,
    wander: Annotated[str, typer.Option(help="How far cutting wanders.")] = "0.0625 in",
    turn: Annotated[float, typer.Option(help="How far it turns, degrees, to 5.")] = 0.25,
    near: Annotated[
        str, typer.Option(help="A piece with type nearer the cut than this looks wrong.")
    ] = "0.03125 in",
    run: Annotated[int, typer.Option(help="Pieces tried, to 100000.")] = 1000,
    seed: Annotated[int, typer.Option(help="Seed of the run, from 0.")] = 1,
    post: Annotated[
        str | None,
        typer.Option(
            help="Postal tables, by comma: us, uk, canada, germany, france, upu; none for no post. "
            "If not said, the suite's `[post] from`, else guessed."
        ),
    ] = None,
    marked: Annotated[
        Path | None, typer.Option(help="A .pdf of every piece with its findings; for the studio.")
    ] = None,
    shifted: Annotated[
        Path | None,
        typer.Option(help="A .png or .jpg of the best, typical and worst piece of the run."),
    ] = None,
    why: Annotated[
        bool, typer.Option("--why", help="Tell each check's name, its limit and its source.")
    ] = False,
    printer: PrinterNames = None,
    catalogues: CatalogueFolder = None,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Check a suite before print: 0 clean, 10 with warnings, 20 with stops."""
    make_ready()
    from mockup.asks.check import CheckRequest, check_suite
    from mockup.output.findings import findings_json

    named = None if post is None else [name.strip() for name in post.split(",")]
    operators = None if named is None else tuple(name for name in named if name != "none")
    request = CheckRequest(
        suite, safe, wander, turn, near, run, seed, operators, marked, shifted,
        printer or (), catalogues,
    )  # fmt: skip
    with console.progress("Checking") as progress:
        answer = check_suite(request, progress)
    if json:
        console.say_json({**findings_json(answer.findings), "cuts": list(answer.cuts)})
    else:
        console.say_each(answer.cuts)
        _say(answer.findings, answer.units, why)
    raise typer.Exit(int(answer.exit_code))


def _say(findings: Sequence[Finding], unit: Unit, why: bool) -> None:
    from mockup.output.findings_told import findings_told

    columns = shutil.get_terminal_size((COLUMNS, 24)).columns
    for line in findings_told(findings, unit, columns, why):
        console.say_styled(line.text, _STYLES.get(line.kind, ""), line.kind)
    if not why and findings:
        console.say("`--why` tells each limit and where it comes from.")
