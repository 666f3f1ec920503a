"""`mockup options`: a piece in the dies it could have, or an envelope in the papers."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from mockup.cli import console
from mockup.cli.audience_option import CLIENT, For
from mockup.cli.envelope_papers_told import listed, refuse_dies, say_papers
from mockup.cli.printers_options import CatalogueFolder, PrinterNames
from mockup.cli.ready import make_ready

if TYPE_CHECKING:
    make_ready()
    from mockup.asks.options import OptionsAnswer


def options(
    suite: Annotated[Path, typer.Argument(help="The suite file.")],
    piece: Annotated[
        str, typer.Argument(help="The piece or the envelope, by its name in the suite file.")
    ],
    output: Annotated[
        Path, typer.Option("--output", "-o", help="The .png, .jpg or .pdf to write.")
    ],
    dies: Annotated[
        str | None, typer.Option(help="The dies to show, by name, with commas; twelve if not said.")
    ] = None,
    audience: For = CLIENT,
    colours: Annotated[
        str | None,
        typer.Option(
            help="An envelope's papers to show, with commas: names of your catalogue, of generic "
            "colours, or '#rrggbb'; twelve of the catalogue if not said."
        ),
    ] = None,
    papers: Annotated[
        Path | None,
        typer.Option(
            help="Catalogue of papers, or a folder of them; if not said, `papers` beside the suite "
            "or in this folder."
        ),
    ] = None,
    printer: PrinterNames = None,
    catalogues: CatalogueFolder = None,
    width: Annotated[int, typer.Option(help="Width of a picture in pixels, 600 to 12000.")] = 3300,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Show a piece in the dies it could have, or an envelope in the papers, for the client to
    choose."""
    from mockup.asks.envelope_papers import EnvelopePapersRequest, is_envelope
    from mockup.asks.options import OptionsRequest, show_options

    if colours is not None or papers is not None or is_envelope(suite, piece):
        refuse_dies(dies, piece)
        wanted = listed(colours)
        asked = EnvelopePapersRequest(suite, piece, output, wanted, papers, width, audience)
        say_papers(asked, json)
        return
    names = listed(dies)
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
