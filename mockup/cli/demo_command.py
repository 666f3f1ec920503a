"""`mockup demo`: the demo suite, ready to be changed, and what is drawn from it."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from mockup.cli import console


def demo(
    folder: Annotated[Path, typer.Argument(help="The folder to lay the demo into.")],
    width: Annotated[int, typer.Option(help="Width of the flat-lay in pixels.", min=200)] = 3000,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Lay the demo suite into a folder and draw it: flat-lay, proof and one piece.

    Files of the suite that are there already are kept, so that your changes to them are drawn.
    """
    from mockup.output.demo import draw_demo, lay_out_demo

    laid = lay_out_demo(folder)
    with console.progress("Drawing the demo") as progress:
        drawn = draw_demo(folder, width, progress)
    if json:
        console.say_json({"suite": str(laid[0]), "written": [str(path) for path in drawn]})
        return
    console.say(f"The suite, ready to be changed: {laid[0]}")
    for path in drawn:
        console.say(f"  drawn from it: {path}")
