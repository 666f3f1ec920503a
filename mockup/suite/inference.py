"""What a print page tells of its card: size, bleed, and the name the trade has for it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from mockup.artwork.page import BLEEDS_IN, SIZE_TOLERANCE_IN, ArtPage
from mockup.dies.making import SMALLEST_IN
from mockup.errors import InputError
from mockup.geometry.point import Box
from mockup.suite.schema import BLEED_MAX_IN
from mockup.trade.sizes import ISO_216, CardSize, recognise_card
from mockup.units import MM_PER_INCH, Unit, format_length, format_size

READ = "read from the page"
WHOLE_WITHIN_IN = 0.003  # programs save pages to a hundredth of a point, or a tenth of a millimetre
BLEED_WITHIN_IN = 0.003  # tells 1/8 in from 3 mm, 0.007 in apart
NAMED_WITHIN_IN = SIZE_TOLERANCE_IN  # what is named is then found on its page by that size


How = Literal["trim", "whole trim", "bleed", "no bleed", "assumed"]


@dataclass(frozen=True)
class Inferred:
    """A card read from a page, its bleed, and how it was read."""

    card: CardSize
    bleed_in: float
    how: How

    @property
    def leans(self) -> int:
        """What the page says of its maker's units: 1 millimetres, -1 inches, 0 nothing."""
        if self.card.source == ISO_216:
            return 1
        if self.how in ("trim", "bleed") and self.bleed_in > 0:
            off_mm, off_in = (abs(self.bleed_in - usual) for usual in BLEEDS_IN[::-1])
            if min(off_mm, off_in) <= BLEED_WITHIN_IN:
                return 1 if off_mm < off_in else -1
        if self.card.source == READ:
            return 1 if _whole_mm(self.card.width_in, self.card.height_in) else 0
        return -1

    def because(self, units: Unit) -> str:
        """Returns why the card was read so."""
        bleed = format_length(self.bleed_in, units)
        return {
            "trim": "its TrimBox says so",
            "whole trim": "its TrimBox is the whole page, without bleed",
            "bleed": f"the page is that card and {bleed} bleed",
            "no bleed": "the page is that card without bleed",
            "assumed": f"no TrimBox: {bleed} bleed assumed on all sides; no trade size, so please "
            "check",
        }[self.how]


def infer_card(page: ArtPage) -> Inferred:
    """Returns the card a page holds: its TrimBox where that lies on the page, else from its size.

    A TrimBox as large as the page says that the art has no bleed. Without one, the page less a
    bleed of 1/8 in or 3 mm, else the page itself, is looked up among the trade's and ISO's cards; a
    page that is none of them is taken as a card of its own with 1/8 in bleed, or 3 mm where its
    sides are whole millimetres. Raises InputError for
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
        card = recognise_card(*_sides(page.trim), NAMED_WITHIN_IN) or _own_card(page.trim)
        whole = _same_size(page.trim, seen)
        return Inferred(card, 0.0, "whole trim") if whole else Inferred(card, bleed_in, "trim")
    for bleed_in in _by_fit(seen, (*BLEEDS_IN, 0.0)):
        card = recognise_card(
            seen.width - 2 * bleed_in, seen.height - 2 * bleed_in, NAMED_WITHIN_IN
        )
        if card is not None:
            return Inferred(card, bleed_in, "bleed" if bleed_in else "no bleed")
    bleed_in = BLEEDS_IN[1 if _whole_mm(seen.width, seen.height) else 0]
    card = _own_card(Box(0, 0, seen.width - 2 * bleed_in, seen.height - 2 * bleed_in))
    return Inferred(card, bleed_in, "assumed")


def _sides(box: Box) -> tuple[float, float]:
    return box.width, box.height


def _whole_mm(width_in: float, height_in: float) -> bool:
    """Returns whether both sides are whole millimetres and not both whole sixteenths of an inch."""

    def whole(step_in: float) -> bool:
        sides = (width_in, height_in)
        return all(abs(side - round(side / step_in) * step_in) <= WHOLE_WITHIN_IN for side in sides)

    return whole(1 / MM_PER_INCH) and not whole(1 / 16)


def _by_fit(seen: Box, bleeds_in: tuple[float, ...]) -> list[float]:
    """Returns bleeds, those before none first, the one that leaves the nearest named card ahead."""

    def misfit(bleed_in: float) -> tuple[bool, float]:
        wide, high = seen.width - 2 * bleed_in, seen.height - 2 * bleed_in
        card = recognise_card(wide, high, NAMED_WITHIN_IN)
        off = abs(card.width_in - wide) + abs(card.height_in - high) if card else 9.0
        return bleed_in == 0.0, off

    return sorted(bleeds_in, key=misfit)


def _inside(trim: Box, seen: Box) -> bool:
    margins = trim.margins_in(seen)
    return min(margins) >= -SIZE_TOLERANCE_IN and min(trim.width, trim.height) > 0


def _same_size(trim: Box, seen: Box) -> bool:
    return max(map(abs, trim.margins_in(seen))) <= SIZE_TOLERANCE_IN


def _bleed_beside(trim: Box, seen: Box) -> float:
    """Returns the narrowest margin; of a card on a wide sheet no more than a bleed can be."""
    return min(max(0.0, min(trim.margins_in(seen))), BLEED_MAX_IN)


def _own_card(box: Box) -> CardSize:
    wide, high = round(box.width, 4), round(box.height, 4)
    return CardSize(format_size(wide, high), wide, high, READ)
