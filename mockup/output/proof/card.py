"""A page of the proof for one side of a piece: at true size, cut to the die, measures, a ruler."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from mockup.artwork.raster import RasterJob
from mockup.colour.appearance import appearance
from mockup.colour.plates import Plates
from mockup.colour.srgb import parse_hex
from mockup.geometry.affine import IDENTITY, Affine, translation
from mockup.geometry.outline import Shape
from mockup.geometry.point import Box, Point, box_of
from mockup.output.band_lines import draw_band_lines
from mockup.output.marked import draw_lines, draw_numbers
from mockup.output.pdf import Pdf
from mockup.output.proof.aside import Aside
from mockup.output.proof.grid import ART_PPI, LABEL, RULER_TAIL_IN, draw_check, draw_title
from mockup.output.proof.layout import Layout, Picture, laid_out
from mockup.output.proof.loupe import Loupe, facts_of, label_baseline, plan_loupe, words_of
from mockup.output.proof.notes import Note, draw_notes
from mockup.output.proof.plan import Page, Telling
from mockup.output.proof.voices import card_notes, folded_words
from mockup.output.proof.words import die_name, lengths_told, size_told
from mockup.output.typography import QUIET, Style
from mockup.pixels import Bytes, View, view_around
from mockup.reading.binding import bound
from mockup.render.cutline import CutLine
from mockup.render.piece import PAPER_WHITE, line_for, located, strokes
from mockup.suite.suite import Piece

WATERMARKED_PPI = 200.0
"""Of the art under a watermark, at most, of the card: a proof's resolution, too little to print."""

_PICTURE_MOST_PX = 24e6  # of one page's art; judgement: what a machine of 2 GB draws at ease
_MEASURE = Style("text", 9.5, 11, QUIET)
_AWAY_IN = 0.14  # from a piece to the line of its measure
_MEASURES_IN = 0.35  # room for them, right and below
_OPTICAL_MIDDLE = 0.36  # share of the spare height that is left above a piece


def card_page(telling: Telling, piece: Piece, side: Piece, aside: Aside) -> Page:
    """Returns the page of a side of a piece. Raises what reading its art raises."""
    facts = facts_of(side)
    layout, notes = _planned(telling, side, aside)
    loupe = plan_loupe(side, facts, layout.spare, ART_PPI)
    if loupe is None:
        layout = layout.lowered(_OPTICAL_MIDDLE * max(0.0, layout.spare.height))
    view, loupe = _views(telling, side, loupe)
    drawing = _Drawing(telling, side, layout, notes, view, loupe, words_of(facts))
    art, placement = located(side)
    views = [view] if loupe is None else [view, loupe.view]
    jobs = tuple(RasterJob(art, placement, IDENTITY, each) for each in views)

    def draw(pdf: Pdf, drawn: Sequence[Plates]) -> None:
        _draw(pdf, drawing, drawn)

    return Page(side.side_title, layout.width_in, layout.height_in, draw, jobs, piece)


@dataclass(frozen=True)
class _Drawing:
    telling: Telling
    side: Piece
    layout: Layout
    notes: tuple[Note, ...]
    view: View
    loupe: Loupe | None
    words: str


def _planned(telling: Telling, piece: Piece, aside: Aside) -> tuple[Layout, tuple[Note, ...]]:
    """Returns the layout and the notes; a page that must be folded out says so, and is laid out
    again with that said."""
    paper, units = telling.suite.paper, telling.suite.units
    bleed = piece.bleed_in if telling.for_studio else 0.0
    room = _MEASURES_IN + bleed
    picture = Picture(piece.die.width_in, piece.die.height_in, _nothing, room, room)
    notes = card_notes(telling, piece, aside, "")
    layout = laid_out(paper, piece.side_title, [picture], notes, RULER_TAIL_IN)
    told = folded_words(paper, layout, units)
    if not told:
        return layout, notes
    longer = card_notes(telling, piece, aside, told)
    layout = laid_out(paper, piece.side_title, [picture], longer, RULER_TAIL_IN)
    return layout, card_notes(telling, piece, aside, folded_words(paper, layout, units))


def _nothing(pdf: Pdf, at: Point) -> None:
    """Draws nothing: a card's picture is drawn when its art is there."""


def _views(telling: Telling, piece: Piece, loupe: Loupe | None) -> tuple[View, Loupe | None]:
    """Returns what the art is drawn in, for the card and for the closer look."""
    box = piece.die.shape.box
    most = WATERMARKED_PPI if telling.watermark else ART_PPI
    ppi = min(most, (_PICTURE_MOST_PX / (box.width * box.height)) ** 0.5)
    margin = piece.bleed_in if telling.for_studio else 1 / ppi
    view = view_around(box, ppi, margin)
    if loupe is None:
        return view, None
    if telling.watermark:
        loupe = replace(loupe, view=view_around(loupe.shown, WATERMARKED_PPI))
    return view, loupe


