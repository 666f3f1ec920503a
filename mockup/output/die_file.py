"""A die written to a file for a printer, as SVG or PDF by the file's ending."""

from __future__ import annotations

from pathlib import Path

from mockup.dies.exporting import die_pdf, die_svg
from mockup.dies.family import Die
from mockup.errors import OutputError
from mockup.output.files import write_whole


def export_die(die: Die, path: Path) -> None:
    """Writes a die at true size to an .svg or .pdf file. Raises OutputError."""
    kind = path.suffix.lower()
    if kind == ".svg":
        write_whole(path, die_svg(die).encode("utf-8"))
    elif kind == ".pdf":
        write_whole(path, die_pdf(die))
    else:
        raise OutputError(f"{path}: a die is written as .svg or .pdf; name the file so")
