"""A page of the proof for bound cards: the stack with its band round it, at true size."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from mockup.artwork.raster import RasterJob
from mockup.colour.appearance import appearance
from mockup.colour.plates import Plates
from mockup.colour.srgb import parse_hex
from mockup.geometry.affine import Affine
from mockup.geometry.outline import Shape
from mockup.geometry.point import box_round
from mockup.output.pdf import Pdf
from mockup.output.proof.card import draw_art, draw_cut
from mockup.output.proof.notes import Note
from mockup.output.proof.plan import Page, Telling
from mockup.output.proof.stack import stack_of, stack_page
from mockup.pixels import View
from mockup.reading.binding import Bound
from mockup.reading.overlaid import Overlay
from mockup.render.bands import seen_of
from mockup.render.cutline import CutLine
from mockup.render.piece import PAPER_WHITE, all_located, line_for, strokes
from mockup.suite.suite import CutLineChoice, Piece


def bound_page(telling: Telling, bundle: Bound) -> Page:
    """Returns the page of bound cards, of their band. Raises what reading the art raises."""
    layers = _layers(bundle)
    title = f"{bundle.band.title} round {bundle.cards[0].title}"
    seen = f"{', '.join(card.title for card in bundle.cards)}, held by the band"
    stack = stack_of(
        telling, title, seen, box_round(each.outline.box for each in layers), len(layers)
    )
    found = all_located([each.piece for each in layers])
    jobs = tuple(
        RasterJob(art, placement, each.to_front, stack.view)
        for each, (art, placement) in zip(layers, found, strict=True)
    )
    stacked = _Stacked(bundle, layers, stack.view, telling.suite.cut_line)
    drawing = partial(_draw, stacked=stacked)
    return stack_page(telling, stack, _note(bundle), drawing, jobs, bundle.band)


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
class _Stacked:
    bundle: Bound
    layers: list[_Layer]
    view: View
    cut: CutLineChoice


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


def _note(bundle: Bound) -> Note:
    front, *others = (card.title for card in bundle.cards)
    under = f", {' and '.join(others)} under it" if others else ""
    return Note("Bound", (f"{front} in front{under}, as the band holds them.",))


def _draw(pdf: Pdf, to_page: Affine, drawn: Sequence[Plates], stacked: _Stacked) -> None:
    layers, view = stacked.layers, stacked.view
    for number, (each, plates) in enumerate(zip(layers, drawn, strict=True)):
        if each.piece.over is None:
            art = appearance(plates, parse_hex(each.piece.stock.colour_hex))
        else:
            front = layers[number - 1].piece
            art = Overlay(each.piece, front).picture((plates, drawn[number - 1]))
        line = line_for(each.outline, art, view, [PAPER_WHITE], stacked.cut)
        if each.piece.wraps is None:
            draw_cut(pdf, art, view, to_page, each.outline, line)
        else:
            draw_art(pdf, art, view, to_page, each.outline.mapped(to_page))
            _draw_long_sides(pdf, stacked.bundle, to_page, line)


def _draw_long_sides(pdf: Pdf, bundle: Bound, to_page: Affine, line: CutLine) -> None:
    """Strokes the cut line along a band's long sides; where it turns nothing is cut."""
    corners = [bundle.to_card.point(corner) for corner in bundle.panel.corners()]
    upper, right, lower, left = (to_page.point(corner) for corner in corners)
    sides = ((upper, right), (left, lower)) if bundle.goes_across else (
        (upper, left), (right, lower))  # fmt: skip
    for colour, width_pt in strokes(line):
        for start, end in sides:
            pdf.rule(start, end, width_pt, colour)
