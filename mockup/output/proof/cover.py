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
from mockup.output.pdf_tags import Leaf
from mockup.output.proof.grid import (
    BODY,
    CLOSE,
    COVER_PPI,
    DISPLAY,
    FOOT_IN,
    HEADLINE,
    LABEL,
    LEFT_IN,
    PAPERS_IN,
    SMALL_TITLE,
    TOP_IN,
)
from mockup.output.proof.notes import Note, draw_note
from mockup.output.proof.words import die_name, sentence, size_name, size_told
from mockup.output.typography import Style, shortened, wrapped
from mockup.pixels import Bytes
from mockup.suite.suite import Envelope, Piece, Suite

_OVER_PICTURE_IN = 0.36  # from the title's last baseline to the picture
_HIGHEST_TITLE_IN = 1.3  # its first baseline
_ROW_IN = 0.28
_CLOSE_ROW_IN = 0.17  # where there are many
_MANY_ROWS = 12
_UNDER_PICTURE_IN = 0.36  # from the picture to the baseline of the first label
_UNDER_PARTIES_IN = 0.62  # from the last line of the parties to the list, with the label's own line
_OVER_FOOT_IN = 0.6
_COLUMNS = (0.0, 0.27, 0.49, 0.76, 0.92)  # where columns begin, as shares of the width
_HEADS = ("Piece", "Size", "Shape", "Quantity", "Page")
_NUMBERS = ("Quantity", "Page")

_TITLES = (DISPLAY, HEADLINE, SMALL_TITLE)

COVER_PX = int((PAPERS_IN["letter"][0] - 2 * LEFT_IN) * COVER_PPI)
"""The widest the cover's picture is shown, in pixels; of a wider one pixels are averaged."""


@dataclass(frozen=True)
class Row:
    """A line of the list: a piece or an envelope, and the page it is on."""

    item: Piece | Envelope
    page: int


def draw_cover(pdf: Pdf, suite: Suite, flatlay: Bytes, rows: Sequence[Row]) -> None:
    """Draws the cover on a page begun; `flatlay` is (h, w, 3) sRGB."""
    left, measure = LEFT_IN, pdf.width_in - 2 * LEFT_IN
    row_in = _ROW_IN if len(rows) <= _MANY_ROWS else _CLOSE_ROW_IN
    list_top = pdf.height_in - FOOT_IN - _OVER_FOOT_IN - len(rows) * row_in
    parties = _parties(suite, measure)
    party_lines = max((len(wrapped(text, BODY, room)) for _, text, _, room in parties), default=0)
    parties_top = list_top - _UNDER_PARTIES_IN - party_lines * BODY.leading_in
    style = _title_style(suite.title, measure)
    title_in = (len(wrapped(suite.title, style, measure)) - 1) * style.leading_in
    highest = _HIGHEST_TITLE_IN + title_in + _OVER_PICTURE_IN
    room = Box(left, highest, left + measure, parties_top - _UNDER_PICTURE_IN)
    picture = _picture_box(flatlay, room)
    title_top = picture.top - _OVER_PICTURE_IN - title_in
    with pdf.element("H1"):
        pdf.paragraph(Point(left, title_top), suite.title, style, measure)
    pdf.text(Point(left, TOP_IN + 0.09), f"Proof, revision {suite.revision}", LABEL)
    with pdf.element("Figure", _alt(suite)):
        pdf.photograph(_reduced(flatlay, picture), picture)
    for label, text, across, width in parties:
        draw_note(pdf, Point(left + across, parties_top), Note(label, (text,)), width)
    _draw_list(pdf, rows, Point(left, list_top), row_in)


def _title_style(title: str, measure: float) -> Style:
    """Returns the largest style that sets a title in two lines, or the smallest."""
    fits = (style for style in _TITLES if len(wrapped(title, style, measure)) <= 2)
    return next(fits, _TITLES[-1])


def _alt(suite: Suite) -> str:
    items = (*suite.pieces, *suite.envelopes)
    return f"{suite.title}, laid flat: {', '.join(item.title for item in items)}"


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
    size = (min(width_px, int(box.width * COVER_PPI)), min(height_px, int(box.height * COVER_PPI)))
    if size == (width_px, height_px):
        return flatlay
    light = decode(flatlay)
    channels = [Image.fromarray(light[:, :, k]).resize(size, Resampling.BOX) for k in range(3)]
    return encode(np.dstack([np.asarray(channel) for channel in channels]))


def _parties(suite: Suite, measure: float) -> list[tuple[str, str, float, float]]:
    """Returns who it is for and from: label, text, how far across, and the measure, inches."""
    told = [
        (label, text) for label, text in (("For", suite.client), ("From", suite.designer)) if text
    ]
    columns = ((0.0, _COLUMNS[2]), (_COLUMNS[2], 1.0))
    return [
        (label, text, start * measure, (end - start) * measure - 0.15)
        for (label, text), (start, end) in zip(told, columns[: len(told)], strict=True)
    ]


def _draw_list(pdf: Pdf, rows: Sequence[Row], at: Point, row_in: float) -> None:
    style = BODY if row_in == _ROW_IN else CLOSE
    with pdf.group("Table"):
        _draw_row(pdf, at, _HEADS, (LABEL, "TH"))
        for number, row in enumerate(rows, start=1):
            y = at.y + number * row_in
            over = y - row_in * 0.7
            pdf.rule(Point(at.x, over), Point(pdf.width_in - LEFT_IN, over))
            _draw_row(pdf, Point(at.x, y), _cells(row), (style, "TD"))


def _cells(row: Row) -> tuple[str, ...]:
    item = row.item
    if isinstance(item, Piece):
        size = size_told(item.die.width_in, item.die.height_in, item.units)
        shape = die_name(item.die) + (", folded" if item.fold else "")
    else:
        size = size_told(item.spec.width_in, item.spec.height_in, item.units)
        flap = f"{item.spec.flap.replace('-', ' ')} flap"
        name = size_name(item.size.name)
        shape = sentence(f"{name}, {flap}" if name else flap)
    quantity = f"{item.quantity:,}" if item.quantity is not None else ""
    return item.title, size, shape, quantity, str(row.page)


def _draw_row(pdf: Pdf, at: Point, cells: Sequence[str], as_: tuple[Style, Leaf]) -> None:
    measure = pdf.width_in - 2 * LEFT_IN
    style, role = as_
    ends = (*_COLUMNS[1:], 1.0)
    with pdf.group("TR"):
        for head, cell, start, end in zip(_HEADS, cells, _COLUMNS, ends, strict=True):
            with pdf.element(role):
                if head in _NUMBERS:
                    pdf.text(Point(at.x + end * measure, at.y), cell, style, "right")
                else:
                    room = (end - start) * measure - 0.12
                    text = shortened(cell, style, room)
                    pdf.text(Point(at.x + start * measure, at.y), text, style)
