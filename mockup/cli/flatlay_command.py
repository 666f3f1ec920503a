"""`mockup flatlay`: the whole suite on a table."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from mockup.cli import console
from mockup.cli.audience_option import CLIENT, For
from mockup.cli.ready import make_ready


def flatlay(
    suite: Annotated[Path, typer.Argument(help="The suite file.")],
    output: Annotated[Path, typer.Option("--output", "-o", help="The .png or .jpg to write.")],
    width: Annotated[int, typer.Option(help="Width in pixels, 200 to 12000.")] = 3000,
    scene: Annotated[str | None, typer.Option(help="A scene other than the suite's own.")] = None,
    aspect: Annotated[
        str | None, typer.Option(help="Width to height, 4:5; the scene's own if left out.")
    ] = None,
    arrange: Annotated[
        int | None, typer.Option(help="Take the N-th best arrangement, 1 to 50.")
    ] = None,
    plain: Annotated[bool, typer.Option("--plain", help="Flat light, for judging colour.")] = False,
    cut_line: Annotated[
        bool | None,
        typer.Option(
            "--cut-line/--no-cut-line",
            help="Draw the thin line along every die; left out, under flat light only.",
        ),
    ] = None,
    things: Annotated[
        bool, typer.Option("--things", help="Lay the scene's things beside the paper.")
    ] = False,
    backs: Annotated[
        bool, typer.Option("--backs", help="Lay cards' printed backs beside them as well.")
    ] = False,
    things_from: Annotated[
        Path | None,
        typer.Option("--things-from", help="A folder of your own SVGs, laid in their stead."),
    ] = None,
    audience: For = CLIENT,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Lay the whole suite on a table: a PNG for a client or a portfolio."""
    make_ready()
    from mockup.asks.flatlay import FlatlayRequest, lay_flatlay

    request = FlatlayRequest(
        suite,
        output,
        width,
        scene,
        aspect,
        arrange,
        plain,
        cut_line,
        things,
        audience,
        backs,
        things_from,
    )
    with console.progress("Laying the table") as progress:
        answer = lay_flatlay(request, progress)
    if json:
        console.say_json(
            {
                "written": str(answer.written),
                "width_px": answer.width_px,
                "height_px": answer.height_px,
                "left_out": list(answer.left_out),
                "taken": list(answer.taken),
                "too_small": list(answer.too_small),
                "cuts": list(answer.cuts),
                "colour": list(answer.colour),
                "without_room": list(answer.without_room),
            }
        )
        return
    console.say(f"{answer.written}: {answer.width_px} x {answer.height_px} px")
    console.say_each([*answer.cuts, *answer.colour, *answer.left_out])
    console.say_each(answer.taken)
    console.tell([*answer.too_small, *answer.without_room])
