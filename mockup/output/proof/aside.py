"""What a piece's picture on the proof does not show: marks left out, and what is not drawn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mockup.artwork.inspection import Ring
from mockup.artwork.undrawn import undrawn_of_each
from mockup.geometry.affine import Affine, scaling, translation
from mockup.geometry.point import Box, Point
from mockup.output.pdf import HAIRLINE_PT, Pdf
from mockup.output.proof.grid import ALERT
from mockup.output.proof.notes import Figure, Note
from mockup.output.typography import HAIR
from mockup.reading.left_out import LeftOut
from mockup.reading.page import left_out_of_each
from mockup.suite.suite import Piece, Suite, all_sides

_HIGH_IN = 0.9  # of the small drawing
_WIDE_IN = 1.2
_LINE_PT = 0.9  # of what was left out, drawn small
_SMALL_IN = 0.06  # on the page: a mark this small is ringed
_RING_IN = 0.03  # round it
_NAMED = 3  # kinds of marks that are named; a column has no room for more


@dataclass(frozen=True)
class Aside:
    """A piece's marks that are left out of its picture, and what its art asks for in vain."""

    left_out: tuple[LeftOut, ...] = ()
    undrawn: tuple[str, ...] = ()


def asides(suite: Suite) -> list[Aside]:
    """Returns what is not shown of every side of every piece, in order.

    Raises InputError and LimitError.
    """
    sides = all_sides(suite.pieces)
    some = [side for side in sides if side.art.left_out]
    keys = ((side.name, side.side) for side in some)
    marks = dict(zip(keys, left_out_of_each(some), strict=True))
    undrawn = undrawn_of_each([side.art for side in sides])
    return [
        Aside(marks.get((side.name, side.side), ()), features)
        for side, features in zip(sides, undrawn, strict=True)
    ]


def aside_notes(piece: Piece, aside: Aside) -> list[Note]:
    """Returns the notes that tell a client what she is not shown, the marks drawn small."""
    notes: list[Note] = []
    if aside.left_out:
        told = f"Marks of a template, in the file and not shown here: {_kinds(aside.left_out)}."
        figure = _figure(piece, aside)
        notes.append(Note("Left out", (told,), alert=True, figure=figure))
    if aside.undrawn:
        asked = ", ".join(aside.undrawn)
        told = f"The art asks for {asked}, which this proof does not draw."
        notes.append(Note("Not drawn", (told,), alert=True))
    return notes


def _kinds(marks: Sequence[LeftOut]) -> str:
    kinds = list(dict.fromkeys(mark.what for mark in marks))
    more = len(kinds) - _NAMED
    return ", ".join(kinds[:_NAMED]) + (f" and {more} more" if more > 0 else "")


def _figure(piece: Piece, aside: Aside) -> Figure:
    """Returns the card drawn small, with what was left out in another colour."""
    marks = aside.left_out
    around = _around(piece, marks)
    ratio = min(_HIGH_IN / around.height, _WIDE_IN / around.width)

    def draw(pdf: Pdf, at: Point) -> None:
        to_page = translation(at.x, at.y) @ scaling(ratio) @ translation(-around.left, -around.top)
        pdf.stroke(piece.die.shape.mapped(to_page), HAIR, HAIRLINE_PT)
        for mark in marks:
            _draw_mark(pdf, mark, to_page)

    return Figure(around.height * ratio, draw, f"{piece.title}, small: where the marks lie")


def _around(piece: Piece, marks: Sequence[LeftOut]) -> Box:
    """Returns the box of the card and of what reaches beyond it in the bleed."""
    card = piece.die.shape.box
    reach = card.grown(piece.bleed_in)
    boxes = [card, *(mark.painted.box for mark in marks)]
    return Box(
        max(reach.left, min(box.left for box in boxes)),
        max(reach.top, min(box.top for box in boxes)),
        min(reach.right, max(box.right for box in boxes)),
        min(reach.bottom, max(box.bottom for box in boxes)),
    )


def _draw_mark(pdf: Pdf, mark: LeftOut, to_page: Affine) -> None:
    painted = mark.painted
    low = to_page.point(Point(painted.box.left, painted.box.top))
    high = to_page.point(Point(painted.box.right, painted.box.bottom))
    if painted.kind == "type" or max(high.x - low.x, high.y - low.y) < _SMALL_IN:
        pdf.rectangle(Box(*low, *high).grown(_RING_IN), ALERT, HAIRLINE_PT)
        return
    for ring in painted.rings:
        pdf.line(_placed(ring, to_page), ALERT, _LINE_PT)


def _placed(ring: Ring, to_page: Affine) -> list[Point]:
    return [to_page.point(Point(float(x), float(y))) for x, y in ring]
