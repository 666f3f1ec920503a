"""A page of the proof for bound cards: the stack with its band round it, at true size."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mockup.artwork.raster import RasterJob
from mockup.colour.appearance import appearance
from mockup.colour.plates import Plates
from mockup.colour.srgb import parse_hex
from mockup.geometry.affine import Affine, translation
from mockup.geometry.outline import Shape
from mockup.geometry.point import Box, Point
from mockup.output.pdf import Pdf
from mockup.output.proof.card import WATERMARKED_PPI, draw_art, draw_cut
from mockup.output.proof.grid import ART_PPI, RULER_TAIL_IN, draw_check, draw_title
from mockup.output.proof.layout import Layout, Picture, laid_out
from mockup.output.proof.notes import Note, draw_notes
from mockup.output.proof.plan import Page, Telling
from mockup.pixels import View, view_around
from mockup.reading.binding import Bound
from mockup.reading.overlaid import Overlay
from mockup.render.bands import seen_of
from mockup.render.cutline import CutLine
from mockup.render.piece import PAPER_WHITE, all_located, line_for, strokes
from mockup.suite.suite import Piece

_PICTURES_MOST_PX = 24e6  # of all a page's art together, as of one card's


def bound_page(telling: Telling, bundle: Bound) -> Page:
    """Returns the page of bound cards, of their band. Raises what reading the art raises."""
    title = f"{bundle.band.title} round {bundle.cards[0].title}"
    layers = _layers(bundle)
    box = _around(layers)
    picture = Picture(box.width, box.height, _nothing)
    notes = (_note(bundle),)
    layout = laid_out(telling.suite.paper, title, [picture], notes, RULER_TAIL_IN)
    most = WATERMARKED_PPI if telling.watermark else ART_PPI
    ppi = min(most, (_PICTURES_MOST_PX / len(layers) / (box.width * box.height)) ** 0.5)
    view = view_around(box, ppi, 1 / ppi)
    drawing = _Drawing(telling, title, bundle, layers, layout, notes, view)

    def draw(pdf: Pdf, drawn: Sequence[Plates]) -> None:
        _draw(pdf, drawing, drawn)

    found = all_located([each.piece for each in layers])
    jobs = tuple(
        RasterJob(art, placement, each.to_front, view)
        for each, (art, placement) in zip(layers, found, strict=True)
    )
    return Page(title, layout.width_in, layout.height_in, draw, jobs, bundle.band)


@dataclass(frozen=True)
class _Layer:
    """A paper of the stack and the map from its inches to the front card's."""

    piece: Piece
    to_front: Affine

    @property
    def outline(self) -> Shape:
        """What is seen of it, in the front card's inches."""
        return self.piece.die.shape.mapped(self.to_front)


@dataclass(frozen=True)
class _Drawing:
    telling: Telling
    title: str
    bundle: Bound
    layers: list[_Layer]
    layout: Layout
    notes: tuple[Note, ...]
    view: View


def _layers(bundle: Bound) -> list[_Layer]:
    """Returns the cards from the lowest to the front one, the sheet on that, if any, then what is
    seen of the band."""
    cards = [_Layer(card, bundle.under_front(card)) for card in reversed(bundle.cards)]
    front = bundle.cards[0]
    cards += [
        _Layer(each.sides[0], bundle.under_front(each))
        for each in bundle.sheets
        if each.over == front.name
    ]
    return [*cards, _Layer(seen_of(bundle), bundle.to_card)]


def _around(layers: Sequence[_Layer]) -> Box:
    boxes = [each.outline.box for each in layers]
    return Box(
        min(box.left for box in boxes),
        min(box.top for box in boxes),
        max(box.right for box in boxes),
        max(box.bottom for box in boxes),
    )


def _note(bundle: Bound) -> Note:
    front, *others = (card.title for card in bundle.cards)
    under = f", {' and '.join(others)} under it" if others else ""
    return Note("Bound", (f"{front} in front{under}, as the band holds them.",))


def _draw(pdf: Pdf, drawing: _Drawing, drawn: Sequence[Plates]) -> None:
    cut, view = drawing.telling.suite.cut_line, drawing.view
    draw_title(pdf, drawing.title)
    (place,) = drawing.layout.places
    box = _around(drawing.layers)
    to_page = translation(place.x - box.left, place.y - box.top)
    names = ", ".join(card.title for card in drawing.bundle.cards)
    alt = f"{drawing.title}, at true size: {names}, held by the band."
    with pdf.element("Figure", alt):
        for number, (each, plates) in enumerate(zip(drawing.layers, drawn, strict=True)):
            if each.piece.over is None:
                art = appearance(plates, parse_hex(each.piece.stock.colour_hex))
            else:
                front = drawing.layers[number - 1].piece
                art = Overlay(each.piece, front).picture((plates, drawn[number - 1]))
            line = line_for(each.outline, art, view, [PAPER_WHITE], cut)
            if each.piece.wraps is None:
                draw_cut(pdf, art, view, to_page, each.outline, line)
            else:
                draw_art(pdf, art, view, to_page, each.outline.mapped(to_page))
                _draw_long_sides(pdf, drawing.bundle, to_page, line)
    draw_notes(pdf, drawing.layout.columns, drawing.notes)
    draw_check(pdf, drawing.telling.suite.units)


def _draw_long_sides(pdf: Pdf, bundle: Bound, to_page: Affine, line: CutLine) -> None:
    """Strokes the cut line along a band's long sides; where it turns nothing is cut."""
    corners = [bundle.to_card.point(corner) for corner in bundle.panel.corners()]
    upper, right, lower, left = (to_page.point(corner) for corner in corners)
    sides = ((upper, right), (left, lower)) if bundle.goes_across else (
        (upper, left), (right, lower))  # fmt: skip
    for colour, width_pt in strokes(line):
        for start, end in sides:
            pdf.rule(start, end, width_pt, colour)


def _nothing(pdf: Pdf, at: Point) -> None:
    """Draws nothing: the picture is drawn when its art is there."""
