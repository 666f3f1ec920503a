"""`mockup start`: a first suite file from the PDFs one has."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from mockup.cli import console

if TYPE_CHECKING:
    from mockup.asks.start import StartedPiece
    from mockup.units import Unit


def start(
    art: Annotated[list[Path], typer.Argument(help="Print PDFs, or folders of them.")],
    output: Annotated[Path, typer.Option("--output", "-o", help="The suite file to write.")] = Path(
        "suite.toml"
    ),
    replace: Annotated[
        bool, typer.Option("--replace", help="Write over a suite file that exists.")
    ] = False,
    units: Annotated[
        str | None, typer.Option(help="in or mm; if not said, what the pages are measured in.")
    ] = None,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Write a suite file from your print PDFs: sizes, bleed and envelopes are inferred."""
    from mockup.asks.start import StartRequest, start_suite

    answer = start_suite(StartRequest(art, output, replace, units))
    if json:
        console.say_json(
            {
                "written": str(answer.written),
                "units": answer.units,
                "pieces": [_told(each) for each in answer.pieces],
                "told": list(answer.told),
            }
        )
        return
    for each in answer.pieces:
        console.say(f"{each.name}: {_kind(each, answer.units)}, {each.because}")
    console.say_each(answer.told)
    if answer.units == "mm":
        console.say("Lengths are in millimetres; --units in takes inches.")
    then = f"mockup flatlay {answer.written} -o flatlay.png"
    console.say(f"{answer.written} is written; read its comments, then: {then}")


def _kind(piece: StartedPiece, units: Unit) -> str:
    if piece.liner:
        return "liner"
    if piece.front:
        return "an envelope's front"
    fold = f" folded at the {piece.fold}" if piece.fold else ""
    return ", ".join((f"{_card(piece, units)}{fold}", *piece.finishes))


def _card(piece: StartedPiece, units: Unit) -> str:
    from mockup.units import format_size

    size = format_size(piece.width_in, piece.height_in, units)
    return size if "\u00d7" in piece.card else f"{piece.card} ({size})"


def _told(piece: StartedPiece) -> dict[str, Any]:
    return {
        "name": piece.name,
        "art": str(piece.art),
        "page": piece.page,
        "card": piece.card,
        "width_in": piece.width_in,
        "height_in": piece.height_in,
        "bleed_in": round(piece.bleed_in, 4),
        "width_mm": round(piece.width_in * 25.4, 3),
        "height_mm": round(piece.height_in * 25.4, 3),
        "bleed_mm": round(piece.bleed_in * 25.4, 3),
        "because": piece.because,
        "liner": piece.liner,
        "front": piece.front,
        "fold": piece.fold,
        "finishes": list(piece.finishes),
    }
