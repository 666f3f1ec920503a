"""Card and envelope sizes by their trade or ISO names, and which envelope takes which card.

Cards are portrait (width <= height), as designers say them: an A7 card is 5 x 7. Envelopes have
their long side as width, as they lie when addressed: an A7 envelope is 7.25 x 5.25. Bare A2 to A10
are the North American announcement sizes where inches are the units, "American A6" anywhere; the
ISO sheets of the same letters are "ISO A6", and plain A6 where millimetres are. No ISO envelope
bears those letters: an ISO A6 card goes in a C6. A square card is named by its own side: a square-6
card goes in a square-6.5 envelope.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import NamedTuple

from mockup.errors import SuiteError, nearest, quoted
from mockup.trade.limits import PAGE_SIDE_MIN_PT
from mockup.units import Unit, format_size, mm_to_in, parse_size, pt_to_in

AMERICAN = "American"  # said before a name that ISO has as well
ANNOUNCEMENT = "North American announcement size; common practice, no standard"
SQUARE = "square announcement size; common practice, no standard"
METRIC = "European envelope size; common practice, no standard"
ISO_216 = "ISO 216:2007"
ISO_269 = "ISO 269:1985"
GIVEN = "size given in the suite file"

CLEARANCE_IN = 0.25  # total play an axis, a card slides in easily; common practice
TIGHT_CLEARANCE_IN = 0.125  # the least for one flat card; common practice
THIN_IN = mm_to_in(2)
LOOSE_THIN_IN = mm_to_in(30)  # Royal Mail customer guide 12.3: insert moves at most 30 mm,
LOOSE_THICK_IN = mm_to_in(20)  # and 20 mm in letters thicker than 2 mm
SMALLEST_IN = pt_to_in(PAGE_SIDE_MIN_PT)  # the smallest page that is read
NAMED_WITHIN_IN = 0.02  # a size written in the other unit still has its name: 127 x 178 mm is A7


@dataclass(frozen=True)
class CardSize:
    """A card's trimmed size, with the name the trade has for it and where the size comes from."""

    name: str
    width_in: float
    height_in: float
    source: str


@dataclass(frozen=True)
class EnvelopeSize:
    """An envelope's face, long side as width, and the name of the card it is made for, if any."""

    name: str
    width_in: float
    height_in: float
    nominal_card: str | None
    source: str


class Play(NamedTuple):
    """How much larger than its contents an envelope is, both sides together, inches."""

    width_in: float
    height_in: float


def card_size(text: str, units: Unit = "in") -> CardSize:
    """Returns a card size from a trade name (`"A7"`, portrait) or a size (`"7 x 5 in"`, as said).

    A size without a unit is in `units`, in which a size without a name is also named. Names are
    read in any case, with spaces, hyphens or slashes. Raises SuiteError otherwise.
    """
    if _is_name(text):
        meanings = two_meanings(text)
        if meanings is not None:
            return meanings[1 if units == "mm" else 0]
        key = _key(text)
        name = _CARD_ALIASES.get(key, key)
        american = name.removeprefix(f"{AMERICAN.lower()}-")
        if american != name and american in CARDS:
            return replace(CARDS[american], name=f"{AMERICAN} {CARDS[american].name}")
        if name not in CARDS:
            raise SuiteError(_unknown("card", text, [*CARDS, *_CARD_ALIASES]))
        return CARDS[name]
    width, height = _positive_size(text, units)
    known = recognise_card(width, height)
    name = plain_name(known.name, units) if known else format_size(width, height, units)
    return CardSize(name, width, height, known.source if known else GIVEN)


def two_meanings(text: str) -> tuple[CardSize, CardSize] | None:
    """Returns the North American and the ISO card of a bare name that means both: `"A6"`."""
    key = _key(text)
    both = CARDS.get(key), CARDS.get(f"iso-{key}")
    return None if both[0] is None or both[1] is None else (both[0], both[1])


def envelope_size(text: str, units: Unit = "in") -> EnvelopeSize:
    """Returns an envelope size from a trade name (`"A7"`, `"no. 10"`) or a size, long side wide.

    A size without a unit is in `units`, in which a size without a name is also named. Names are
    read in any case, with spaces, hyphens or slashes. Raises SuiteError otherwise.
    """
    if _is_name(text):
        key = _key(text).removeprefix(f"{AMERICAN.lower()}-")
        name = _ENVELOPE_ALIASES.get(key, key)
        if name not in ENVELOPES:
            raise SuiteError(_unknown("envelope", text, [*ENVELOPES, *_ENVELOPE_ALIASES]))
        size = ENVELOPES[name]
        return replace(size, name=plain_name(size.name, units))
    short, long = sorted(_positive_size(text, units))
    for known in ENVELOPES.values():
        if _off(known.width_in, known.height_in, long, short) <= NAMED_WITHIN_IN:
            named = plain_name(known.name, units)
            return EnvelopeSize(named, long, short, known.nominal_card, known.source)
    return EnvelopeSize(format_size(long, short, units), long, short, None, GIVEN)


