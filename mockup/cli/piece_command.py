"""`mockup piece`: one piece of art, cut to its die."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from mockup.cli import console


def piece(
    art: Annotated[Path, typer.Argument(help="The print PDF (or SVG), with its bleed.")],
    output: Annotated[Path, typer.Option("--output", "-o", help="The PNG to write.")],
    die: Annotated[
        str,
        typer.Option(help="The die: a name (`mockup dies` lists them), or a template PDF or SVG."),
    ] = "rectangle",
    card: Annotated[
        str | None,
        typer.Option(
            help="Card size: A7, '4-bar landscape', '5 x 7 in'. Read from the art if left out."
        ),
    ] = None,
    page: Annotated[int, typer.Option(help="Which page of the file, from 1.")] = 1,
    stock: Annotated[str, typer.Option(help="The paper, by name.")] = "smooth-120-white",
    ppi: Annotated[float, typer.Option(help="Pixels an inch.", min=18, max=2400)] = 300,
    line_colour: Annotated[
        str | None, typer.Option(help="Colour of the cut line, #rrggbb; chosen if left out.")
    ] = None,
    line_width: Annotated[str, typer.Option(help="Width of the cut line.")] = "0.5 pt",
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Cut one piece of art to its die: a transparent PNG with a thin cut line."""
    from mockup.output.png import write_png
    from mockup.render.piece import piece_picture
    from mockup.suite.single import line_choice, single_piece

    choice = line_choice(line_colour, line_width)
    single = single_piece(art, page, card, die, stock)
    picture = piece_picture(single, ppi, choice)
    write_png(output, picture, ppi)
    height_px, width_px = picture.shape[:2]
    if json:
        console.say_json(
            {
                "written": str(output),
                "width_px": width_px,
                "height_px": height_px,
                "ppi": ppi,
                "die": single.die.name,
                "because": single.die.because,
            }
        )
    else:
        if single.die.because:
            console.say(f"die {single.die.name}: its cut is {single.die.because}")
        console.say(f"{output}: {width_px} x {height_px} px at {ppi:g} pixels an inch")
