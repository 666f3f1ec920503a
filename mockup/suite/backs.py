"""Backs as things of their own: laid face down beside their cards, or cut without a suite file."""

from __future__ import annotations

from dataclasses import replace

from mockup.artwork.page import SIZE_TOLERANCE_IN, ArtPage, page_count, read_page
from mockup.dies import Die
from mockup.dies.mirroring import mirrored
from mockup.errors import SuiteError
from mockup.suite.inference import infer_card
from mockup.suite.suite import Piece, Suite

BACK_PAGE = 2
TAKEN = (
    "page 2 of two pages of one size is taken for the card's back: the die is cut mirrored; if it "
    "is a card of its own, say --front"
)


def same_card(one: ArtPage, other: ArtPage) -> bool:
    """Returns whether two pages are of one trim size, as the front and the back of a card are."""
    first, second = (infer_card(page).card for page in (one, other))
    return (
        abs(first.width_in - second.width_in) <= SIZE_TOLERANCE_IN
        and abs(first.height_in - second.height_in) <= SIZE_TOLERANCE_IN
    )


def with_backs(suite: Suite) -> Suite:
    """Returns the suite with every back as one more piece, seen from its own side.

    Raises SuiteError where no card has one. A folded card's other side is its inside, and none.
    """
    backs = [
        replace(side.alone, name=side.side_name, title=side.side_title, back=None, side="")
        for piece in suite.pieces
        for side in piece.sides
        if side.side == "back" and piece.wraps is None
    ]
    if not backs:
        raise SuiteError(
            "no piece has a back to lie beside its front; write back = { page = 2 } into one"
        )
    return replace(suite, pieces=(*suite.pieces, *backs))


def is_back(art_page: ArtPage) -> bool:
    """Returns whether a page is the second of two of one size: a card's back, as files are saved.

    Raises what reading the art raises.
    """
    art = art_page.art
    if art.page != BACK_PAGE or page_count(art) != BACK_PAGE:
        return False
    return same_card(read_page(replace(art, page=1)), art_page)


def cut_from_behind(piece: Piece, said: str = "") -> Piece:
    """Returns a piece that is a back: its die is the mirror image. `said` is told of it where that
    is another outline."""
    die = mirrored(piece.die)
    told = said if _differs(piece.die, die) else ""
    return replace(
        piece, die=die, card_told="; ".join(each for each in (piece.card_told, told) if each)
    )


def _differs(one: Die, other: Die) -> bool:
    """Returns whether two dies of a size cut differently, by the ends of their lines and arcs."""
    ends = [
        sorted(
            (round(end.x, 4), round(end.y, 4))
            for outline in die.shape.outlines
            for part in outline.segments
            for end in (part.start, part.at(0.5), part.end)
        )
        for die in (one, other)
    ]
    return ends[0] != ends[1]
