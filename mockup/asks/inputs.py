"""Which files an ask reads: none of them is ever written over."""

from __future__ import annotations

from pathlib import Path

from mockup.printers.catalogue import catalogue_files, catalogue_folder
from mockup.suite.suite import Piece, Suite


def inputs_of(suite: Suite) -> list[Path]:
    """Returns the suite file, the art of every piece and liner, and templates of dies."""
    liners = [each.liner.art.path for each in suite.envelopes if each.liner is not None]
    return [
        suite.path,
        *(file for piece in suite.pieces for file in inputs_of_piece(piece)),
        *liners,
    ]


def inputs_of_piece(piece: Piece) -> list[Path]:
    """Returns a piece's art, and its die's template where it has one."""
    template = piece.die.template
    return [piece.art.path] if template is None else [piece.art.path, template]


def inputs_of_catalogues(folder: Path | None, suite: Path | None) -> list[Path]:
    """Returns the catalogue files that are read where a folder, or none, is named."""
    place = catalogue_folder(folder, suite)
    return [] if place is None else catalogue_files(place)
