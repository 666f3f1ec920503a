"""Which files an ask reads: none of them is ever written over."""

from __future__ import annotations

from pathlib import Path

from mockup.artwork.art import Art
from mockup.record.folder import record_files
from mockup.suite.suite import Piece, Suite


def inputs_of(suite: Suite) -> list[Path]:
    """Returns the suite file, the art of every piece, liner and envelope, templates of dies,
    profiles, and what the suite's record holds."""
    liners = [
        file
        for each in suite.envelopes
        if each.liner is not None
        for file in _inputs_of_art(each.liner.art)
    ]
    return [
        suite.path,
        *(file for piece in suite.pieces for file in inputs_of_piece(piece)),
        *liners,
        *(
            file
            for each in suite.envelopes
            for _, art in each.outside.arts
            for file in _inputs_of_art(art)
        ),
        *record_files(suite.path),
    ]


def inputs_of_piece(piece: Piece) -> list[Path]:
    """Returns the art of a piece's sides, its press's profile, its die's template if it has one."""
    template = piece.die.template
    files = _inputs_of_art(piece.art)
    if piece.back is not None:
        files += _inputs_of_art(piece.back)
    return files if template is None else [*files, template]


def _inputs_of_art(art: Art) -> list[Path]:
    return [art.path, art.press.profile]
