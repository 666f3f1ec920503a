"""`mockup start`: a first suite file from the PDFs one has."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from mockup.cli import console


def start(
    art: Annotated[list[Path], typer.Argument(help="Print PDFs, or folders of them.")],
    output: Annotated[Path, typer.Option("--output", "-o", help="The suite file to write.")] = Path(
        "suite.toml"
    ),
    replace: Annotated[
        bool, typer.Option("--replace", help="Write over a suite file that exists.")
    ] = False,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Write a suite file from your print PDFs: sizes, bleed and envelopes are inferred."""
    from mockup.output.files import write_whole
    from mockup.suite.starting import find_art, read_art, refuse_replacing, suite_text

    if not replace:
        refuse_replacing(output)
    found = read_art(find_art(art))
    write_whole(output, suite_text(found, output.parent).encode())
    if json:
        console.say_json(
            {
                "written": str(output),
                "pieces": [
                    {
                        "name": each.name,
                        "art": str(each.art),
                        "page": each.page,
                        "card": each.inferred.card.name,
                        "width_in": each.inferred.card.width_in,
                        "height_in": each.inferred.card.height_in,
                        "bleed_in": round(each.inferred.bleed_in, 4),
                        "because": each.inferred.because,
                        "liner": each.is_liner,
                    }
                    for each in found
                ],
            }
        )
        return
    for each in found:
        kind = "liner" if each.is_liner else each.inferred.card.name
        console.say(f"{each.name}: {kind}, {each.inferred.because}")
    console.say(
        f"{output} is written; read its comments, then: mockup flatlay {output} -o flatlay.png"
    )
