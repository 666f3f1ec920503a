"""`mockup check`: what would spoil the print, where, by how much, and what mends it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from mockup.cli import console
from mockup.cli.ready import make_ready

if TYPE_CHECKING:
    from mockup.checks.finding import Finding


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
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Check a suite before print: 0 clean, 10 with warnings, 20 with stops."""
    make_ready()
    from mockup.asks.check import CheckRequest, check_suite
    from mockup.output.findings import findings_json

    named = None if post is None else [name.strip() for name in post.split(",")]
    operators = None if named is None else tuple(name for name in named if name != "none")
    request = CheckRequest(suite, safe, wander, turn, near, run, seed, operators, marked, shifted)
    with console.progress("Checking") as progress:
        answer = check_suite(request, progress)
    if json:
        console.say_json(findings_json(answer.findings))
    else:
        _say(answer.findings)
    raise typer.Exit(int(answer.exit_code))


def _place(finding: Finding) -> str:
    if finding.at is None:
        return ""
    # Adding nought turns a minus nought into a plain one.
    return ", ".join(f"{round(value, 2) + 0.0:.2f}" for value in finding.at)


def _say(findings: Sequence[Finding]) -> None:
    from rich.table import Table
    from rich.text import Text

    if not findings:
        console.say("Nothing found.")
        return
    colours = {"stop": "red", "warn": "yellow", "note": "dim", "accepted": "green"}
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0))
    for head in ("", "", "piece", "check", "where, in", "what, and what mends it"):
        table.add_column(head, overflow="fold")
    for number, finding in enumerate(findings, 1):
        word = "accepted" if finding.accepted is not None else finding.severity.word
        where = _place(finding)
        what = Text(f"{console.escaped(finding.message)}\n")
        what.append(f"→ {console.escaped(finding.accepted or finding.fix)}", style="dim")
        if finding.source and finding.limit is not None:
            limit = f"{finding.limit:.4g} {finding.unit}".strip()
            what.append(f"\n  limit {limit}: {finding.source}", style="dim")
        table.add_row(
            str(number),
            Text(word, style=colours[word]),
            Text(finding.piece),
            finding.check,
            where,
            what,
        )
    console.say_table(table)
    counts = [sum(f.severity.word == w and f.accepted is None for f in findings)
              for w in ("stop", "warn", "note")]  # fmt: skip
    accepted = sum(f.accepted is not None for f in findings)
    kinds = zip(counts, ("stop", "warning", "note"), strict=True)
    told = ", ".join(f"{count} {kind}{'s' * (count != 1)}" for count, kind in kinds)
    console.say(told + (f", {accepted} accepted" if accepted else ""))
