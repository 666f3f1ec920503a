"""The proof's cover: what it is, for whom and from whom, the flat-lay, and all that is in it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mockup.geometry.point import Box, Point
from mockup.output.pdf import Pdf
from mockup.output.proof.grid import BODY, DISPLAY, FOOT_IN, LABEL, LEFT_IN, Note, draw_note
from mockup.output.proof.words import die_name, held_by, size_in_inches, size_name
from mockup.output.typography import Style
from mockup.pixels import Bytes
from mockup.suite.suite import Envelope, Piece, Suite

_TOP_IN = 1.08  # baseline of the title
_ROW_IN = 0.22
_NOTES_IN = 0.72  # of the line of notes above the table, with the air below it
_SMALLEST_PICTURE_IN = 2.2
_COLUMNS = (0.0, 0.24, 0.46, 0.73, 0.93)  # where columns begin, as shares of the width
_HEADS = ("Piece", "Size", "Die", "Quantity", "Page")
_NUMBERS = ("Quantity", "Page")


@dataclass(frozen=True)
class Row:
    """A line of the list: a piece or an envelope, and the page it is on."""

    item: Piece | Envelope
    page: int


def draw_cover(pdf: Pdf, suite: Suite, flatlay: Bytes, rows: Sequence[Row]) -> None:
    """Draws the cover on a page begun; `flatlay` is (h, w, 3) or (h, w, 4) sRGB."""
    left, measure = LEFT_IN, pdf.width_in - 2 * LEFT_IN
    at = pdf.paragraph(Point(left, _TOP_IN), suite.title, DISPLAY, measure)
    top = at.y - DISPLAY.leading_in + 0.32
    list_in = _NOTES_IN + (len(rows) + 1) * _ROW_IN
    bottom = pdf.height_in - FOOT_IN - 0.42 - list_in
    room = Box(left, top, left + measure, max(bottom, top + _SMALLEST_PICTURE_IN))
    picture = _picture_box(flatlay, room)
    pdf.photograph(flatlay, picture)
    _draw_parties(pdf, suite, Point(left, picture.bottom + 0.38), measure)
    _draw_list(pdf, suite, rows, Point(left, picture.bottom + 0.38 + _NOTES_IN))


def _picture_box(flatlay: Bytes, room: Box) -> Box:
    """Returns the largest box of the picture's shape in a room, at its top, in its middle."""
    height_px, width_px = flatlay.shape[:2]
    scale = min(room.width / width_px, room.height / height_px)
    wide, high = width_px * scale, height_px * scale
    left = room.centre.x - wide / 2
    return Box(left, room.top, left + wide, room.top + high)


def _draw_parties(pdf: Pdf, suite: Suite, at: Point, measure: float) -> None:
    """Sets who it is for and from, and which revision it is, over the list's own columns."""
    parties = (("For", suite.client), ("From", suite.designer), ("Revision", suite.revision))
    told = [(label, text) for label, text in parties if text]
    starts = (_COLUMNS[0], _COLUMNS[2], _COLUMNS[3])[: len(told)]
    ends = (*starts[1:], 1.0)
    for (label, text), start, end in zip(told, starts, ends, strict=True):
        here = Point(at.x + start * measure, at.y)
        draw_note(pdf, here, Note(label, (text,)), (end - start) * measure - 0.15)


def _draw_list(pdf: Pdf, suite: Suite, rows: Sequence[Row], at: Point) -> None:
    _draw_row(pdf, at, _HEADS, LABEL)
    for number, row in enumerate(rows, start=1):
        y = at.y + number * _ROW_IN
        pdf.rule(Point(at.x, y - 0.155), Point(pdf.width_in - LEFT_IN, y - 0.155))
        _draw_row(pdf, Point(at.x, y), _cells(suite, row), BODY)


def _cells(suite: Suite, row: Row) -> tuple[str, ...]:
    item = row.item
    quantity = f"{item.quantity:,}" if item.quantity is not None else ""
    if isinstance(item, Piece):
        size = size_in_inches(item.die.width_in, item.die.height_in)
        return item.title, size, die_name(item.die), quantity, str(row.page)
    name = size_name(item.size.name)
    size = size_in_inches(item.size.width_in, item.size.height_in)
    flap = f"{item.spec.flap.replace('-', ' ')} flap".capitalize()
    held = held_by(suite, item)
    return (
        item.title,
        size,
        f"{name}, {flap.lower()}" if name and held else flap,
        quantity,
        str(row.page),
    )


def _draw_row(pdf: Pdf, at: Point, cells: Sequence[str], style: Style) -> None:
    measure = pdf.width_in - 2 * LEFT_IN
    for head, cell, start, end in zip(_HEADS, cells, _COLUMNS, (*_COLUMNS[1:], 1.0), strict=True):
        if head in _NUMBERS:
            pdf.text(Point(at.x + end * measure, at.y), cell, style, "right")
        else:
            pdf.text(Point(at.x + start * measure, at.y), cell, style)
