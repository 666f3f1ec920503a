"""A page of the proof for a sheet on its card: the two as they look together, at true size."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mockup.artwork.raster import RasterJob
from mockup.colour.appearance import appearance
from mockup.colour.plates import Plates
from mockup.colour.srgb import parse_hex
from mockup.geometry.affine import translation
from mockup.geometry.point import Point
from mockup.output.pdf import Pdf
from mockup.output.proof.card import WATERMARKED_PPI, draw_cut
from mockup.output.proof.grid import ART_PPI, RULER_TAIL_IN, draw_check, draw_title
from mockup.output.proof.layout import Layout, Picture, laid_out
from mockup.output.proof.notes import Note, draw_notes
from mockup.output.proof.plan import Page, Telling
from mockup.pixels import View, view_around
from mockup.reading.overlaid import Overlay
from mockup.render.piece import PAPER_WHITE, line_for
from mockup.suite.suite import Piece

_PICTURE_MOST_PX = 24e6  # as of a card's art


def overlay_page(telling: Telling, piece: Piece, overlay: Overlay) -> Page:
    """Returns the page of a sheet on its card, of `piece`. Raises what reading the art raises."""
    card = overlay.card
    title = f"{piece.title} on {card.title}"
    picture = Picture(card.die.width_in, card.die.height_in, _nothing)
    notes = (_note(piece, card),)
    layout = laid_out(telling.suite.paper, title, [picture], notes, RULER_TAIL_IN)
    box = card.die.shape.box
    most = WATERMARKED_PPI if telling.watermark else ART_PPI
    ppi = min(most, (_PICTURE_MOST_PX / (box.width * box.height)) ** 0.5)
    view = view_around(box, ppi, 1 / ppi)
    drawing = _Drawing(telling, title, overlay, layout, notes, view)

    def draw(pdf: Pdf, drawn: Sequence[Plates]) -> None:
        _draw(pdf, drawing, drawn)

    jobs: tuple[RasterJob, ...] = overlay.jobs(view)
    return Page(title, layout.width_in, layout.height_in, draw, jobs, piece)


@dataclass(frozen=True)
class _Drawing:
    telling: Telling
    title: str
    overlay: Overlay
    layout: Layout
    notes: tuple[Note, ...]
    view: View


def _note(piece: Piece, card: Piece) -> Note:
    opacity = 100 * (1 - piece.stock.translucency)
    told = (
        "The card is seen through the sheet, as it lies close on it: a paper of "
        f"{opacity:.0f}\u00a0% opacity (ISO 2471). Lifted off it grows paler; ask for a sheet of "
        f"the paper, laid on {card.title}."
    )
    return Note("Seen through", (told,))


def _draw(pdf: Pdf, drawing: _Drawing, drawn: Sequence[Plates]) -> None:
    overlay, view, cut = drawing.overlay, drawing.view, drawing.telling.suite.cut_line
    card, sheet = overlay.card, overlay.sheet
    below = appearance(drawn[1], parse_hex(card.stock.colour_hex))
    both = overlay.picture(drawn)
    outline = sheet.die.shape.mapped(overlay.to_card)
    draw_title(pdf, drawing.title)
    (place,) = drawing.layout.places
    to_page = translation(place.x, place.y)
    alt = f"{drawing.title}, at true size: the card seen through the sheet."
    with pdf.element("Figure", alt):
        line = line_for(card.die.shape, below, view, [PAPER_WHITE], cut)
        draw_cut(pdf, below, view, to_page, card.die.shape, line)
        line = line_for(outline, both, view, [PAPER_WHITE], cut)
        draw_cut(pdf, both, view, to_page, outline, line)
    draw_notes(pdf, drawing.layout.columns, drawing.notes)
    draw_check(pdf, drawing.telling.suite.units)


def _nothing(pdf: Pdf, at: Point) -> None:
    """Draws nothing: the picture is drawn when its art is there."""
