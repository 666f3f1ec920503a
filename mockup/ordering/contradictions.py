"""What does not go together at one printer, each with the nearest way that goes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mockup.printers.catalogue import Offer, Printer
from mockup.printers.choosing import cuts, offers_at, offers_of, same_size
from mockup.printers.prices import Terms
from mockup.printers.rules import EnvelopeOffer, StockOffer, offered
from mockup.suite.suite import Envelope, Piece, Suite
from mockup.units import format_caliper, format_size

UNCUT = "rectangle"  # trimmed on the guillotine


def contradictions(suite: Suite, printer: Printer) -> list[str]:
    """Returns a line for everything in a suite that a printer's catalogue says does not go, with
    the nearest way that does. What the catalogue says nothing of, nothing is told of."""
    told: list[str] = []
    for piece in suite.pieces:
        for rule in (_die, _stock, _never, _drilling, _finishes):
            told += [f"{piece.name}: {each}" for each in rule(piece, printer)]
    for envelope in suite.envelopes:
        told += [f"envelopes.{envelope.name}: {each}" for each in _envelope(envelope, printer)]
    return told


def drilled(piece: Piece) -> bool:
    """Returns whether a piece's die has a hole in it."""
    return len(piece.die.shape.outlines) > 1


def _ways(ways: Sequence[str], none: str) -> str:
    return " or ".join(dict.fromkeys(ways)) or none


def _least(terms: Terms, piece: Piece | Envelope, what: str) -> Iterator[str]:
    if piece.quantity is not None and piece.quantity < terms.minimum:
        yield (
            f"{piece.quantity} are ordered; {what} from {terms.minimum} on; order {terms.minimum}"
        )


def _die(piece: Piece, printer: Printer) -> Iterator[str]:
    """Yields what is wrong with a die: not there at this size, not for stock so thick, too few."""
    if piece.die.name == UNCUT or not (printer.offers or printer.custom):
        return
    name, thick = piece.die.name, piece.stock.caliper_mil
    thickness = format_caliper(thick, piece.units)
    having = offers_of([printer], piece.die)
    cutting = [each for each in having if cuts(each, thick)]
    custom = printer.custom
    makes = custom is not None and cuts(custom, thick)
    if cutting:
        yield from _least(cutting[0].terms, piece, f"{name} is cut")
    elif having:
        most = max(each.thickest_mil or 0.0 for each in having)
        ways = _thinner(piece, printer, most)
        ways += ["have a die made, which cuts it"] if makes else []
        limit = format_caliper(most, piece.units)
        yield f"{name} cuts stock to {limit}, this is {thickness}; {_ways(ways, 'ask them')}"
    elif makes and custom is not None:
        yield from _least(custom.terms, piece, "a die made for you is cut")
    elif custom is not None and custom.thickest_mil is not None:
        ways = [*_dies_here(piece, printer), *_thinner(piece, printer, custom.thickest_mil)]
        limit = format_caliper(custom.thickest_mil, piece.units)
        yield (
            f"{name} would be made, which cuts stock to {limit}, this is {thickness}; "
            f"{_ways(ways, 'ask them')}"
        )
    else:
        size = format_size(piece.die.width_in, piece.die.height_in, piece.units)
        ways = [*_dies_here(piece, printer), *_sizes_of(piece, printer)]
        yield f"no {name} as this one at {size}, and none is made; {_ways(ways, 'ask another')}"


def _dies_here(piece: Piece, printer: Printer) -> list[str]:
    """Returns the nearest stock die at a piece's size that cuts its stock: nearest in area."""
    here = [
        each
        for each in offers_at([printer], piece.die.width_in, piece.die.height_in)
        if cuts(each, piece.stock.caliper_mil)
    ]

    def apart(offer: Offer) -> tuple[bool, float]:
        return offer.die.name != piece.die.name, _apart_in2(offer, piece)

    near = min(here, key=apart, default=None)
    return [] if near is None else [f"{near.die.name} is in stock at this size"]


def _apart_in2(offer: Offer, piece: Piece) -> float:
    """Returns by how much two dies differ in area, square inches."""
    from mockup.geometry.flatten import polygon  # shapely, only where outlines are compared

    return abs(polygon(offer.die.shape).area - polygon(piece.die.shape).area)


def _sizes_of(piece: Piece, printer: Printer) -> list[str]:
    """Returns the nearest card that has this family of die, for a piece of this stock."""
    own = piece.die.width_in * piece.die.height_in
    sizes = [
        each
        for each in printer.offers
        if each.die.name == piece.die.name
        and cuts(each, piece.stock.caliper_mil)
        and not same_size(each.die, piece.die.width_in, piece.die.height_in)
    ]
    near = min(
        sizes, key=lambda each: abs(each.card.width_in * each.card.height_in - own), default=None
    )
    return [] if near is None else [f"{piece.die.name} is in stock at {near.card.name}"]


def _stock(piece: Piece, printer: Printer) -> Iterator[str]:
    """Yields what is wrong with a stock: not printed on there, not at this size, too few."""
    rows = printer.rules.stocks
    if not rows:
        return
    own = [each for each in rows if each.stock.name == piece.stock.name]
    fitting = [each for each in own if _at_size(each, piece)]
    if fitting:
        yield from _least(fitting[0].terms, piece, f"{piece.stock.name} is printed")
    elif own:
        cards = ", ".join(card.name for card in own[0].cards)
        other = _ways(_other_stock(piece, printer), "choose another stock")
        yield f"{piece.stock.name} is printed at {cards} only; {other}"
    else:
        other = _ways(_other_stock(piece, printer), "choose another stock")
        yield f"{piece.stock.name} is not printed on there; {other}"


