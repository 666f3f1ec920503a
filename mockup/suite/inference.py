"""What a print page tells of its card: size, bleed, and the name the trade has for it."""

from __future__ import annotations

from dataclasses import dataclass

from mockup.artwork.page import BLEEDS_IN, SIZE_TOLERANCE_IN, ArtPage
from mockup.dies.making import SMALLEST_IN
from mockup.errors import InputError
from mockup.geometry.point import Box
from mockup.suite.schema import BLEED_MAX_IN
from mockup.trade.sizes import CardSize, recognise_card
from mockup.units import format_length, format_size

NAMED_WITHIN_IN = 0.012  # tells 1/8 in of bleed from 3 mm, which differ by 0.014 in on a side


@dataclass(frozen=True)
class Inferred:
    """A card read from a page, its bleed, and why it was read so."""

    card: CardSize
    bleed_in: float
    because: str


def infer_card(page: ArtPage) -> Inferred:
    """Returns the card a page holds: its TrimBox where that lies on the page, else from its size.

    A TrimBox as large as the page says that the art has no bleed. Without one, the page less a
    bleed of 1/8 in or 3 mm, else the page itself, is looked up among the trade's and ISO's cards; a
    page that is none of them is taken as a card of its own with 1/8 in bleed. Raises InputError for
    a page that leaves no card.
    """
    inferred = _inferred(page)
    card = inferred.card
    if min(card.width_in, card.height_in) < SMALLEST_IN:
        seen = page.visible
        raise InputError(
            f"{page.where}: the page is {format_size(seen.width, seen.height)}, which leaves no "
            f"card: none is cut smaller than {format_length(SMALLEST_IN)}"
        )
    return inferred


def _inferred(page: ArtPage) -> Inferred:
    seen = page.visible
    if page.trim is not None and _inside(page.trim, seen):
        bleed_in = _bleed_beside(page.trim, seen)
        card = recognise_card(page.trim.width, page.trim.height) or _own_card(page.trim)
        whole = _same_size(page.trim, seen)
        said = "its TrimBox is the whole page, without bleed" if whole else "its TrimBox says so"
        return Inferred(card, 0.0 if whole else bleed_in, said)
    for bleed_in in _by_fit(seen, (*BLEEDS_IN, 0.0)):
        card = recognise_card(
            seen.width - 2 * bleed_in, seen.height - 2 * bleed_in, NAMED_WITHIN_IN
        )
        if card is not None:
            with_bleed = f"and {format_length(bleed_in)} bleed" if bleed_in else "without bleed"
            return Inferred(card, bleed_in, f"the page is that card {with_bleed}")
    bleed_in = BLEEDS_IN[0]
    card = _own_card(Box(0, 0, seen.width - 2 * bleed_in, seen.height - 2 * bleed_in))
    said = "no TrimBox: 1/8 in bleed assumed on all sides; no trade size, so please check"
    return Inferred(card, bleed_in, said)


def _by_fit(seen: Box, bleeds_in: tuple[float, ...]) -> list[float]:
    """Returns bleeds, those before none first, the one that leaves the nearest named card ahead."""

    def misfit(bleed_in: float) -> tuple[bool, float]:
        wide, high = seen.width - 2 * bleed_in, seen.height - 2 * bleed_in
        card = recognise_card(wide, high, NAMED_WITHIN_IN)
        off = abs(card.width_in - wide) + abs(card.height_in - high) if card else 9.0
        return bleed_in == 0.0, off

    return sorted(bleeds_in, key=misfit)


def _inside(trim: Box, seen: Box) -> bool:
    margins = _margins(trim, seen)
    return min(margins) >= -SIZE_TOLERANCE_IN and min(trim.width, trim.height) > 0


def _same_size(trim: Box, seen: Box) -> bool:
    return max(map(abs, _margins(trim, seen))) <= SIZE_TOLERANCE_IN


def _bleed_beside(trim: Box, seen: Box) -> float:
    """Returns the narrowest margin; of a card on a wide sheet no more than a bleed can be."""
    return min(max(0.0, min(_margins(trim, seen))), BLEED_MAX_IN)


def _margins(trim: Box, seen: Box) -> tuple[float, float, float, float]:
    return (
        trim.left - seen.left,
        trim.top - seen.top,
        seen.right - trim.right,
        seen.bottom - trim.bottom,
    )


def _own_card(box: Box) -> CardSize:
    wide, high = round(box.width, 4), round(box.height, 4)
    return CardSize(format_size(wide, high), wide, high, "read from the page")
