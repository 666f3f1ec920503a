"""`mockup portfolio`: pictures for a website and social pages."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from mockup.cli import console
from mockup.cli.audience_option import CLIENT, For
from mockup.cli.ready import make_ready


def portfolio(
    suite: Annotated[Path, typer.Argument(help="The suite file.")],
    output: Annotated[Path, typer.Option("--output", "-o", help="The folder to write into.")],
    scene: Annotated[str | None, typer.Option(help="A scene other than the suite's own.")] = None,
    long_side: Annotated[
        int, typer.Option(help="Pixels along the longer side, 200 to 12000.")
    ] = 2400,
    things: Annotated[
        bool, typer.Option("--things/--no-things", help="Lay the scene's things beside the paper.")
    ] = True,
    things_from: Annotated[
        Path | None,
        typer.Option("--things-from", help="A folder of your own SVGs, laid in their stead."),
    ] = None,
    audience: For = CLIENT,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Take the suite's pictures in every ratio, composed anew for each, and details of it."""
    make_ready()
    from mockup.asks.portfolio import PortfolioRequest, take_portfolio

    request = PortfolioRequest(suite, output, scene, long_side, audience, things, things_from)
    with console.progress("Taking pictures") as progress:
        answer = take_portfolio(request, progress)
    written = [str(path) for path in answer.written]
    if json:
        console.say_json(
            {
                "written": written,
                "left_out": list(answer.left_out),
                "without_room": list(answer.without_room),
            }
        )
        return
    console.say_each([*written, *answer.left_out])
    console.tell(answer.without_room)
