"""`mockup liner`: the template of an envelope's liner."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from mockup.cli import console


def liner(
    envelope: Annotated[
        str, typer.Argument(help="The envelope's size: A7, C6, '130 x 180 mm'; or a suite file.")
    ],
    name: Annotated[
        str | None,
        typer.Argument(help="The envelope's name in the suite file, where it has several."),
    ] = None,
    output: Annotated[
        Path, typer.Option("--output", "-o", help="The .pdf or .svg to write.")
    ] = Path("liner.pdf"),
    flap: Annotated[
        str | None,
        typer.Option(help="straight, pointed or deep-pointed; a suite file says its own."),
    ] = None,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Draw the template of a liner at true size: cut, bleed, fold, gum, what is seen and hidden."""
    from mockup.asks.liner import LinerRequest, draw_liner
    from mockup.units import format_length, format_size

    answer = draw_liner(LinerRequest(envelope, output, name, flap))
    if json:
        console.say_json(
            {
                "written": str(answer.written),
                "envelope": answer.envelope,
                "flap": answer.flap,
                "width_in": round(answer.width_in, 4),
                "height_in": round(answer.height_in, 4),
                "bleed_in": round(answer.bleed_in, 4),
                "width_mm": round(answer.width_in * 25.4, 3),
                "height_mm": round(answer.height_in * 25.4, 3),
                "bleed_mm": round(answer.bleed_in * 25.4, 3),
            }
        )
        return
    size = format_size(answer.width_in, answer.height_in, answer.units)
    bleed = format_length(answer.bleed_in, answer.units)
    of = f"{answer.envelope} envelope, {answer.flap} flap"
    console.say(f"{answer.written}: the liner of the {of} is {size}, with {bleed} bleed")
