"""A card as a suite file or a command names it; of a name with two meanings the page decides.

A6 is 4.5 x 6.25 in in North America and 105 x 148 mm by ISO 216; likewise A7 and A8.
"""

from __future__ import annotations

from dataclasses import dataclass

from mockup.artwork.art import Art
from mockup.artwork.page import SIZE_TOLERANCE_IN, ArtPage, read_page
from mockup.errors import InputError, LimitError
from mockup.geometry.point import Box
from mockup.suite.schema import BLEED_MAX_IN
from mockup.trade.sizes import AMERICAN, ISO_216, CardSize, card_size, two_meanings
from mockup.units import Unit, format_size


@dataclass(frozen=True)
class CardRead:
    """A card, and, where its name could mean another, which was taken and why."""

    card: CardSize
    told: str = ""


def parse_card(text: str, units: Unit = "in") -> CardSize:
    """Returns a card from `"A7"`, `"A7 landscape"` or `"5 x 7 in"`.

    A size without a unit is in `units`; of a name with two meanings the ISO one is taken where
    they are millimetres. Raises SuiteError.
    """
    name, turn = _turned(text)
    return _as_turned(card_size(name, units), turn)


def read_card(text: str, units: Unit, art: Art | None) -> CardRead:
    """Returns the card a text means for a page of art, None where there is none.

    Of two meanings the page's is taken, else that of the suite's units. Raises SuiteError.
    """
    card = parse_card(text, units)
    name, turn = _turned(text)
    meanings = two_meanings(name)
    page = _page(art) if meanings else None
    if meanings is None or page is None:
        return CardRead(card)
    fitting = [each for each in meanings if _holds(page, each)]
    chosen = _as_turned(fitting[0], turn) if len(fitting) == 1 else card
    is_usual = chosen.source != ISO_216 and units == "in"
    if is_usual:
        return CardRead(chosen)
    (other,) = (each for each in meanings if each.source != chosen.source)
    because = "the page has that size" if fitting else "the suite is in millimetres"
    size = format_size(chosen.width_in, chosen.height_in, units)
    otherwise = other.name if other.source == ISO_216 else f"{AMERICAN} {other.name}"
    told = (
        f'"{text}" is taken as {chosen.name}, {size}, for {because}; write "{otherwise}" for '
        f"{format_size(other.width_in, other.height_in, units)}"
    )
    return CardRead(chosen, told)


def _page(art: Art | None) -> ArtPage | None:
    """Returns the page of art, or None for art that cannot be read: who draws it tells why."""
    try:
        return None if art is None else read_page(art)
    except (InputError, LimitError):
        return None


def _holds(page: ArtPage, card: CardSize) -> bool:
    """Returns whether a page has a card's size, lying or standing, with any even bleed or none."""
    if page.trim is not None:
        off = max(map(abs, _larger(page.trim, card)))
        if off <= SIZE_TOLERANCE_IN:
            return True
    short, long = _larger(page.visible, card)
    even = abs(short - long) <= SIZE_TOLERANCE_IN
    return even and -SIZE_TOLERANCE_IN <= short <= 2 * BLEED_MAX_IN


def _larger(box: Box, card: CardSize) -> tuple[float, float]:
    """Returns by how much a box is larger than a card, along the short and the long side."""
    short, long = sorted((box.width, box.height))
    card_short, card_long = sorted((card.width_in, card.height_in))
    return short - card_short, long - card_long


def _turned(text: str) -> tuple[str, str]:
    """Returns a card's name, and `portrait` or `landscape` where that is said."""
    name, _, turn = text.strip().rpartition(" ")
    if turn.lower() in ("portrait", "landscape") and name:
        return name, turn.lower()
    return text, ""


def _as_turned(card: CardSize, turn: str) -> CardSize:
    if not turn:
        return card
    short, long = sorted((card.width_in, card.height_in))
    wide, high = (short, long) if turn == "portrait" else (long, short)
    return CardSize(card.name, wide, high, card.source)
