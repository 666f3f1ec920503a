"""`mockup demo`: the demo suite, ready to be changed, and what is drawn from it."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from mockup.cli import console
from mockup.cli.ready import make_ready


def demo(
    folder: Annotated[Path, typer.Argument(help="The folder to lay the demo into.")],
    width: Annotated[
        int, typer.Option(help="Width of the flat-lay in pixels, 200 to 12000.")
    ] = 3000,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Lay the demo suite into a folder and draw it: flat-lay, proof and one piece.

    Files of the suite that are there already are kept, so that your changes to them are drawn.
    """
    make_ready()
    from mockup.asks.demo import DemoRequest, lay_demo

    with console.progress("Drawing the demo") as progress:
        answer = lay_demo(DemoRequest(folder, width), progress)
    written = [str(path) for path in answer.written]
    if json:
        left_out = list(answer.left_out)
        console.say_json({"suite": str(answer.suite), "written": written, "left_out": left_out})
        return
    console.say(f"The suite, ready to be changed: {answer.suite}")
    console.say_each(f"  drawn from it: {path}" for path in written)
    console.say_each(answer.left_out)
