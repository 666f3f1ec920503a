"""Which printers have a die, and for a card without one, which sizes and dies would do."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mockup.dies.family import Die
from mockup.geometry.affine import rotation, translation
from mockup.geometry.outline import Shape
from mockup.printers.catalogue import Custom, Offer, Printer

SAME_WITHIN_IN = 0.02  # inch and millimetre names of one card, and printers' rounding, differ less


@dataclass(frozen=True)
class Advice:
    """Where nobody has a die: card sizes it exists at, and dies that exist at the card's size."""

    sizes: tuple[str, ...]
    dies: tuple[str, ...]


def offers_of(
    printers: Sequence[Printer], die: Die, caliper_mil: float | None = None
) -> list[Offer]:
    """Returns the offers of this very outline, turned or not, the cheapest first.

    Those that cannot cut stock of `caliper_mil` (thousandths of an inch) are left out.
    """
    found = [
        offer
        for printer in printers
        for offer in printer.offers
        if cuts(offer, caliper_mil) and same_die(offer.die, die)
    ]
    return sorted(found, key=lambda offer: offer.terms.each)


def offers_at(printers: Sequence[Printer], width_in: float, height_in: float) -> list[Offer]:
    """Returns the offers for cards of a size, lying or standing, in the order of the catalogues."""
    return [
        offer
        for printer in printers
        for offer in printer.offers
        if same_size(offer.die, width_in, height_in)
    ]


def customs_of(printers: Sequence[Printer], caliper_mil: float | None = None) -> list[Custom]:
    """Returns who makes a die to order for stock of a thickness, the cheapest tool first."""
    found = [
        printer.custom
        for printer in printers
        if printer.custom and cuts(printer.custom, caliper_mil)
    ]
    return sorted(found, key=lambda custom: custom.terms.tool)


def advice(printers: Sequence[Printer], die: Die) -> Advice | None:
    """Returns what would do instead of a die nobody has, or None where somebody has it."""
    if offers_of(printers, die):
        return None
    everything = [offer for printer in printers for offer in printer.offers]
    sizes = {offer.card.name: None for offer in everything if offer.die.name == die.name}
    here = offers_at(printers, die.width_in, die.height_in)
    return Advice(tuple(sizes), tuple({offer.die.name: None for offer in here}))


def cuts(terms: Offer | Custom, caliper_mil: float | None) -> bool:
    """Returns whether a printer cuts stock of a thickness with it; unknown thickness passes."""
    thickest = terms.thickest_mil
    return caliper_mil is None or thickest is None or caliper_mil <= thickest


def turned_to(die: Die, width_in: float, height_in: float) -> Die:
    """Returns a die as it lies on a card of a size: itself, or turned by a quarter to the right."""
    if (die.width_in > die.height_in) == (width_in > height_in):
        return die
    return Die(die.name, die.height_in, die.width_in, die.parameters, _turned(die.shape, 90))


def same_die(one: Die, other: Die) -> bool:
    """Returns whether two dies cut the same outline within 0.02 in, turned by quarters or not."""
    if not same_size(one, other.width_in, other.height_in):
        return False
    from mockup.geometry.flatten import polygon  # shapely, only where outlines are compared

    target = polygon(other.shape, SAME_WITHIN_IN / 10)
    for angle_deg in (0, 90, 180, 270):
        shape = _turned(one.shape, angle_deg)
        if abs(shape.box.width - other.width_in) > SAME_WITHIN_IN:
            continue
        flat = polygon(shape, SAME_WITHIN_IN / 10)
        if flat.boundary.hausdorff_distance(target.boundary) <= SAME_WITHIN_IN:
            return True
    return False


def same_size(die: Die, width_in: float, height_in: float) -> bool:
    """Returns whether a die is cut from cards of a size, lying or standing."""
    sides = zip(sorted((die.width_in, die.height_in)), sorted((width_in, height_in)), strict=True)
    return all(abs(a - b) <= SAME_WITHIN_IN for a, b in sides)


def _turned(shape: Shape, angle_deg: float) -> Shape:
    turned = shape.mapped(rotation(angle_deg))
    box = turned.box
    return turned.mapped(translation(-box.left, -box.top))
