"""The proof's cover: what it is, for whom and from whom, the flat-lay, and all that is in it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from PIL import Image
from PIL.Image import Resampling

from mockup.colour.srgb import decode, encode
from mockup.geometry.point import Box, Point
from mockup.output.pdf import Pdf
from mockup.output.proof.grid import (
    ART_PPI,
    BODY,
    DISPLAY,
    FOOT_IN,
    LABEL,
    LEFT_IN,
    PAPERS_IN,
    TOP_IN,
)
from mockup.output.proof.notes import Note, draw_note
from mockup.output.proof.words import die_name, sentence, size_in_inches, size_name
from mockup.output.typography import Style, shortened, wrapped
from mockup.pixels import Bytes
from mockup.suite.suite import Envelope, Piece, Suite

_OVER_PICTURE_IN = 0.36  # from the title's last baseline to the picture
_HIGHEST_TITLE_IN = 1.3  # its first baseline
_ROW_IN = 0.22
_NOTES_IN = 0.72  # of the line of notes above the table, with the air below it
_OVER_FOOT_IN = 0.6
_COLUMNS = (0.0, 0.24, 0.46, 0.73, 0.93)  # where columns begin, as shares of the width
_HEADS = ("Piece", "Size", "Shape", "Quantity", "Page")
_NUMBERS = ("Quantity", "Page")

COVER_PX = int((PAPERS_IN["letter"][0] - 2 * LEFT_IN) * ART_PPI)
"""The widest the cover's picture is shown, in pixels; of a wider one pixels are averaged."""


@dataclass(frozen=True)
class Row:
    """A line of the list: a piece or an envelope, and the page it is on."""

    item: Piece | Envelope
    page: int


def draw_cover(pdf: Pdf, suite: Suite, flatlay: Bytes, rows: Sequence[Row]) -> None:
    """Draws the cover on a page begun; `flatlay` is (h, w, 3) sRGB."""
    left, measure = LEFT_IN, pdf.width_in - 2 * LEFT_IN
    list_top = pdf.height_in - FOOT_IN - _OVER_FOOT_IN - len(rows) * _ROW_IN
    parties_top = list_top - _NOTES_IN
    title_in = (len(wrapped(suite.title, DISPLAY, measure)) - 1) * DISPLAY.leading_in
    highest = _HIGHEST_TITLE_IN + title_in + _OVER_PICTURE_IN
    room = Box(left, highest, left + measure, parties_top - 0.36)
    picture = _picture_box(flatlay, room)
    pdf.text(Point(left, TOP_IN + 0.09), f"Proof, revision {suite.revision}", LABEL)
    title_top = picture.top - _OVER_PICTURE_IN - title_in
    pdf.paragraph(Point(left, title_top), suite.title, DISPLAY, measure)
    pdf.photograph(_reduced(flatlay, picture), picture)
    _draw_parties(pdf, suite, Point(left, parties_top), measure)
    _draw_list(pdf, rows, Point(left, list_top))


def _picture_box(flatlay: Bytes, room: Box) -> Box:
    """Returns the largest box of the picture's shape in a room, at its foot, in its middle."""
    height_px, width_px = flatlay.shape[:2]
    scale = min(room.width / width_px, room.height / height_px)
    wide, high = width_px * scale, height_px * scale
    left = room.centre.x - wide / 2
    return Box(left, room.bottom - high, left + wide, room.bottom)


def _reduced(flatlay: Bytes, box: Box) -> Bytes:
    """Returns the picture at 200 pixels an inch of the page or less, averaged in linear light."""
    height_px, width_px = flatlay.shape[:2]
    size = (min(width_px, int(box.width * ART_PPI)), min(height_px, int(box.height * ART_PPI)))
    if size == (width_px, height_px):
        return flatlay
    light = decode(flatlay)
    channels = [Image.fromarray(light[:, :, k]).resize(size, Resampling.BOX) for k in range(3)]
    return encode(np.dstack([np.asarray(channel) for channel in channels]))


def _draw_parties(pdf: Pdf, suite: Suite, at: Point, measure: float) -> None:
    """Sets who it is for and from, over the list's own columns."""
    parties = (("For", suite.client), ("From", suite.designer))
    told = [(label, text) for label, text in parties if text]
    starts = (_COLUMNS[0], _COLUMNS[2])[: len(told)]
    ends = (*starts[1:], 1.0)
    for (label, text), start, end in zip(told, starts, ends, strict=True):
        here = Point(at.x + start * measure, at.y)
        draw_note(pdf, here, Note(label, (text,)), (end - start) * measure - 0.15)


def _draw_list(pdf: Pdf, rows: Sequence[Row], at: Point) -> None:
    _draw_row(pdf, at, _HEADS, LABEL)
    for number, row in enumerate(rows, start=1):
        y = at.y + number * _ROW_IN
        pdf.rule(Point(at.x, y - 0.155), Point(pdf.width_in - LEFT_IN, y - 0.155))
        _draw_row(pdf, Point(at.x, y), _cells(row), BODY)


def _cells(row: Row) -> tuple[str, ...]:
    item = row.item
    if isinstance(item, Piece):
        size = size_in_inches(item.die.width_in, item.die.height_in)
        shape = die_name(item.die)
    else:
        size = size_in_inches(item.spec.width_in, item.spec.height_in)
        flap = f"{item.spec.flap.replace('-', ' ')} flap"
        name = size_name(item.size.name)
        shape = f"{name}, {flap}" if name else sentence(flap)
    quantity = f"{item.quantity:,}" if item.quantity is not None else ""
    return item.title, size, shape, quantity, str(row.page)


def _draw_row(pdf: Pdf, at: Point, cells: Sequence[str], style: Style) -> None:
    measure = pdf.width_in - 2 * LEFT_IN
    for head, cell, start, end in zip(_HEADS, cells, _COLUMNS, (*_COLUMNS[1:], 1.0), strict=True):
        if head in _NUMBERS:
            pdf.text(Point(at.x + end * measure, at.y), cell, style, "right")
        else:
            room = (end - start) * measure - 0.12
            pdf.text(Point(at.x + start * measure, at.y), shortened(cell, style, room), style)
