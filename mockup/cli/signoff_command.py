"""`mockup signoff`: what a client said of a proof, from the file that came back."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from mockup.cli import console

if TYPE_CHECKING:
    from mockup.asks.signoff import SignoffAnswer

_SAID = {"approve": "yes", "change": "change", "": "no answer"}


def signoff(
    returned: Annotated[Path, typer.Argument(help="The proof that came back, a PDF.")],
    suite: Annotated[
        Path | None,
        typer.Argument(help="The suite it is of; looked for beside it where left out."),
    ] = None,
    by: Annotated[str | None, typer.Option(help="Who answers, where no name is on it.")] = None,
    date: Annotated[
        str | None, typer.Option(help="The day the record bears, 2026-11-26; today if left out.")
    ] = None,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Read a proof that came back, filled in, printed or scanned, and record its answers."""
    from mockup.asks.signoff import SignoffRequest, read_signoff

    with console.progress("Reading the answer") as progress:
        answer = read_signoff(SignoffRequest(returned, suite, by, date), progress)
    if json:
        console.say_json(_as_json(answer))
        return
    dated = f", dated {answer.dated}" if answer.dated else ""
    console.say(f"Revision {answer.revision} of {answer.suite}, answered by {answer.by}{dated}")
    console.say_rows(
        ("piece", "code", "answer", "remark"),
        [(row.title, row.fingerprint, _SAID[row.said], row.comment) for row in answer.rows],
    )
    console.say_each([answer.pages_told, f"recorded in {answer.recorded}"])
    newer = f"revision {answer.newer} was made since; this answers {answer.revision}"
    console.tell([*answer.unclear, *([newer] if answer.newer else [])])


def _as_json(answer: SignoffAnswer) -> dict[str, object]:
    rows = [
        {
            "name": row.name,
            "title": row.title,
            "fingerprint": row.fingerprint,
            "answer": row.said or None,
            "comment": row.comment,
        }
        for row in answer.rows
    ]
    return {
        "suite": str(answer.suite),
        "revision": answer.revision,
        "mark": answer.mark,
        "by": answer.by,
        "dated": answer.dated,
        "pieces": rows,
        "unclear": list(answer.unclear),
        "read_as": answer.read_as,
        "pages": answer.pages_told,
        "newer_revision": answer.newer,
        "recorded": str(answer.recorded),
    }
