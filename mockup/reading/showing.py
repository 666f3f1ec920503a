"""A suite as a client is shown it: without what is surely a template's and was left in the art."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from mockup.artwork.undrawn import undrawn_of_each
from mockup.reading.left_out import LeftOut
from mockup.reading.page import left_out_of_each
from mockup.suite.suite import CheckName, Piece, Suite, all_sides

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
    sides = all_sides(asked)
    keys = ((side.name, side.side) for side in sides)
    marks = dict(zip(keys, left_out_of_each(sides), strict=True))
    pieces = tuple(
        piece.leaving_out([_numbers(marks.get((each.name, each.side), ())) for each in piece.sides])
        for piece in suite.pieces
    )
    return replace(suite, pieces=pieces)


def _numbers(marks: Sequence[LeftOut]) -> frozenset[int]:
    return frozenset(mark.painted.number for mark in marks)


def left_out_told(suite: Suite) -> list[str]:
    """Returns a line for every side of a piece of which marks are left out, for the designer."""
    return [_told(side) for side in all_sides(suite.pieces) if side.art.left_out]


def _told(piece: Piece) -> str:
    count = len(piece.art.left_out)
    one = count == 1
    return (
        f"{_named(piece)}: {count} mark{'' if one else 's'} left in the art "
        f"{'is' if one else 'are'} not shown; `mockup check` says where: "
        f"{'it' if one else 'they'} would be printed; accept "
        f'"{CHECK}" to show {"it" if one else "them"} as art'
    )


def _named(side: Piece) -> str:
    return f"{side.name}, {side.side}" if side.is_second else side.name


def undrawn_told(suite: Suite) -> list[str]:
    """Returns a line for every side of a piece or an envelope, and every liner, whose art asks for
    what is not drawn."""
    arts = [(_named(side), side.art) for side in all_sides(suite.pieces)]
    arts += [(each.name, each.liner.art) for each in suite.envelopes if each.liner is not None]
    arts += [
        (f"{each.name}, {side}", art) for each in suite.envelopes for side, art in each.outside.arts
    ]
    features = undrawn_of_each([art for _, art in arts])
    return [
        f"{name}: {art.path.name} asks for {', '.join(asked)}: not drawn; save it as PDF from the "
        "program it was made in"
        for (name, art), asked in zip(arts, features, strict=True)
        if asked
    ]
