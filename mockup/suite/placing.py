"""Where a piece lies on its page of art; of a folded card, its front panel on the flat sheet."""

from __future__ import annotations

from mockup.artwork.page import ArtPage, Placement, place_card
from mockup.dies.folding import flat_size, to_front
from mockup.errors import InputError
from mockup.geometry.point import Box, Point
from mockup.suite.suite import Piece
from mockup.units import format_length, format_size


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
            f"{page.where}: is {format_size(box.width, box.height, piece.units)}"
            f"{_alone(page, piece, size_in)}; {piece.card.name} folded at the {piece.fold} prints "
            f"as a flat sheet of {flat}; {flat_sheet_told(piece, size_in)}"
        ) from error


def flat_sheet_told(piece: Piece, size_in: tuple[float, float]) -> str:
    """Returns how to save the art of a folded card: the size of its one page, with its bleed, and
    where on it each panel begins, in the piece's units. `size_in` is the flat sheet's."""
    bleed_in = piece.bleed_in
    halved_in = size_in[0] / 2 if piece.fold == "left" else size_in[1] / 2
    wide_in, high_in = (side + 2 * bleed_in for side in size_in)
    whole = format_size(wide_in, high_in, piece.units)
    first, second = (
        format_length(place, piece.units) for place in (bleed_in, bleed_in + halved_in)
    )
    names = _PANELS["inside" if piece.side == "inside" else "outside", piece.fold or "left"]
    edge = "left" if piece.fold == "left" else "top"
    between = f" with {format_length(bleed_in, piece.units)} bleed round it" if bleed_in else ""
    return (
        f"save both panels on one page of {whole}{between}: {names[0]} from {first} and {names[1]} "
        f"from {second} of its {edge}, with no bleed between them"
    )


_PANELS = {
    ("outside", "left"): ("the back", "the front"),
    ("outside", "top"): ("the back, its head at the fold,", "the front"),
    ("inside", "left"): ("the left panel", "the right one"),
    ("inside", "top"): ("the upper panel", "the lower one"),
}
"""The panels of a flat sheet by its side and its fold, as that side is seen; common practice."""


def _alone(page: ArtPage, piece: Piece, size_in: tuple[float, float]) -> str:
    """Returns that a page holds one panel alone, where it does."""
    wide, high = size_in
    panel = (wide / 2, high) if piece.fold == "left" else (wide, high / 2)
    try:
        place_card(page, *panel, piece.bleed_in, piece.units)
    except InputError:
        return ""
    return ", one panel alone"
