"""A page of the proof for things that lie together: as they look so, at true size, with a note."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from mockup.artwork.raster import RasterJob
from mockup.colour.plates import Plates
from mockup.geometry.affine import Affine, translation
from mockup.geometry.point import Box, Point
from mockup.output.pdf import Pdf
from mockup.output.proof.card import WATERMARKED_PPI
from mockup.output.proof.grid import ART_PPI, RULER_TAIL_IN, draw_check, draw_title
from mockup.output.proof.layout import Layout, Picture, laid_out
from mockup.output.proof.notes import Note, draw_notes
from mockup.output.proof.plan import Page, Telling
from mockup.pixels import View, view_around
from mockup.suite.suite import Piece

_PICTURES_MOST_PX = 24e6  # of all that is drawn at once, as of one card's art

Drawing = Callable[[Pdf, Affine, Sequence[Plates]], None]
"""What draws things that lie together, by the map from their inches to the page's."""


@dataclass(frozen=True)
class Stack:
    """Things that lie together: a title, what is seen of them in words, the box they lie in, in
    inches of the lowest or the front one, and the view their art is drawn in."""

    title: str
    seen: str
    box: Box
    view: View


def stack_of(telling: Telling, title: str, seen: str, box: Box, arts: int) -> Stack:
    """Returns things that lie together; `arts` is how many pictures are drawn at once of them."""
    most = WATERMARKED_PPI if telling.watermark else ART_PPI
    ppi = min(most, (_PICTURES_MOST_PX / arts / (box.width * box.height)) ** 0.5)
    return Stack(title, seen, box, view_around(box, ppi, 1 / ppi))


def stack_page(
    telling: Telling,
    stack: Stack,
    note: Note,
    drawing: Drawing,
    jobs: tuple[RasterJob, ...],
    piece: Piece,
) -> Page:
    """Returns the page of things that lie together, after that of `piece`."""
    picture = Picture(stack.box.width, stack.box.height, _nothing)
    layout = laid_out(telling.suite.paper, stack.title, [picture], (note,), RULER_TAIL_IN)

    def draw(pdf: Pdf, drawn: Sequence[Plates]) -> None:
        draw_title(pdf, stack.title)
        with pdf.element("Figure", f"{stack.title}, at true size: {stack.seen}."):
            drawing(pdf, _to_page(stack, layout), drawn)
        draw_notes(pdf, layout.columns, (note,))
        draw_check(pdf, telling.suite.units)

    return Page(stack.title, layout.width_in, layout.height_in, draw, jobs, piece)


def _to_page(stack: Stack, layout: Layout) -> Affine:
    (place,) = layout.places
    return translation(place.x - stack.box.left, place.y - stack.box.top)


def _nothing(pdf: Pdf, at: Point) -> None:
    """Draws nothing: the picture is drawn when its art is there."""
