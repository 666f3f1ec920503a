"""`mockup portfolio`: pictures for a website and social pages."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from mockup.cli import console


def portfolio(
    suite: Annotated[Path, typer.Argument(help="The suite file.")],
    output: Annotated[Path, typer.Option("--output", "-o", help="The folder to write into.")],
    scene: Annotated[str | None, typer.Option(help="A scene other than the suite's own.")] = None,
    long_side: Annotated[
        int, typer.Option(help="Pixels along the longer side.", min=200, max=12000)
    ] = 2400,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Take the suite's pictures in every ratio, composed anew for each, and details of it."""
    from mockup.output.portfolio import write_portfolio
    from mockup.render.scenes import read_scene
    from mockup.suite.reading import read_suite, with_scene

    read = with_scene(read_suite(suite), scene, None)
    setting = read_scene(read.scene.name, suite.parent)
    with console.progress("Taking pictures") as progress:
        written = write_portfolio(read, setting, output, long_side, progress)
    if json:
        console.say_json({"written": [str(path) for path in written]})
    else:
        console.say("\n".join(str(path) for path in written))
