"""Where a piece lies on its page of art; of a folded card, its front panel on the flat sheet."""

from __future__ import annotations

from mockup.artwork.page import ArtPage, Placement, place_card
from mockup.dies.folding import flat_size, to_front
from mockup.errors import InputError
from mockup.geometry.point import Box, Point
from mockup.suite.suite import Piece
from mockup.units import format_size


def place_piece(page: ArtPage, piece: Piece) -> Placement:
    """Returns where a piece, or a side of one, lies on its page.

    Of a folded card as a whole that is its front panel, the right or the lower half of the flat
    sheet seen from outside. Raises InputError where the page is of another size.
    """
    die, fold = piece.die, piece.fold
    if fold is None:
        return place_card(page, die.width_in, die.height_in, piece.bleed_in, piece.units)
    if piece.side:
        return _flat(page, piece, (die.width_in, die.height_in))
    flat = _flat(page, piece, flat_size(die.width_in, die.height_in, fold))
    corner = to_front(die.width_in, die.height_in, fold).point(Point(flat.trim.left, flat.trim.top))
    trim = Box(corner.x, corner.y, flat.trim.right, flat.trim.bottom)
    return Placement(trim, flat.bleed_in, f"the front of its flat sheet: {flat.because}")


def _flat(page: ArtPage, piece: Piece, size_in: tuple[float, float]) -> Placement:
    """Returns where the flat sheet lies. Raises InputError with both sizes."""
    try:
        return place_card(page, *size_in, piece.bleed_in, piece.units)
    except InputError as error:
        box = page.trim or page.visible
        flat = format_size(*size_in, piece.units)
        raise InputError(
            f"{page.where}: is {format_size(box.width, box.height, piece.units)}; "
            f"{piece.card.name} folded at the {piece.fold} prints as a flat sheet of {flat}, "
            f"and its bleed: {_order(piece)}; save both panels on one page"
        ) from error


def _order(piece: Piece) -> str:
    if piece.side == "inside":
        return "both halves of the inside"
    return "the front right of the back" if piece.fold == "left" else "the front below the back"