def recognise_card(
    width_in: float, height_in: float, tolerance_in: float = NAMED_WITHIN_IN
) -> CardSize | None:
    """Returns the nearest named card within `tolerance_in` on both sides, or None.

    Either orientation is recognised; the result has the trade's size in the orientation asked.
    """
    short, long = sorted((width_in, height_in))
    best = min(CARDS.values(), key=lambda card: _off(card.width_in, card.height_in, short, long))
    if _off(best.width_in, best.height_in, short, long) > tolerance_in:
        return None
    if width_in > height_in:
        return CardSize(best.name, best.height_in, best.width_in, best.source)
    return best


def play(
    envelope: EnvelopeSize, width_in: float, height_in: float, thickness_in: float = 0.0
) -> Play:
    """Returns the play of contents laid long side along the envelope's width; negative: too big.

    A pouch that bellies round a stack loses its thickness on each axis: the length round a flat
    pouch, 2 W, is that round the stack, 2 (w + t).
    """
    short, long = sorted((width_in, height_in))
    return Play(envelope.width_in - long - thickness_in, envelope.height_in - short - thickness_in)


def fitting_envelopes(
    width_in: float, height_in: float, thickness_in: float = 0.0, units: Unit = "in"
) -> list[EnvelopeSize]:
    """Returns the named envelopes that take contents of this size, the best first; maybe none.

    First the one made for that very card, then those with 1/4 in of play an axis from the smallest
    on, then the tight ones, down to 1/8 in; where `units` are millimetres ISO's and Europe's before
    America's, where they are inches none of Europe's own. Left out: too tight, and so loose that
    the contents travel (more than 30 mm, or 20 mm when thicker than 2 mm). `play` gives the play of
    each.
    """
    card = recognise_card(width_in, height_in)
    loose = LOOSE_THIN_IN if thickness_in <= THIN_IN else LOOSE_THICK_IN

    def plays(envelope: EnvelopeSize) -> Play:
        return play(envelope, width_in, height_in, thickness_in)

    def rank(envelope: EnvelopeSize) -> tuple[bool, bool, bool, float]:
        made_for_it = card is not None and envelope.nominal_card == card.name
        tight = min(plays(envelope)) < CLEARANCE_IN - 1e-9
        abroad = units == "mm" and envelope.source not in (ISO_269, METRIC)
        return not made_for_it, abroad, tight, envelope.width_in * envelope.height_in

    fits = [
        envelope
        for envelope in ENVELOPES.values()
        if (units == "mm" or envelope.source != METRIC)
        and min(plays(envelope)) >= TIGHT_CLEARANCE_IN - 1e-9
        and max(plays(envelope)) <= loose
    ]
    return sorted(fits, key=rank)


def plain_name(name: str, units: Unit) -> str:
    """Returns a size's name as it is read back, and understood, where `units` are used: among
    millimetres an American name that ISO has as well is told as American."""
    return f"{AMERICAN} {name}" if units == "mm" and two_meanings(name) is not None else name


def _is_name(text: str) -> bool:
    """Returns whether a text is no `width x height`: those begin with a digit and have a cross."""
    return re.match(r"^\s*[\d.].*[x\u00d7]\s*[\d.]", text, re.I) is None


def _key(text: str) -> str:
    """Returns a name as the tables hold it: small letters, one hyphen between words."""
    return re.sub(r"[\s\-_/.]*[\s\-_/]|(?<!\d)\.", "-", text.strip().lower()).strip("-")


def _off(width_in: float, height_in: float, other_width_in: float, other_height_in: float) -> float:
    return max(abs(width_in - other_width_in), abs(height_in - other_height_in))


def _positive_size(text: str, units: Unit) -> tuple[float, float]:
    width, height = parse_size(text, units)
    if min(width, height) < SMALLEST_IN:
        raise SuiteError(f"{quoted(text)} is not a size; both sides must be 3 pt or more")
    return width, height


