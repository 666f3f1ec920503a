"""`mockup options`: one piece in the dies it could have, on one sheet."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from mockup.cli import console
from mockup.cli.audience_option import CLIENT, For
from mockup.cli.printers_options import CatalogueFolder, PrinterNames
from mockup.cli.ready import make_ready

if TYPE_CHECKING:
    make_ready()
    from mockup.asks.options import OptionsAnswer


def options(
    suite: Annotated[Path, typer.Argument(help="The suite file.")],
    piece: Annotated[str, typer.Argument(help="The piece, by its name in the suite file.")],
    output: Annotated[
        Path, typer.Option("--output", "-o", help="The .png, .jpg or .pdf to write.")
    ],
    dies: Annotated[
        str | None, typer.Option(help="The dies to show, by name, with commas; twelve if not said.")
    ] = None,
    audience: For = CLIENT,
    printer: PrinterNames = None,
    catalogues: CatalogueFolder = None,
    width: Annotated[int, typer.Option(help="Width of a picture in pixels, 600 to 12000.")] = 3300,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Show a piece in each of the dies it could have, at one scale, for the client to choose."""
    from mockup.asks.options import OptionsRequest, show_options

    names = [name.strip() for name in dies.split(",") if name.strip()] if dies else []
    request = OptionsRequest(
        suite, piece, output, names, printer or (), catalogues, width, audience
    )
    answer = show_options(request)
    if json:
        console.say_json(_told(answer))
        return
    scale = f"{answer.scale * 100:.0f} % of true size"
    console.say(f"{answer.written}: {len(answer.options)} options at {scale}")
    console.say_each(answer.left_out)
    console.say_each(answer.taken)
    if answer.advice:
        console.say(answer.advice)


def _told(answer: OptionsAnswer) -> dict[str, Any]:
    from mockup.dies.wording import lengths_mm

    shown = [
        {
            "number": option.number,
            "die": option.die,
            "parameters": dict(option.parameters),
            "parameters_mm": lengths_mm(option.die, option.parameters),
            "in_stock": option.in_stock,
            "present": option.present,
            "told": list(option.told),
        }
        for option in answer.options
    ]
    return {
        "written": str(answer.written),
        "scale": answer.scale,
        "options": shown,
        "left_out": list(answer.left_out),
        "advice": answer.advice,
        "taken": list(answer.taken),
    }
