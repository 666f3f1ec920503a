"""Every die there is, beside who has it at which card sizes and for how much."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mockup.dies.families import FAMILIES
from mockup.dies.family import Die, Value
from mockup.dies.making import make_die
from mockup.errors import DieError
from mockup.printers.catalogue import Offer, Printer
from mockup.printers.choosing import offers_at

# The size dies are shown at where no card is named: an A7 card at three tenths, twelve a page.
SAMPLE_IN = (1.5, 2.1)


@dataclass(frozen=True)
class Listed:
    """A die, the parameters it is listed with, and the offers of it.

    `die` is drawn at the card asked for, else, of a printer's own, at its first card, else at the
    sample size; None where it cannot be cut so.
    """

    name: str
    about: str
    parameters: tuple[tuple[str, Value], ...]
    die: Die | None
    offers: tuple[Offer, ...]


def listed(
    printers: Sequence[Printer],
    card_in: tuple[float, float] | None = None,
    only_offered: bool = False,
) -> list[Listed]:
    """Returns the dies in the order of the table, once for each set of parameters offered.

    With a card size (width, height in inches) only offers of that size count, and parameters are
    those the die has there; without one they are those the catalogues name.
    """
    offers = [offer for printer in printers for offer in printer.offers]
    if card_in is not None:
        offers = offers_at(printers, *card_in)
    rows: list[Listed] = []
    for name, family in FAMILIES.items():
        of_family = [offer for offer in offers if offer.die.name == name]
        for given in {offer.given: None for offer in of_family}:
            same = tuple(offer for offer in of_family if offer.given == given)
            drawn_in = card_in or SAMPLE_IN
            own = card_in is None and only_offered
            die = same[0].die if own else _drawn(name, drawn_in, given)
            shown = die.parameters if die and card_in else given
            rows.append(Listed(name, family.about, shown, die, same))
        if not of_family and not only_offered:
            die = _drawn(name, card_in or SAMPLE_IN, ())
            shown = die.parameters if die and card_in else ()
            rows.append(Listed(name, family.about, shown, die, ()))
    return rows


def _drawn(
    name: str, size_in: tuple[float, float], given: Sequence[tuple[str, Value]]
) -> Die | None:
    tries = [size_in] if size_in != SAMPLE_IN else [SAMPLE_IN, (SAMPLE_IN[0], SAMPLE_IN[0])]
    for width_in, height_in in tries:  # some dies need a square
        try:
            return make_die(name, width_in, height_in, dict(given))
        except DieError:
            continue
    return None