def _unknown(kind: str, text: str, names: list[str]) -> str:
    hint = nearest(_key(text), names)
    return (
        f'no {kind} size called {quoted(text)}{hint}; write a trade name, or a size as "5 x 7 in"'
    )


def _cards() -> dict[str, CardSize]:
    """Returns the card table by key."""
    trade = [
        ("4-bar", 3.5, 4.875),
        ("A2", 4.25, 5.5),
        ("A6", 4.5, 6.25),
        ("A7", 5.0, 7.0),
        ("A7.5", 5.25, 7.25),  # the size of an A7 envelope, which goes inside an A7.5
        ("A8", 5.25, 7.875),
        ("A9", 5.5, 8.5),
        ("A10", 5.75, 9.25),
        ("slim", 3.625, 8.625),
        ("rack", 4.0, 9.0),
        ("postcard", 4.0, 6.0),
    ]
    iso_mm = [
        ("ISO A4", 210, 297),
        ("ISO A5", 148, 210),
        ("ISO A6", 105, 148),
        ("ISO A7", 74, 105),
        ("ISO A8", 52, 74),
        ("DL", 99, 210),  # a third of A4
    ]
    sides = [4.5, 5.0, 5.5, 6.0, 6.5, 7.0, 7.5, 8.0, 8.5]
    cards = [
        *(CardSize(name, width, height, ANNOUNCEMENT) for name, width, height in trade),
        *(CardSize(f"square-{side:g}", side, side, SQUARE) for side in sides),
        *(CardSize(name, mm_to_in(w), mm_to_in(h), ISO_216) for name, w, h in iso_mm),
    ]
    return {_key(card.name): card for card in cards}


def _envelopes() -> dict[str, EnvelopeSize]:
    """Returns the envelope table by key."""
    trade = [
        ("4-bar", 5.125, 3.625, "4-bar"),
        ("A2", 5.75, 4.375, "A2"),  # PWG 5101.1: na_a2_4.375x5.75in
        ("A6", 6.5, 4.75, "A6"),
        ("A7", 7.25, 5.25, "A7"),
        ("A7.5", 7.5, 5.5, "A7.5"),
        ("A8", 8.125, 5.5, "A8"),
        ("A9", 8.75, 5.75, "A9"),
        ("A10", 9.5, 6.0, "A10"),
        ("slim", 8.875, 3.875, "slim"),
        ("no. 10", 9.5, 4.125, "rack"),  # PWG 5101.1: na_number-10_4.125x9.5in
    ]
    iso_mm = [
        ("C5", 229, 162, "ISO A5"),
        ("C6", 162, 114, "ISO A6"),
        ("C7", 114, 81, "ISO A7"),
        ("DL", 220, 110, "DL"),
        ("C6/C5", 229, 114, None),
        ("B6", 176, 125, None),  # the outer of a C6
        ("B5", 250, 176, None),  # the outer of a C5
    ]
    sides = [5.0, 5.5, 6.0, 6.5, 7.0, 7.5, 8.0, 8.5, 9.0]
    envelopes = [
        *(EnvelopeSize(name, w, h, card, ANNOUNCEMENT) for name, w, h, card in trade),
        *(EnvelopeSize(f"square-{s:g}", s, s, f"square-{s - 0.5:g}", SQUARE) for s in sides),
        *(EnvelopeSize(name, mm_to_in(w), mm_to_in(h), c, ISO_269) for name, w, h, c in iso_mm),
        *(_square_mm(side_mm) for side_mm in (130, 140, 150, 155, 160, 165, 170, 190, 220)),
    ]
    return {_key(envelope.name): envelope for envelope in envelopes}


def _square_mm(side_mm: int) -> EnvelopeSize:
    side_in = mm_to_in(side_mm)
    return EnvelopeSize(f"square-{side_mm}-mm", side_in, side_in, None, METRIC)


CARDS = _cards()
"""Named cards by key (small letters, hyphens)."""

ENVELOPES = _envelopes()
"""Named envelopes by key (small letters, hyphens)."""

# The baronial (bar) and announcement sizes share their faces; only the flap differs.
_BARONIAL = {"a1": "4-bar", "5-1-2-bar": "a2", "5.5-bar": "a2", "6-bar": "a6", "lee": "a7"}
_CARD_ALIASES = {
    **_BARONIAL,
    "a4": "iso-a4",  # no announcement size has these two names
    "a5": "iso-a5",
    "dl-third": "dl",
    "a4-third": "dl",
}
_ENVELOPE_ALIASES = {**_BARONIAL, "10": "no-10", "c5-c6": "c6-c5"}
