"""`mockup proof`: the proof PDF for the client."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from mockup.cli import console
from mockup.cli.audience_option import CLIENT, For
from mockup.cli.ready import make_ready


def proof(
    suite: Annotated[Path, typer.Argument(help="The suite file.")],
    output: Annotated[
        Path | None,
        typer.Option(
            "--output", "-o", help="The PDF to write; beside the suite, by its number, if left out."
        ),
    ] = None,
    paper: Annotated[
        str | None, typer.Option(help="letter or a4; the suite's own if left out.")
    ] = None,
    audience: For = CLIENT,
    watermark: Annotated[
        str | None, typer.Option(help="Words to go across every page, pale; art is then coarser.")
    ] = None,
    extra: Annotated[
        str | None, typer.Option("--with", help="Pages to be added, with commas: options, colours.")
    ] = None,
    date: Annotated[
        str | None, typer.Option(help="The day it bears, as 2026-11-26; today if left out.")
    ] = None,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Set the proof for your client, or the studio's own: every piece at true size, as PDF."""
    make_ready()
    from mockup.asks.proof import ProofRequest, write_proof

    asked = [name.strip() for name in (extra or "").split(",") if name.strip()]
    request = ProofRequest(suite, output, paper, audience, watermark, asked, date)
    with console.progress("Setting the proof") as progress:
        answer = write_proof(request, progress)
    if json:
        console.say_json(
            {
                "written": str(answer.written),
                "pages": answer.pages,
                "paper": answer.paper,
                "left_out": list(answer.left_out),
                "taken": list(answer.taken),
                "too_small": list(answer.too_small),
                "cuts": list(answer.cuts),
                "revision": answer.revision,
                "date": answer.date,
                "fingerprints": dict(answer.codes),
                "record": list(answer.record),
                "colour": list(answer.colour),
            }
        )
        return
    on = f"{answer.pages} pages on {answer.paper} paper; print it at 100 %"
    console.say(f"{answer.written}: revision {answer.revision}, {on}")
    console.say_each([*answer.cuts, *answer.colour, *answer.left_out])
    console.say_each(answer.taken)
    console.tell([*answer.too_small, *answer.record])
