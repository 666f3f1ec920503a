"""`mockup start`: a first suite file from the PDFs one has."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from mockup.cli import console

if TYPE_CHECKING:
    from mockup.asks.start import StartedPiece


def start(
    art: Annotated[list[Path], typer.Argument(help="Print PDFs, or folders of them.")],
    output: Annotated[Path, typer.Option("--output", "-o", help="The suite file to write.")] = Path(
        "suite.toml"
    ),
    replace: Annotated[
        bool, typer.Option("--replace", help="Write over a suite file that exists.")
    ] = False,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Write a suite file from your print PDFs: sizes, bleed and envelopes are inferred."""
    from mockup.asks.start import StartRequest, start_suite

    answer = start_suite(StartRequest(art, output, replace))
    if json:
        console.say_json(
            {"written": str(answer.written), "pieces": [_told(each) for each in answer.pieces]}
        )
        return
    for each in answer.pieces:
        kind = "liner" if each.liner else each.card
        console.say(f"{each.name}: {kind}, {each.because}")
    then = f"mockup flatlay {answer.written} -o flatlay.png"
    console.say(f"{answer.written} is written; read its comments, then: {then}")


def _told(piece: StartedPiece) -> dict[str, Any]:
    return {
        "name": piece.name,
        "art": str(piece.art),
        "page": piece.page,
        "card": piece.card,
        "width_in": piece.width_in,
        "height_in": piece.height_in,
        "bleed_in": round(piece.bleed_in, 4),
        "because": piece.because,
        "liner": piece.liner,
    }
