"""The dies one piece could have: those in stock at its size, and some that would be made for it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from mockup.dies.families import FAMILIES
from mockup.dies.family import Die
from mockup.dies.making import make_die
from mockup.errors import DieError
from mockup.printers.catalogue import Custom, Offer, Printer
from mockup.printers.choosing import customs_of, cuts, offers_at, offers_of, turned_to

MOST = 12
MOST_STOCK = 8  # where dies made to order are shown as well
UNCUT = "rectangle"  # trimmed on the guillotine, needs no die
# The first to show of what would be made: shapes that leave type most of the card; a judgement.
MADE_FIRST = ("superellipse", "three-centred-arch", "trefoil-top", "chamfered-corner", "ogee-label")


@dataclass(frozen=True)
class Option:
    """A die for a piece, drawn as the piece lies: the cheapest offer of it, or who would make it.

    Both are None for a plain rectangle, and for a die nobody in the catalogues makes.
    """

    die: Die
    offer: Offer | None
    custom: Custom | None

    @property
    def in_stock(self) -> bool:
        """Whether nothing has to be made for it."""
        return self.offer is not None or self.die.name == UNCUT


def options_for(
    printers: Sequence[Printer],
    own: Die,
    caliper_mil: float,
    names: Sequence[str] = (),
    suits: Callable[[Die], bool] = lambda die: True,
) -> list[Option]:
    """Returns the options of a piece whose die is `own`, those in stock first.

    With names, those families in the order given within each group; else the piece's own die, the
    dies in stock, and dies made to order that `suits` finds fit for the art, up to twelve in all.
    Raises DieError for an unknown name,
    or where a die named cannot be cut at this size.
    """
    stock = _stock(printers, own, caliper_mil)
    custom = next(iter(customs_of(printers, caliper_mil)), None)
    found = [_option(printers, own, caliper_mil, custom)]
    if names:
        found = [_named(name, own, stock, custom) for name in dict.fromkeys(names)]
    else:
        found += [option for name, option in stock.items() if name != own.name]
        found = _in_groups(found)[:MOST_STOCK]
        taken = {option.die.name for option in found} | set(stock) | {UNCUT}
        made = _made_to_order(own, custom, taken)
        found += islice((option for option in made if suits(option.die)), MOST - len(found))
    return _in_groups(found)[:MOST]


def _stock(printers: Sequence[Printer], own: Die, caliper_mil: float) -> dict[str, Option]:
    """Returns the cheapest offer of each family at the piece's size, drawn as the piece lies."""
    offers = [
        offer
        for offer in offers_at(printers, own.width_in, own.height_in)
        if cuts(offer, caliper_mil)
    ]
    found: dict[str, Option] = {}
    for offer in sorted(offers, key=lambda offer: offer.terms.each):
        die = turned_to(offer.die, own.width_in, own.height_in)
        found.setdefault(offer.die.name, Option(die, offer, None))
    order = list(FAMILIES)
    return dict(sorted(found.items(), key=lambda item: order.index(item[0])))


def _option(
    printers: Sequence[Printer], die: Die, caliper_mil: float, custom: Custom | None
) -> Option:
    offer = next(iter(offers_of(printers, die, caliper_mil)), None)
    return Option(die, offer, None if offer or die.name == UNCUT else custom)


def _named(name: str, own: Die, stock: dict[str, Option], custom: Custom | None) -> Option:
    if name == own.name and name not in stock:
        return Option(own, None, None if name == UNCUT else custom)
    if name in stock:
        return stock[name]
    die = make_die(name, own.width_in, own.height_in)
    return Option(die, None, None if name == UNCUT else custom)


def _made_to_order(own: Die, custom: Custom | None, taken: set[str]) -> Iterator[Option]:
    for name in dict.fromkeys((*MADE_FIRST, *FAMILIES)):
        if name in taken:
            continue
        try:
            yield Option(make_die(name, own.width_in, own.height_in), None, custom)
        except DieError:  # a circle on an oblong card
            continue


def _in_groups(options: Sequence[Option]) -> list[Option]:
    return sorted(options, key=lambda option: not option.in_stock)
