"""A page of the proof for a sheet on its card: the two as they look together, at true size."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from mockup.colour.appearance import appearance
from mockup.colour.plates import Plates
from mockup.colour.srgb import parse_hex
from mockup.geometry.affine import Affine
from mockup.geometry.point import Box
from mockup.output.pdf import Pdf
from mockup.output.proof.card import draw_cut
from mockup.output.proof.notes import Note
from mockup.output.proof.plan import Page, Telling
from mockup.output.proof.stack import stack_of, stack_page
from mockup.pixels import View
from mockup.reading.overlaid import Overlay
from mockup.render.piece import PAPER_WHITE, line_for
from mockup.suite.suite import CutLineChoice, Piece


def overlay_page(telling: Telling, piece: Piece, overlay: Overlay) -> Page:
    """Returns the page of a sheet on its card, of `piece`. Raises what reading the art raises."""
    card = overlay.card
    box = Box(0.0, 0.0, card.die.width_in, card.die.height_in)
    title, seen = f"{piece.title} on {card.title}", "the card seen through the sheet"
    stack = stack_of(telling, title, seen, box, 1)
    drawing = partial(_draw, overlay=overlay, view=stack.view, cut=telling.suite.cut_line)
    return stack_page(telling, stack, _note(piece, card), drawing, overlay.jobs(stack.view), piece)


def _note(piece: Piece, card: Piece) -> Note:
    opacity = 100 * (1 - piece.stock.translucency)
    told = (
        "The card is seen through the sheet, as it lies close on it: a paper of "
        f"{opacity:.0f}\u00a0% opacity (ISO 2471). Lifted off it grows paler; ask for a sheet of "
        f"the paper, laid on {card.title}."
    )
    return Note("Seen through", (told,))


def _draw(
    pdf: Pdf,
    to_page: Affine,
    drawn: Sequence[Plates],
    overlay: Overlay,
    view: View,
    cut: CutLineChoice,
) -> None:
    card, sheet = overlay.card, overlay.sheet
    below = appearance(drawn[1], parse_hex(card.stock.colour_hex))
    outlines = (card.die.shape, sheet.die.shape.mapped(overlay.to_card))
    for art, outline in zip((below, overlay.picture(drawn)), outlines, strict=True):
        line = line_for(outline, art, view, [PAPER_WHITE], cut)
        draw_cut(pdf, art, view, to_page, outline, line)
