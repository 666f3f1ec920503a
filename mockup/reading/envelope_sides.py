"""The printed sides of an envelope, each as a piece: its art on the envelope's paper, its outline.

What a card's side is asked, an envelope's is asked in the same way: where its art lies, what is
drawn, what would not print.
"""

from __future__ import annotations

from collections.abc import Collection
from contextlib import suppress
from dataclasses import dataclass

from mockup.artwork.art import Art
from mockup.artwork.page import ArtPage, Placement, place_card, read_page
from mockup.dies import Die
from mockup.envelopes.flap import closed_flap
from mockup.envelopes.views import face
from mockup.errors import InputError
from mockup.geometry.affine import IDENTITY, Affine, translation
from mockup.geometry.outline import Shape
from mockup.suite.outside import EnvelopeSide, Shown
from mockup.suite.suite import Envelope, Piece, Suite
from mockup.trade.sizes import CardSize
from mockup.units import format_size


@dataclass(frozen=True)
class PrintedSide:
    """One side of an envelope with its art.

    `piece` is the side as a piece, called `envelopes.NAME`; `page` and `placement` are where it
    lies on its art; `to_side` maps its inches to those of the face, or of the back, as that is seen
    closed. `over_pocket` says that the art is of the whole back: the pocket is printed as well.
    """

    side: EnvelopeSide
    piece: Piece
    page: ArtPage
    placement: Placement
    to_side: Affine = IDENTITY
    over_pocket: bool = False

    @property
    def called(self) -> str:
        """What the side is called: `face`, `flap`, `back` where art goes over its pocket too."""
        return "back" if self.over_pocket else self.side


def side_up(envelope: Envelope, opened: Collection[str] | None = None) -> Shown:
    """Returns how an envelope lies: with its address side up where it says so; else open where the
    scene names it among those that lie open; where the scene names none, as the envelope says, or
    open where it is lined or a card is half drawn out of it."""
    shown = envelope.outside.shown
    if shown == "face":
        return "face"
    lined_or_drawn = envelope.liner is not None or envelope.drawn is not None
    lies_open = shown == "open" if shown else lined_or_drawn
    if opened is not None:
        lies_open = envelope.name in opened
    return "open" if lies_open else "closed"


def side_seen(suite: Suite, envelope: Envelope) -> PrintedSide | None:
    """Returns the printed side that lies beside cards in a flat-lay, None where that is bare paper.

    Of an open envelope that is its pocket, printed where art goes over the whole back. Art of
    another size than its side is left to the checks. Raises InputError for what is no art.
    """
    lies = side_up(envelope, suite.scene.open)
    wanted = "face" if lies == "face" else "flap"
    for each in fitting_sides(envelope, suite.bleed_in):
        if each.side == wanted and (lies != "open" or each.over_pocket):
            return each
    return None


def printed_sides(envelope: Envelope, bleed_in: float) -> tuple[PrintedSide, ...]:
    """Returns the sides of an envelope that have art, the face first.

    Raises InputError for art that cannot be read, or is of another size than its side.
    """
    found = (printed_side(envelope, side, bleed_in) for side in ("face", "flap"))
    return tuple(each for each in found if each is not None)


def printed_side(envelope: Envelope, side: EnvelopeSide, bleed_in: float) -> PrintedSide | None:
    """Returns a side with its art, None where it has none. Raises InputError as printed_sides."""
    art = dict(envelope.outside.arts).get(side)
    if art is None:
        return None
    return _placed_side(envelope, side, read_page(art), bleed_in)


def _placed_side(
    envelope: Envelope, side: EnvelopeSide, page: ArtPage, bleed_in: float
) -> PrintedSide:
    for candidate in _candidates(envelope, side):
        box = candidate.shape.box
        try:
            placement = place_card(page, box.width, box.height, bleed_in, envelope.units)
        except InputError:
            continue
        piece = _side_piece(envelope, candidate, page.art, min(bleed_in, placement.bleed_in))
        return PrintedSide(side, piece, page, placement, candidate.to_side, candidate.over_pocket)
    raise InputError(f"{page.where}: {_size_told(envelope, side, page)}")


def fitting_sides(envelope: Envelope, bleed_in: float) -> list[PrintedSide]:
    """Returns the sides of an envelope whose art is of their size; raises for what is no art."""
    found: list[PrintedSide] = []
    for side, art in envelope.outside.arts:
        page = read_page(art)
        with suppress(InputError):
            found.append(_placed_side(envelope, side, page, bleed_in))
    return found


def _size_told(envelope: Envelope, side: EnvelopeSide, page: ArtPage) -> str:
    """Returns what size art is and what size its side needs."""
    have = page.trim or page.visible
    needed = [
        (format_size(each.shape.box.width, each.shape.box.height, envelope.units), each.called)
        for each in _candidates(envelope, side)
    ]
    told = ", or ".join(f"{size} for {called}" for size, called in needed)
    first = _candidates(envelope, side)[0].shape.box
    turned = _near(have.width, first.height) and _near(have.height, first.width)
    hint = "; it lies on its side: turn it" if turned else ""
    size = format_size(have.width, have.height, envelope.units)
    return f"the art is {size}; save it at {told}, with its bleed or without{hint}"


@dataclass(frozen=True)
class _Candidate:
    """What art of a side may be of: its outline from (0, 0), what it is called, where it lies."""

    called: str
    shape: Shape
    to_side: Affine = IDENTITY
    over_pocket: bool = False


def _candidates(envelope: Envelope, side: EnvelopeSide) -> tuple[_Candidate, ...]:
    whole = face(envelope.spec)
    if side == "face":
        return (_Candidate("the face", whole),)
    flap = closed_flap(envelope.spec)
    left, top, _, _ = flap.box
    placed = translation(left, top)
    return (
        _Candidate("the flap's box", flap.mapped(placed.inverse()), placed),
        _Candidate("the whole back", whole, over_pocket=True),
    )


def _side_piece(envelope: Envelope, candidate: _Candidate, art: Art, bleed_in: float) -> Piece:
    """Returns a side as a piece on the envelope's own paper."""
    box = candidate.shape.box
    die = Die(f"envelope {candidate.called}", box.width, box.height, (), candidate.shape)
    return Piece(
        f"envelopes.{envelope.name}",
        f"{envelope.title}, {candidate.called}",
        art,
        CardSize("", box.width, box.height, ""),
        die,
        envelope.paper,
        envelope.quantity,
        bleed_in,
        envelope.units,
    )


def _near(first_in: float, second_in: float) -> bool:
    return abs(first_in - second_in) < 0.3  # judgement: with a bleed on both sides
