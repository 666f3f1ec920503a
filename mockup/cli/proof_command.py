"""`mockup proof`: the proof PDF for the client."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from mockup.cli import console


class Paper(StrEnum):
    """The papers a proof is set on."""

    LETTER = "letter"
    A4 = "a4"


def proof(
    suite: Annotated[Path, typer.Argument(help="The suite file.")],
    output: Annotated[Path, typer.Option("--output", "-o", help="The PDF to write.")],
    paper: Annotated[
        Paper | None, typer.Option(help="The paper; the suite's own if left out.")
    ] = None,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Set the proof for your client: every piece at true size, as PDF."""
    from dataclasses import replace

    from mockup.output.proof import COVER_PX, write_proof
    from mockup.reading.showing import for_client, left_out_told
    from mockup.render.flatlay import Shot, flatlay_picture
    from mockup.render.scenes import read_scene
    from mockup.suite.reading import read_suite

    read = for_client(read_suite(suite))
    if paper is not None:
        read = replace(read, paper=paper.value)
    scene = read_scene(read.scene.name, suite.parent)
    with console.progress("Laying the table") as progress:
        flatlay = flatlay_picture(Shot(read, scene, COVER_PX, line=read.cut_line), progress)
    with console.progress("Setting the proof") as progress:
        pages = write_proof(read, output, flatlay, progress)
    if json:
        console.say_json(
            {
                "written": str(output),
                "pages": pages,
                "paper": read.paper,
                "left_out": left_out_told(read),
            }
        )
    else:
        console.say(f"{output}: {pages} pages on {read.paper} paper; print it at 100 %")
        for line in left_out_told(read):
            console.say(line)
