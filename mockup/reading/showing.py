"""A suite as a client is shown it: without what is surely a template's and was left in the art."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from mockup.artwork.undrawn import undrawn_of_each
from mockup.reading.left_out import LeftOut
from mockup.reading.page import left_out_of_each
from mockup.suite.suite import CheckName, Piece, Suite

CHECK: CheckName = "left-in"
"""The check that tells of these lines; its finding is what a designer accepts."""


def for_client(suite: Suite) -> Suite:
    """Returns the suite with a template's lines left out of every piece's picture.

    `check` reports the same lines as stops, for they would be printed. Those of a piece whose
    finding is accepted are art, and shown. Raises InputError and LimitError for art that cannot be
    read.
    """
    kept = {each.piece for each in suite.accepted if each.check == CHECK}
    asked = [piece for piece in suite.pieces if not {piece.name, "*"} & kept]
    marks = dict(zip((piece.name for piece in asked), left_out_of_each(asked), strict=True))
    pieces = tuple(_without(piece, marks.get(piece.name, ())) for piece in suite.pieces)
    return replace(suite, pieces=pieces)


def _without(piece: Piece, marks: Sequence[LeftOut]) -> Piece:
    numbers = frozenset(mark.painted.number for mark in marks)
    return replace(piece, art=replace(piece.art, left_out=numbers))


def left_out_told(suite: Suite) -> list[str]:
    """Returns a line for every piece of which marks are left out, for the designer."""
    return [_told(piece) for piece in suite.pieces if piece.art.left_out]


def _told(piece: Piece) -> str:
    count = len(piece.art.left_out)
    one = count == 1
    return (
        f"{piece.name}: {count} mark{'' if one else 's'} left in the art {'is' if one else 'are'} "
        f"not shown; `mockup check` says where: {'it' if one else 'they'} would be printed; accept "
        f'"{CHECK}" to show {"it" if one else "them"} as art'
    )


def undrawn_told(suite: Suite) -> list[str]:
    """Returns a line for every piece and liner whose art asks for what is not drawn."""
    arts = [(piece.name, piece.art) for piece in suite.pieces]
    arts += [(each.name, each.liner.art) for each in suite.envelopes if each.liner is not None]
    features = undrawn_of_each([art for _, art in arts])
    return [
        f"{name}: {art.path.name} asks for {', '.join(asked)}: not drawn; save it as PDF from the "
        "program it was made in"
        for (name, art), asked in zip(arts, features, strict=True)
        if asked
    ]
