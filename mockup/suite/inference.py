"""What a print page tells of its card: size, bleed, and the name the trade has for it."""

from __future__ import annotations

from dataclasses import dataclass

from mockup.artwork.page import BLEEDS_IN, ArtPage
from mockup.geometry.point import Box
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
    """Returns the card a page holds: from its TrimBox where that is honest, else from its size.

    A TrimBox is honest when it is smaller than the page. Without one, the page less a bleed of
    1/8 in or 3 mm, else the page itself, is looked up among the trade's and ISO's cards; a page
    that is none of them is taken as a card of its own with 1/8 in bleed.
    """
    seen = page.visible
    if page.trim is not None and _inside(page.trim, seen):
        bleed_in = _bleed_beside(page.trim, seen)
        card = recognise_card(page.trim.width, page.trim.height) or _own_card(page.trim)
        return Inferred(card, bleed_in, "its TrimBox says so")
    for bleed_in in _by_fit(seen, (*BLEEDS_IN, 0.0)):
        card = recognise_card(
            seen.width - 2 * bleed_in, seen.height - 2 * bleed_in, NAMED_WITHIN_IN
        )
        if card is not None:
            with_bleed = f"and {format_length(bleed_in)} bleed" if bleed_in else "without bleed"
            return Inferred(card, bleed_in, f"the page is that card {with_bleed}")
    bleed_in = BLEEDS_IN[0]
    card = _own_card(Box(0, 0, seen.width - 2 * bleed_in, seen.height - 2 * bleed_in))
    return Inferred(card, bleed_in, "the page less 1/8 in bleed; no trade size, so please check")


def _by_fit(seen: Box, bleeds_in: tuple[float, ...]) -> list[float]:
    """Returns bleeds, those before none first, the one that leaves the nearest named card ahead."""

    def misfit(bleed_in: float) -> tuple[bool, float]:
        wide, high = seen.width - 2 * bleed_in, seen.height - 2 * bleed_in
        card = recognise_card(wide, high, NAMED_WITHIN_IN)
        off = abs(card.width_in - wide) + abs(card.height_in - high) if card else 9.0
        return bleed_in == 0.0, off

    return sorted(bleeds_in, key=misfit)


def _inside(trim: Box, seen: Box) -> bool:
    return trim.width < seen.width - 0.01 and trim.height < seen.height - 0.01


def _bleed_beside(trim: Box, seen: Box) -> float:
    margins = (
        trim.left - seen.left,
        trim.top - seen.top,
        seen.right - trim.right,
        seen.bottom - trim.bottom,
    )
    return max(0.0, min(margins))


def _own_card(box: Box) -> CardSize:
    wide, high = round(box.width, 4), round(box.height, 4)
    return CardSize(format_size(wide, high), wide, high, "read from the page")