def _draw(pdf: Pdf, drawing: _Drawing, drawn: Sequence[Plates]) -> None:
    telling, piece, layout = drawing.telling, drawing.side, drawing.layout
    paper = parse_hex(piece.stock.colour_hex)
    art = appearance(drawn[0], paper)
    line = line_for(piece.die.shape, art, drawing.view, [PAPER_WHITE], telling.suite.cut_line)
    draw_title(pdf, piece.side_title)
    (place,) = layout.places
    to_page = translation(place.x, place.y)
    with pdf.element("Figure", _alt(telling, piece, drawing.words)):
        if telling.for_studio:
            _draw_with_lines(pdf, telling, piece, (art, drawing.view), place)
        else:
            draw_cut(pdf, art, drawing.view, to_page, piece.die.shape, line)
    _draw_measures(pdf, piece, piece.die.shape.mapped(to_page).box, telling)
    draw_notes(pdf, layout.columns, drawing.notes)
    if drawing.loupe is not None:
        _draw_loupe(pdf, piece, drawing.loupe, appearance(drawn[1], paper), line)
    draw_check(pdf, telling.suite.units)


def draw_cut(pdf: Pdf, art: Bytes, view: View, to_page: Affine, die: Shape, line: CutLine) -> None:
    """Draws a picture of a view through a map to the page, cut to a die, its line over it."""
    shape = die.mapped(to_page)
    draw_art(pdf, art, view, to_page, shape)
    draw_cut_line(pdf, shape, line)


def draw_art(pdf: Pdf, art: Bytes, view: View, to_page: Affine, shape: Shape | None = None) -> None:
    """Places a picture of a view through a map to the page, cut to a shape on the page."""
    corners = (
        Point(view.left_in, view.top_in),
        Point(view.left_in + view.width_in, view.top_in + view.height_in),
    )
    pdf.art(art, box_of(to_page.point(corner) for corner in corners), shape)


def draw_cut_line(pdf: Pdf, shape: Shape, line: CutLine) -> None:
    """Strokes a cut line as vector, over its casing where it has one."""
    for colour, width_pt in strokes(line):
        pdf.stroke(shape, colour, width_pt)


def _draw_with_lines(
    pdf: Pdf, telling: Telling, piece: Piece, art: tuple[Bytes, View], place: Point
) -> None:
    """Draws the art to the end of its bleed, the lines over it, and a number at each finding."""
    draw_art(pdf, *art, translation(place.x, place.y))
    draw_lines(pdf, piece, telling.safe_in, place)
    for each in bound(telling.suite):
        if each.band.name == piece.name and not piece.is_second:
            draw_band_lines(pdf, each, place)
    draw_numbers(pdf, telling.numbered(piece), place)


def _draw_loupe(pdf: Pdf, piece: Piece, loupe: Loupe, art: Bytes, line: CutLine) -> None:
    with pdf.element("Caption"):
        pdf.text(label_baseline(loupe), loupe.label, LABEL)
    alt = f"A part of {piece.side_title}, larger: {loupe.label.lower()}"
    with pdf.element("Figure", alt), pdf.clipped(loupe.frame.mapped(_line_wide(loupe.box))):
        draw_cut(pdf, art, loupe.view, loupe.to_page, piece.die.shape, line)


def _line_wide(box: Box) -> Affine:
    """Returns a map that widens a box by the outer half of a line of 2 points."""
    by = 1 / 72
    across, down = (box.width + 2 * by) / box.width, (box.height + 2 * by) / box.height
    centre = box.centre
    back = translation(-centre.x, -centre.y)
    return translation(centre.x, centre.y) @ Affine(across, 0, 0, down, 0, 0) @ back


def _alt(telling: Telling, piece: Piece, words: str) -> str:
    size = size_told(piece.die.width_in, piece.die.height_in, telling.suite.units)
    said = f"{piece.side_title} at true size, {size}, cut as {die_name(piece.die).lower()}."
    return f"{said} It reads: {words}" if words else said


def _draw_measures(pdf: Pdf, piece: Piece, box: Box, telling: Telling) -> None:
    """Draws the width below the piece and the height to its right, with the length on each."""
    away, tick = _AWAY_IN + (piece.bleed_in if telling.for_studio else 0.0), 0.05
    y, x = box.bottom + away, box.right + away
    with pdf.artifact():
        pdf.rule(Point(box.left, y), Point(box.right, y))
        pdf.rule(Point(x, box.top), Point(x, box.bottom))
        for end in (box.left, box.right):
            pdf.rule(Point(end, y - tick), Point(end, y + tick))
        for end in (box.top, box.bottom):
            pdf.rule(Point(x - tick, end), Point(x + tick, end))
        sides = (piece.die.width_in, piece.die.height_in)
        width, height = ("  \u00b7  ".join(lengths_told(side, piece.units)) for side in sides)
        pdf.text(Point(box.centre.x, y + 0.155), width, _MEASURE, "centre")
        pdf.text_upward(Point(x + 0.155, box.centre.y), height, _MEASURE, "centre")
