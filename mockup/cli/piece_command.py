"""`mockup piece`: one piece of art, cut to its die."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from mockup.cli import console
from mockup.cli.audience_option import CLIENT, For
from mockup.cli.ready import make_ready


def piece(
    art: Annotated[Path, typer.Argument(help="The print PDF (or SVG), with its bleed.")],
    output: Annotated[Path, typer.Option("--output", "-o", help="The .png to write.")],
    die: Annotated[
        str,
        typer.Option(help="The die: a name (`mockup dies` lists them), or a template PDF or SVG."),
    ] = "rectangle",
    pick: Annotated[
        str | None,
        typer.Option(help="Which outline of a template is the cut: name, colour, size or number."),
    ] = None,
    card: Annotated[
        str | None,
        typer.Option(
            help="Card size: A7, '4-bar landscape', '105 x 148 mm'; inches where no unit is said. "
            "Read from the art if left out."
        ),
    ] = None,
    page: Annotated[int, typer.Option(help="Which page of the file, from 1.")] = 1,
    stock: Annotated[str, typer.Option(help="The paper, by name.")] = "smooth-120-white",
    ppi: Annotated[float, typer.Option(help="Pixels an inch, 18 to 2400.")] = 300,
    line_colour: Annotated[
        str | None, typer.Option(help="Colour of the cut line, #rrggbb; chosen if left out.")
    ] = None,
    line_width: Annotated[
        str, typer.Option(help="Width of the cut line; points where no unit is said.")
    ] = "0.5 pt",
    press: Annotated[
        Path | None,
        typer.Option(help="The press's ICC profile, for art that names no press itself."),
    ] = None,
    white: Annotated[
        str | None,
        typer.Option(
            help="Where white ink goes: plate, under-art or art-as-white; the art's own white "
            "plate if left out."
        ),
    ] = None,
    hits: Annotated[int, typer.Option(help="How often white ink is printed, 1 or 2.")] = 1,
    from_behind: Annotated[
        bool | None,
        typer.Option(
            "--back/--front",
            help="Whether the page is a card's back, cut by the die's mirror image; left out, the "
            "second of two pages of one size is.",
        ),
    ] = None,
    audience: For = CLIENT,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Cut one piece of art to its die: a transparent PNG with a thin cut line."""
    make_ready()
    from mockup.asks.piece import PieceRequest, cut_piece

    answer = cut_piece(
        PieceRequest(
            *(art, output, die, card, page, stock, ppi, line_colour, line_width),
            audience,
            pick,
            press,
            white,
            hits,
            from_behind,
        )
    )
    if json:
        console.say_json(
            {
                "written": str(answer.written),
                "width_px": answer.width_px,
                "height_px": answer.height_px,
                "ppi": answer.ppi,
                "die": answer.die,
                "because": answer.because,
                "others": answer.others,
                "left_out": list(answer.left_out),
                "taken": list(answer.taken),
                "colour": list(answer.colour),
            }
        )
        return
    if answer.because:
        others = f"; {answer.others}" if answer.others else ""
        console.say(f"die {answer.die}: its cut is {answer.because}{others}")
    size = f"{answer.width_px} x {answer.height_px} px at {answer.ppi:g} pixels an inch"
    console.say(f"{answer.written}: {size}")
    console.say_each(answer.colour)
    console.say_each(answer.left_out)
    console.say_each(answer.taken)
