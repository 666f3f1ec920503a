"""From a suite file and a piece's name to its options sheet, and what is on it for a machine."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from mockup.dies.family import Die
from mockup.errors import SuiteError, nearest
from mockup.output.options_sheet import Sheet, write_options
from mockup.output.options_words import (
    Caption,
    about_studio,
    client_captions,
    studio_captions,
    type_clearance,
)
from mockup.printers.catalogue import find_printers
from mockup.printers.options import Option, options_for
from mockup.reading.page import read_facts
from mockup.suite.reading import read_suite
from mockup.suite.suite import Piece, Suite


def draw_options(
    suite_path: Path,
    piece_name: str,
    output: Path,
    names: Sequence[str],
    studio: bool,
    catalogues: tuple[Path | None, Sequence[str]],
    width_px: int,
) -> dict[str, Any]:
    """Writes the options of a piece, and returns what was shown: names, groups, words.

    `catalogues` is a folder, or None for the usual one, and the printers' names to keep. Raises
    SuiteError for an unknown piece or catalogue, DieError for a die that cannot be, and what
    drawing and writing raise.
    """
    suite = read_suite(suite_path)
    piece = _piece(suite, piece_name)
    printers = find_printers(*catalogues, suite_path)
    page = read_facts(piece)

    def suits(die: Die) -> bool:  # nobody has a die made that comes too near the type
        clearance = type_clearance(page, die)
        return clearance is None or clearance >= page.safe_in

    options = options_for(printers, piece.die, piece.stock.caliper_mil, names, suits)
    captions = studio_captions(piece, options, page) if studio else client_captions(options)
    about = about_studio(piece, options) if studio else ""
    grid = write_options(output, Sheet(suite, piece, options, captions, about), width_px)
    shown = [
        _told(number, option, caption)
        for number, (option, caption) in enumerate(zip(options, captions, strict=True), 1)
    ]
    return {"written": str(output), "scale": grid.scale, "options": shown}


def _told(number: int, option: Option, caption: Caption) -> dict[str, Any]:
    return {
        "number": number,
        "die": option.die.name,
        "parameters": dict(option.die.parameters),
        "in_stock": option.in_stock,
        "told": list(caption.lines),
    }


def _piece(suite: Suite, name: str) -> Piece:
    known = {piece.name: piece for piece in suite.pieces}
    if name not in known:
        hint = nearest(name, known) or f"; there are {', '.join(known)}"
        raise SuiteError(f'{suite.path}: no piece called "{name}"{hint}')
    return known[name]
