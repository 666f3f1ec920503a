"""The option by which a command is told whose eyes its picture is for."""

from __future__ import annotations

from typing import Annotated

import typer

from mockup.suite.audience import Audience

For = Annotated[
    Audience,
    typer.Option(
        "--for",
        help="Whose eyes it is for. The studio sees the art as it is, a template's lines and all.",
    ),
]

CLIENT = Audience.CLIENT
"""Whom a picture is for where nothing is said."""
