"""What is printed for a suite: a sheet a side of a piece or envelope, one a liner, with its cut."""

from __future__ import annotations

from dataclasses import dataclass, replace

from mockup.artwork.art import Art
from mockup.artwork.own_pages import own_pages
from mockup.artwork.page import ArtPage, Placement, read_page
from mockup.envelopes.liner import liner_shape
from mockup.geometry.outline import Segment, Shape
from mockup.reading.envelope_sides import PrintedSide, printed_sides
from mockup.reading.left_out import LeftOut
from mockup.reading.page import left_out_of_each
from mockup.reading.showing import for_client
from mockup.render.envelope import liner_art
from mockup.suite.placing import place_piece
from mockup.suite.suite import Envelope, Liner, Piece, Suite, all_sides
from mockup.units import Unit, format_place, format_size


@dataclass(frozen=True)
class PrintSheet:
    """One sheet to be printed: its art, whose `left_out` marks are not to be printed, where the
    card lies on its page, the shape it is cut to and the lines it is folded along, card inches.

    `bleed_in` is what the suite says its art should have; `units` are what is told of it in.
    """

    name: str
    art: Art
    page: ArtPage
    placement: Placement
    shape: Shape
    folds: tuple[tuple[Segment, ...], ...]
    bleed_in: float
    units: Unit
    removed: tuple[LeftOut, ...] = ()
    is_cut: bool = True
    """Whether it is cut to its shape: an envelope is made already, or is its maker's to cut."""

    @property
    def removed_told(self) -> tuple[str, ...]:
        """A line for every mark that is taken out: what it is, how large, where on the card."""
        return tuple(self._told(each) for each in self.removed)

    def _told(self, mark: LeftOut) -> str:
        box = mark.painted.box
        size = format_size(box.width, box.height, self.units)
        return f"{mark.what}, {size}, at {format_place((box.left, box.top), self.units)}"


def sheets_of(suite: Suite) -> list[PrintSheet]:
    """Returns the sheets of a suite, its pieces, front and back, each with the finishes that have
    a page of their own, then the liners of its envelopes and their printed sides.

    The cut of a back is the die's mirror image, as that page is seen.

    What is taken out of a piece is what its proof does not show: what is surely a template's, and
    not accepted as art. Raises InputError for art that does not fit its card, or cannot be read.
    """
    shown = for_client(suite)
    sides = all_sides(shown.pieces)
    marks = left_out_of_each(sides)
    sheets: list[PrintSheet] = []
    for side, own in zip(sides, marks, strict=True):
        sheet = _of_side(side, own)
        sheets += [sheet, *_of_finishes(side, sheet)]
    for envelope in suite.envelopes:
        if envelope.liner is not None:
            sheets.append(_of_liner(envelope, envelope.liner, suite.bleed_in))
        sides = printed_sides(envelope, suite.bleed_in)
        sheets += [_of_envelope_side(envelope, each) for each in sides]
    return sheets


def _of_side(piece: Piece, marks: tuple[LeftOut, ...]) -> PrintSheet:
    die = piece.die
    page = read_page(piece.art)
    placement = place_piece(page, piece)
    removed = tuple(each for each in marks if each.painted.number in piece.art.left_out)
    return PrintSheet(
        piece.side_name, piece.art, page, placement, die.shape, die.folds, piece.bleed_in,
        piece.units, removed,
    )  # fmt: skip


def _of_finishes(side: Piece, sheet: PrintSheet) -> list[PrintSheet]:
    """Returns the pages of a side's finishes as sheets: the same card, cut and folded alike."""
    named = side.finish_pages
    pages = own_pages([said for _, said in named], sheet.placement, side.units)
    return [
        replace(sheet, name=name, art=page.art, page=page, placement=placement, removed=())
        for (name, _), (_, page, placement) in zip(named, pages, strict=True)
    ]


def _of_liner(envelope: Envelope, liner: Liner, bleed_in: float) -> PrintSheet:
    page, placement, _ = liner_art(envelope, liner, bleed_in)
    shape = liner_shape(envelope.spec)
    name = f"{envelope.name}-liner"
    return PrintSheet(name, liner.art, page, placement, shape, (), bleed_in, envelope.units)


def _of_envelope_side(envelope: Envelope, printed: PrintedSide) -> PrintSheet:
    piece = printed.piece
    return PrintSheet(
        envelope.side_name(printed.side), piece.art, printed.page, printed.placement,
        piece.die.shape, (), piece.bleed_in, envelope.units, is_cut=False,
    )  # fmt: skip