def _at_size(row: StockOffer, piece: Piece) -> bool:
    return not row.cards or any(
        same_size(piece.die, card.width_in, card.height_in) for card in row.cards
    )


def _other_stock(piece: Piece, printer: Printer) -> list[str]:
    """Returns the stock they have for a piece that is nearest in thickness, thinner before
    thicker."""
    mil = piece.stock.caliper_mil
    found = [each for each in printer.rules.stocks if _at_size(each, piece)]
    found = [each for each in found if each.stock.name != piece.stock.name]
    near = min(
        found,
        key=lambda each: (each.stock.caliper_mil > mil, abs(each.stock.caliper_mil - mil)),
        default=None,
    )
    if near is None:
        return []
    return [f"{near.stock.name} is ({format_caliper(near.stock.caliper_mil, piece.units)})"]


def _thinner(piece: Piece, printer: Printer, most_mil: float) -> list[str]:
    """Returns the thickest stock they have that a die still cuts; none where no stocks are said."""
    found = [
        each.stock
        for each in printer.rules.stocks
        if each.stock.caliper_mil <= most_mil and _at_size(each, piece)
    ]
    near = max(found, key=lambda each: each.caliper_mil, default=None)
    if near is None:
        limit = format_caliper(most_mil, piece.units)
        return [f"take stock of {limit} or less"]
    return [f"take {near.name} ({format_caliper(near.caliper_mil, piece.units)})"]


def _never(piece: Piece, printer: Printer) -> Iterator[str]:
    for rule in printer.rules.never:
        if rule.dies and piece.die.name not in rule.dies:
            continue
        die = piece.die.name if rule.dies else "any card"
        if piece.stock.name in rule.stocks:
            yield f"{die} on {piece.stock.name} is not done there; choose another stock or die"
        elif rule.over_mil is not None and piece.stock.caliper_mil > rule.over_mil:
            limit = format_caliper(rule.over_mil, piece.units)
            ways = _ways(_thinner(piece, printer, rule.over_mil), "choose a thinner stock")
            yield f"{die} is not done there on stock over {limit}; {ways}"


def _drilling(piece: Piece, printer: Printer) -> Iterator[str]:
    drilling = printer.rules.drilling
    if drilling is None or not drilled(piece):
        return
    if piece.die.name in drilling.not_with:
        ways = [
            f"{each.die.name} is in stock at this size"
            for each in offers_at([printer], piece.die.width_in, piece.die.height_in)
            if each.die.name not in drilling.not_with
        ]
        yield f"no hole is drilled in {piece.die.name}; {_ways(ways[:1], 'leave the hole out')}"
    yield from _least(drilling.terms, piece, "holes are drilled")


def _finishes(piece: Piece, printer: Printer) -> Iterator[str]:
    rows = printer.rules.finishes
    for finish in piece.finishes if rows else ():
        own = offered(rows, finish)
        fitting = [each for each in own if not each.stocks or piece.stock.name in each.stocks]
        if fitting:
            yield from _least(fitting[0].terms, piece, f"{finish} is laid")
        elif own:
            names = ", ".join(own[0].stocks)
            yield f"{finish} goes on {names} only, not on {piece.stock.name}; take one of those"
        else:
            names = ", ".join(dict.fromkeys(each.finish for each in rows))
            yield f"{finish} is not offered; they have {names}"


def envelope_row(envelope: Envelope, printer: Printer) -> EnvelopeOffer | None:
    """Returns the row of a catalogue that an envelope is of, None where it has none."""
    fitting = (each for each in printer.rules.envelopes if not _unlike(envelope, each))
    return next(fitting, None)


def _unlike(envelope: Envelope, row: EnvelopeOffer) -> str:
    """Returns in what an envelope is not as a row offers it, empty where it is."""
    red, green, blue = envelope.colour
    colours = (envelope.colour_name.casefold(), f"#{red:02x}{green:02x}{blue:02x}")
    if row.size.name != envelope.size.name:
        return f"size {envelope.size.name}"
    if row.flaps and envelope.spec.flap not in row.flaps:
        return f"{envelope.spec.flap} flap (there: {', '.join(row.flaps)})"
    if row.colours and not {each.casefold() for each in row.colours} & set(colours):
        return f"colour {envelope.colour_name} (there: {', '.join(row.colours)})"
    return ""


def _envelope(envelope: Envelope, printer: Printer) -> Iterator[str]:
    rows = printer.rules.envelopes
    if not rows:
        return
    row = envelope_row(envelope, printer)
    if row is None:
        sized = [each for each in rows if each.size.name == envelope.size.name]
        if sized:
            yield f"not offered in {_unlike(envelope, sized[0])}; take one of those"
        else:
            names = ", ".join(dict.fromkeys(each.size.name for each in rows))
            yield f"no envelope of size {envelope.size.name}; there are {names}"
        return
    yield from _least(row.terms, envelope, "these are sold")
    if envelope.liner is not None and row.liner is None:
        lined = [each.size.name for each in rows if each.liner is not None]
        way = f"they line {', '.join(dict.fromkeys(lined))}" if lined else "line it elsewhere"
        yield f"no liner is put into this envelope; {way}"
