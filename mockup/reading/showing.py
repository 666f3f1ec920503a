"""A suite as a client is shown it: without what is surely a template's and was left in the art."""

from __future__ import annotations

from dataclasses import replace

from mockup.reading.page import left_out_of_each
from mockup.suite.suite import Piece, Suite


def for_client(suite: Suite) -> Suite:
    """Returns the suite with a template's lines left out of every piece's picture.

    `check` reports the same lines as stops, for they would be printed. Raises InputError and
    LimitError for art that cannot be read.
    """
    pairs = zip(suite.pieces, left_out_of_each(suite.pieces), strict=True)
    return replace(suite, pieces=tuple(_without(*pair) for pair in pairs))


def _without(piece: Piece, numbers: frozenset[int]) -> Piece:
    return replace(piece, art=replace(piece.art, left_out=numbers))


def left_out_told(suite: Suite) -> list[str]:
    """Returns a line for every piece of which marks are left out, for the designer."""
    return [_told(piece) for piece in suite.pieces if piece.art.left_out]


def _told(piece: Piece) -> str:
    count = len(piece.art.left_out)
    one = count == 1
    return (
        f"{piece.name}: {count} mark{'' if one else 's'} left in the art {'is' if one else 'are'} "
        f"not shown; `mockup check` says where: {'it' if one else 'they'} would be printed"
    )
