"""The option by which a command is told whose eyes its picture is for."""

from __future__ import annotations

from typing import Annotated

import typer

from mockup.suite.audience import Audience

Studio = Annotated[
    bool,
    typer.Option("--studio", help="For yourself: the art as it is, a template's lines and all."),
]


def audience(studio: bool) -> Audience:
    """Returns the studio where it is asked for, else the client."""
    return Audience.STUDIO if studio else Audience.CLIENT
