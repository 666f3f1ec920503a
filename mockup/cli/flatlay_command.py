"""`mockup flatlay`: the whole suite on a table."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from mockup.cli import console


def flatlay(
    suite: Annotated[Path, typer.Argument(help="The suite file.")],
    output: Annotated[Path, typer.Option("--output", "-o", help="The PNG to write.")],
    width: Annotated[int, typer.Option(help="Width in pixels, up to 12000.", min=200)] = 3000,
    scene: Annotated[str | None, typer.Option(help="A scene other than the suite's own.")] = None,
    aspect: Annotated[
        str | None, typer.Option(help="Width to height, 4:5; the scene's own if left out.")
    ] = None,
    arrange: Annotated[
        int | None, typer.Option(help="Take the N-th best arrangement.", min=1)
    ] = None,
    plain: Annotated[bool, typer.Option("--plain", help="Flat light, for judging colour.")] = False,
    cut_line: Annotated[
        bool, typer.Option("--cut-line/--no-cut-line", help="Draw the thin line along every die.")
    ] = True,
    things: Annotated[
        bool, typer.Option("--things", help="Lay the scene's things beside the paper.")
    ] = False,
    json: Annotated[bool, typer.Option("--json", help="Answer in JSON.")] = False,
) -> None:
    """Lay the whole suite on a table: a PNG for a client or a portfolio."""
    from mockup.output.png import write_png
    from mockup.render.flatlay import Shot, flatlay_picture, plain_picture
    from mockup.render.scenes import parse_aspect, read_scene
    from mockup.suite.reading import read_suite, with_scene

    read = with_scene(read_suite(suite), scene, arrange)
    setting = read_scene(read.scene.name, suite.parent)
    ratio = parse_aspect(aspect) if aspect is not None else None
    line = read.cut_line if cut_line else None
    shot = Shot(read, setting, width, ratio, line, setting.things if things else ())
    draw = plain_picture if plain else flatlay_picture
    with console.progress("Laying the table") as progress:
        picture = draw(shot, progress)
    write_png(output, picture, 300)
    height_px, width_px = picture.shape[:2]
    if json:
        console.say_json({"written": str(output), "width_px": width_px, "height_px": height_px})
    else:
        console.say(f"{output}: {width_px} x {height_px} px")
