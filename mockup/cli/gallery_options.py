"""The options of the commands that list what there is."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

GalleryFile = Annotated[
    Path | None, typer.Option("--output", "-o", help="Draw them into this .png, .jpg or .pdf.")
]
GalleryUnits = Annotated[str, typer.Option("--units", help="in or mm.")]
GalleryWidth = Annotated[
    int, typer.Option("--width", help="Width of a picture in pixels, 600 to 12000.")
]
GalleryJson = Annotated[bool, typer.Option("--json", help="Answer in JSON.")]
