"""The options by which commands are told whose catalogues to read."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

PrinterNames = Annotated[
    list[str] | None, typer.Option(help="Only this printer's; may be given again.")
]
CatalogueFolder = Annotated[
    Path | None,
    typer.Option(
        help="Folder of catalogues; if not said, `printers` beside the suite or in this folder."
    ),
]
