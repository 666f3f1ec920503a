"""`mockup status`: what is approved, what changed since, what was ordered."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from mockup.cli import console
from mockup.cli.ready import make_ready

if TYPE_CHECKING:
    from mockup.asks.status import StatusAnswer

COLUMNS = 80  # of a terminal that does not say
_STYLES = {
    "approved": "green",
    "to change": "red",
    "changed": "yellow",
    "waiting": "cyan",
    "not proofed": "magenta",
    "gone": "dim",
}


def status(
    suite: Annotated[Path, typer.Argument(help="The suite file.")],
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Tell what is approved: 0 all as it is, 10 not all, 20 changed after the order."""
    make_ready()
    from mockup.asks.status import StatusRequest, tell_status
    from mockup.output.status_told import status_json

    with console.progress("Looking") as progress:
        answer = tell_status(StatusRequest(suite), progress)
    if json:
        head = {
            "title": answer.title,
            "revision": answer.revision,
            "next_revision": answer.next_revision,
            "files": list(answer.files),
        }
        console.say_json({**head, **status_json(answer.status)})
    else:
        _say(answer)
    raise typer.Exit(int(answer.exit_code))


def _say(answer: StatusAnswer) -> None:
    from mockup.output.status_told import status_head, status_told

    console.say(status_head(answer.title, answer.status, answer.revision, answer.next_revision))
    console.say("")
    columns = shutil.get_terminal_size((COLUMNS, 24)).columns
    for line in status_told(answer.status, columns):
        console.say_styled(line.text, _STYLES.get(line.state, ""), line.state)
    console.tell([*answer.status.told, *answer.files])
