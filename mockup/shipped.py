"""Where the files that come with the program are: scenes and the demo suite."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def shipped(name: str) -> Path:
    """Returns the folder `scenes` or `assets_demo`, inside the installed program or beside it."""
    inside = _PACKAGE / "shipped" / name
    return inside if inside.is_dir() else _PACKAGE.parent / name
