"""`mockup options`: one piece in the dies it could have, on one sheet."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from mockup.cli import console
from mockup.cli.printers_options import CatalogueFolder, PrinterNames


def options(
    suite: Annotated[Path, typer.Argument(help="The suite file.")],
    piece: Annotated[str, typer.Argument(help="The piece, by its name in the suite file.")],
    output: Annotated[Path, typer.Option("--output", "-o", help="The PNG or PDF to write.")],
    dies: Annotated[
        str | None, typer.Option(help="The dies to show, by name, with commas; twelve if not said.")
    ] = None,
    studio: Annotated[
        bool, typer.Option("--studio", help="With prices, break-even and clearances, for yourself.")
    ] = False,
    printer: PrinterNames = None,
    catalogues: CatalogueFolder = None,
    width: Annotated[int, typer.Option(help="Width of a PNG in pixels.", min=600)] = 3300,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Show a piece in each of the dies it could have, at one scale, for the client to choose."""
    from mockup.output.options import draw_options

    names = [name.strip() for name in dies.split(",") if name.strip()] if dies else []
    drawn = draw_options(suite, piece, output, names, studio, (catalogues, printer or []), width)
    if json:
        console.say_json(drawn)
    else:
        shown = f"{len(drawn['options'])} options at {drawn['scale'] * 100:.0f} % of true size"
        console.say(f"{output}: {shown}")
