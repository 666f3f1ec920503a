"""A page of the proof for one piece: at true size, its art cut to the die, measures, a ruler."""

from __future__ import annotations

from dataclasses import dataclass

from mockup.artwork.raster import RasterJob
from mockup.colour.appearance import appearance
from mockup.colour.plates import Plates
from mockup.colour.srgb import parse_hex
from mockup.geometry.affine import IDENTITY, Affine, scaling, translation
from mockup.geometry.outline import Shape
from mockup.geometry.point import Box, Point, box_of
from mockup.output.pdf import Pdf
from mockup.output.proof.aside import Aside, aside_notes
from mockup.output.proof.grid import (
    ART_PPI,
    COLUMN_IN,
    LEFT_IN,
    MAIN_IN,
    REMARK,
    RULER_IN,
    Fitted,
    Frame,
    fitted,
)
from mockup.output.proof.notes import Note, Notes, draw_notes, have_room
from mockup.output.proof.words import (
    art_words,
    die_measures,
    die_name,
    envelopes_of,
    fingerprint,
    lengths_told,
    press_notes,
    scale_words,
    size_name,
    size_told,
    size_told_otherwise,
    stock_words,
    template_words,
    unbroken,
)
from mockup.output.ruler import draw_ruler
from mockup.output.typography import QUIET, Style
from mockup.pixels import Bytes, View, view_around
from mockup.render.cutline import CutLine
from mockup.render.piece import PAPER_WHITE, line_for, located, strokes
from mockup.suite.suite import Piece, Suite
from mockup.units import Unit

_MEASURE = Style("text", 8, 10, QUIET)
_RULER_LENGTH_IN = 5
_OPTICAL_MIDDLE = 0.36  # share of the spare height that is left above a piece


@dataclass(frozen=True)
class CardPage:
    """One piece's page: the piece, where and how large it goes, the view its art is drawn in, and
    what of it is not shown."""

    piece: Piece
    place: Fitted
    view: View
    aside: Aside
    inks: tuple[str, ...]
    """By which press its inks are shown, as the reader is told."""


def plan_card(suite: Suite, piece: Piece, aside: Aside) -> CardPage:
    """Returns the page of a piece, its art to be drawn at 200 pixels an inch of the page.

    True size goes before the small drawing of what was left out: words tell of it then. Raises what
    reading its art raises.
    """
    inks = press_notes(piece.art, piece.stock)
    place = _place(suite, piece, aside, inks)
    if place.ratio > 1 and aside.left_out:
        told = _place(suite, piece, aside.in_words, inks)
        if told.ratio < place.ratio:
            place, aside = told, aside.in_words
    ppi = ART_PPI / place.ratio
    view = view_around(piece.die.shape.box, ppi, 1 / ppi)
    return CardPage(piece, place, view, aside, inks)


def _place(suite: Suite, piece: Piece, aside: Aside, inks: tuple[str, ...]) -> Fitted:
    def holds(frame: Frame, ratio: float) -> bool:
        return have_room(frame.columns, _notes(suite, piece, ratio, aside, inks))

    return fitted(suite.paper, piece.die.width_in, piece.die.height_in, holds, suite.units)


def card_job(page: CardPage) -> RasterJob:
    """Returns the drawing of a piece's art. Raises what read_page and place_card raise."""
    piece = page.piece
    art, placement = located(piece)
    return RasterJob(art, placement, IDENTITY, page.view)


def draw_card(pdf: Pdf, suite: Suite, page: CardPage, drawn: Plates) -> None:
    """Draws a piece's page; `drawn` is its art in the page's view."""
    piece, frame = page.piece, page.place.frame
    art = appearance(drawn, parse_hex(piece.stock.colour_hex))
    line = line_for(piece.die.shape, art, page.view, [PAPER_WHITE], suite.cut_line)
    field = frame.field
    spare = field.height - piece.die.height_in / page.place.ratio
    top = field.top + spare * _OPTICAL_MIDDLE
    to_page = translation(field.left, top) @ scaling(1 / page.place.ratio)
    shape = piece.die.shape.mapped(to_page)
    draw_art(pdf, art, page.view, to_page, shape)
    draw_cut_line(pdf, shape, line)
    _draw_measures(pdf, piece, shape.box)
    notes = _notes(suite, piece, page.place.ratio, page.aside, page.inks)
    draw_notes(pdf, frame.columns, notes)
    if page.place.ratio == 1:
        _draw_check(pdf, suite.units)


def draw_art(pdf: Pdf, art: Bytes, view: View, to_page: Affine, shape: Shape) -> None:
    """Places a picture of a view through a map to the page, cut to a shape on the page."""
    corners = (
        Point(view.left_in, view.top_in),
        Point(view.left_in + view.width_in, view.top_in + view.height_in),
    )
    pdf.picture(art, box_of(to_page.point(corner) for corner in corners), shape)


def draw_cut_line(pdf: Pdf, shape: Shape, line: CutLine) -> None:
    """Strokes a cut line as vector, over its casing where it has one."""
    for colour, width_pt in strokes(line):
        pdf.stroke(shape, colour, width_pt)


def _draw_measures(pdf: Pdf, piece: Piece, box: Box) -> None:
    """Draws the width below the piece and the height to its right, with the length on each."""
    away, tick = 0.17, 0.05
    y, x = box.bottom + away, box.right + away
    pdf.rule(Point(box.left, y), Point(box.right, y))
    pdf.rule(Point(x, box.top), Point(x, box.bottom))
    for end in (box.left, box.right):
        pdf.rule(Point(end, y - tick), Point(end, y + tick))
    for end in (box.top, box.bottom):
        pdf.rule(Point(x - tick, end), Point(x + tick, end))
    sides = (piece.die.width_in, piece.die.height_in)
    width, height = ("  \u00b7  ".join(lengths_told(side, piece.units)) for side in sides)
    pdf.text(Point(box.centre.x, y + 0.145), width, _MEASURE, "centre")
    pdf.text_upward(Point(x + 0.145, box.centre.y), height, _MEASURE, "centre")


def _notes(suite: Suite, piece: Piece, ratio: float, aside: Aside, inks: tuple[str, ...]) -> Notes:
    wide, high = piece.die.width_in, piece.die.height_in
    name = size_name(piece.card.name)
    units = suite.units
    first = size_told(wide, high, units) + (f", {name}" if name else "")
    size = (first, size_told_otherwise(wide, high, units))
    die = tuple(text for text in (die_name(piece.die), die_measures(piece.die, units)) if text)
    notes = [
        _scale_note(ratio, suite.cut_line.width_pt),
        Note("Size", size),
        Note("Die", die),
        Note("Stock", (stock_words(piece.stock, units),)),
    ]
    if inks:
        notes.append(Note("Inks shown as", inks))
    if piece.quantity is not None:
        notes.append(Note("Quantity", (f"{piece.quantity:,}",)))
    envelopes = envelopes_of(suite, piece)
    if envelopes:
        notes.append(Note("Goes in", (envelopes,)))
    art = (art_words(piece.art), f"fingerprint {fingerprint(piece.art)}")
    notes.append(Note("Art", art))
    if piece.die.template is not None:
        notes.append(Note("Template", template_words(piece.die, units)))
    notes += aside_notes(piece, aside)
    return Notes(piece.title, tuple(notes))


def _scale_note(ratio: float, line_pt: float) -> Note:
    line = f"Cut line {unbroken(f'{line_pt:g} pt')}, {unbroken('not printed')}"
    if ratio == 1:
        return Note("Drawn", (scale_words(1), line))
    told = "This paper has no room for the piece at true size."
    return Note(scale_words(ratio), (told, line), alert=True)


def _draw_check(pdf: Pdf, units: Unit) -> None:
    """Draws the ruler, and in the column of notes what to do with it."""
    y = pdf.height_in - RULER_IN
    length = unbroken("{} ({})".format(*lengths_told(_RULER_LENGTH_IN, units)))
    told = f"Measure this ruler. If it is not {length} long, the page was printed scaled."
    pdf.paragraph(Point(LEFT_IN, y - 0.13), told, REMARK, COLUMN_IN)
    draw_ruler(pdf, Point(MAIN_IN, y), _RULER_LENGTH_IN)
