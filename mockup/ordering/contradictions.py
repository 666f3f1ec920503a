"""What does not go together at one printer, each with the nearest way that goes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial
from typing import Any

from mockup.geometry.outline import Outline, Shape, circle_arc
from mockup.ordering.clashes import Clash, Contradiction, Way, contradictions_of, too_few
from mockup.ordering.envelope_rules import envelope_clashes
from mockup.ordering.other_stocks import at_size, stock_ways
from mockup.ordering.printing_rules import printing_clashes
from mockup.printers.catalogue import Offer, Printer
from mockup.printers.choosing import cuts, offers_at, offers_of, same_size, turned_to
from mockup.printers.rules import offered
from mockup.suite.suite import Piece, Suite
from mockup.trade.papers import stock
from mockup.trade.sizes import plain_name
from mockup.units import format_caliper, format_length, format_size

SAME_DRILL_IN = 0.008  # judgement: 3/16 in and 5 mm are not one, 1/4 in and 6.35 mm are
UNCUT = "rectangle"  # trimmed on the guillotine


def contradictions(suite: Suite, printer: Printer) -> list[str]:
    """Returns a line for everything in a suite that a printer's catalogue says does not go, with
    the nearest way that does. What the catalogue says nothing of, nothing is told of."""
    return [each.line for each in contradictions_at(suite, printer)]


def contradictions_at(suite: Suite, printer: Printer) -> list[Contradiction[Any]]:
    """Returns everything in a suite that does not go at a printer, and the ways that go."""
    told: list[Contradiction[Any]] = []
    for piece in suite.pieces:
        printed = piece if piece.fold is None else piece.sides[0]  # the flat sheet is what is cut
        told += contradictions_of(piece.name, printed, partial(piece_clashes, printer=printer))
    for envelope in suite.envelopes:
        held = [p for p in suite.pieces if p.name in envelope.holds and p.wraps is None]
        rules = partial(envelope_clashes, held=held, printer=printer)
        told += contradictions_of(f"envelopes.{envelope.name}", envelope, rules)
    return told


def piece_clashes(piece: Piece, printer: Printer) -> Iterator[Clash[Piece]]:
    """Yields what does not go with a piece, rule by rule."""
    for rule in (_die, printing_clashes, _stock, _never, _drilling, _finishes):
        yield from rule(piece, printer)


def drilled(piece: Piece) -> bool:
    """Returns whether a piece's die has a hole in it."""
    return len(piece.die.shape.outlines) > 1


def _die(piece: Piece, printer: Printer) -> Iterator[Clash[Piece]]:
    """Yields what is wrong with a die: not there at this size, not for stock so thick, too few.

    A die that their stock die does not cut is made, where one is made that does."""
    if piece.die.name == UNCUT or not (printer.offers or printer.custom):
        return
    name, thick = piece.die.name, piece.stock.caliper_mil
    having = offers_of([printer], piece.die)
    cutting = [each for each in having if cuts(each, thick)]
    custom = printer.custom
    if cutting:
        yield from too_few("die", cutting[0].terms, piece, f"{name} is cut")
    elif custom is not None and cuts(custom, thick):
        yield from too_few("die", custom.terms, piece, "a die made for you is cut")
    elif having or custom is not None:
        limits = [*having, *([custom] if custom is not None else [])]
        yield _too_thick(piece, printer, max(each.thickest_mil or 0.0 for each in limits), having)
    else:
        size = format_size(piece.die.width_in, piece.die.height_in, piece.units)
        ways = _dies_here(piece, printer), _sizes_of(piece, printer)
        said = f"no {name} as this one at {size}, and none is made"
        yield Clash("die", said, ways, "ask another")


def _too_thick(
    piece: Piece, printer: Printer, most_mil: float, having: Sequence[Offer]
) -> Clash[Piece]:
    """Returns what is told of a stock that is thicker than the die, in stock or made, cuts."""
    ends = (most_mil, piece.stock.caliper_mil)
    limit, thickness = (format_caliper(each, piece.units) for each in ends)
    made = "cuts" if having else "would be made, which cuts"
    said = f"{piece.die.name} {made} stock to {limit}, this is {thickness}"
    ways = _thinner(piece, printer, most_mil), _dies_here(piece, printer)
    return Clash("die", said, ways, f"take stock of {limit} or less")


def _dies_here(piece: Piece, printer: Printer, without: Sequence[str] = ()) -> Iterator[Way[Piece]]:
    """Yields the stock dies at a piece's size that cut its stock: of its family first, then the
    nearest in area; none of the families it is to be without."""
    here = [
        each
        for each in offers_at([printer], piece.die.width_in, piece.die.height_in)
        if cuts(each, piece.stock.caliper_mil) and each.die.name not in without
    ]

    def apart(offer: Offer) -> tuple[bool, float]:
        return offer.die.name != piece.die.name, _apart_in2(offer, piece)

    for near in sorted(here, key=apart):
        die = turned_to(near.die, piece.die.width_in, piece.die.height_in)
        yield Way(f"{near.die.name} is in stock at this size", replace(piece, die=die))


def _apart_in2(offer: Offer, piece: Piece) -> float:
    """Returns by how much two dies differ in area, square inches."""
    from mockup.geometry.flatten import polygon  # shapely, only where outlines are compared

    return abs(polygon(offer.die.shape).area - polygon(piece.die.shape).area)


def _sizes_of(piece: Piece, printer: Printer) -> Iterator[Way[Piece]]:
    """Yields the cards that have this family of die, for a piece of this stock, the nearest
    first."""
    own = piece.die.width_in * piece.die.height_in
    sizes = [
        each
        for each in printer.offers
        if each.die.name == piece.die.name
        and cuts(each, piece.stock.caliper_mil)
        and not same_size(each.die, piece.die.width_in, piece.die.height_in)
    ]
    for near in sorted(sizes, key=lambda each: abs(each.card.width_in * each.card.height_in - own)):
        name = plain_name(near.card.name, piece.units)
        die = turned_to(near.die, piece.die.width_in, piece.die.height_in)
        other = replace(piece, card=near.card, die=die)
        yield Way(f"{piece.die.name} is in stock at {name}", other)


def _stock(piece: Piece, printer: Printer) -> Iterator[Clash[Piece]]:
    """Yields what is wrong with a stock: not printed on there, not at this size, too few."""
    rows = printer.rules.stocks
    if not rows or not printer.rules.printing.feeds(piece.stock.caliper_mil):
        return  # what the press does not feed has been told as that
    own = [each for each in rows if each.stock.name == piece.stock.name]
    fitting = [each for each in own if at_size(each, piece)]
    if fitting:
        yield from too_few("stock", fitting[0].terms, piece, f"{piece.stock.name} is printed")
        return
    where = "is not printed on there"
    if own:
        cards = ", ".join(plain_name(card.name, piece.units) for card in own[0].cards)
        where = f"is printed at {cards} only"
    ways = (stock_ways(piece, printer, "{} is ({})"),)
    yield Clash("stock", f"{piece.stock.name} {where}", ways, "choose another stock")


def _thinner(piece: Piece, printer: Printer, most_mil: float) -> Iterator[Way[Piece]]:
    """Yields the stocks they have that a die still cuts, the thickest first."""
    return stock_ways(piece, printer, "take {} ({})", most_mil)


def _never(piece: Piece, printer: Printer) -> Iterator[Clash[Piece]]:
    for number, rule in enumerate(printer.rules.never):
        if rule.dies and piece.die.name not in rule.dies:
            continue
        die = piece.die.name if rule.dies else "any card"
        others = _dies_here(piece, printer, rule.dies) if rule.dies else ()
        if piece.stock.name in rule.stocks:
            said = f"{die} on {piece.stock.name} is not done there"
            ways = stock_ways(piece, printer, "take {} ({})"), others
            yield Clash(f"never {number}", said, ways, "choose another stock or die")
        elif rule.over_mil is not None and piece.stock.caliper_mil > rule.over_mil:
            limit = format_caliper(rule.over_mil, piece.units)
            said = f"{die} is not done there on stock over {limit}"
            ways = _thinner(piece, printer, rule.over_mil), others
            yield Clash(f"never {number}", said, ways, "choose a thinner stock")


def _drilling(piece: Piece, printer: Printer) -> Iterator[Clash[Piece]]:
    drilling = printer.rules.drilling
    if drilling is None or not drilled(piece):
        return
    if piece.die.name in drilling.not_with:
        ways = (_dies_here(piece, printer, drilling.not_with),)
        said = f"no hole is drilled in {piece.die.name}"
        yield Clash("drilling", said, ways, "leave the hole out")
    yield from _drills(piece, drilling.drills_in)
    yield from too_few("drilling", drilling.terms, piece, "holes are drilled")


def _drills(piece: Piece, drills_in: Sequence[float]) -> Iterator[Clash[Piece]]:
    """Yields a hole that none of a printer's drills makes; nothing where they tell of none."""
    for hole in piece.die.shape.holes:
        across_in = hole.box.width
        if not drills_in or min(abs(each - across_in) for each in drills_in) <= SAME_DRILL_IN:
            continue
        nearest = sorted(drills_in, key=lambda each: abs(each - across_in))
        ways = (
            Way(f"drill {format_length(each, piece.units)}", _redrilled(piece, hole, each))
            for each in nearest
        )
        has = ", ".join(format_length(each, piece.units) for each in sorted(drills_in))
        said = f"a hole of {format_length(across_in, piece.units)}: their drills are {has}"
        yield Clash("drilling", said, (ways,), "have it cut by the die")


def _redrilled(piece: Piece, hole: Outline, across_in: float) -> Piece:
    """Returns a piece with a hole of another width in the same place."""
    drilled = Outline((circle_arc(hole.box.centre, across_in / 2, 0, 360),))
    holes = tuple(drilled if each is hole else each for each in piece.die.shape.holes)
    return replace(piece, die=replace(piece.die, shape=Shape(piece.die.shape.outer, holes)))


def _finishes(piece: Piece, printer: Printer) -> Iterator[Clash[Piece]]:
    rows = printer.rules.finishes
    for finish in piece.finishes if rows else ():
        own = offered(rows, finish)
        fitting = [each for each in own if not each.stocks or piece.stock.name in each.stocks]
        if fitting:
            yield from too_few(finish, fitting[0].terms, piece, f"{finish} is laid")
        elif own:
            names = ", ".join(own[0].stocks)
            said = f"{finish} goes on {names} only, not on {piece.stock.name}"
            ways = (_on(piece, own[0].stocks), _without(piece, finish))
            yield Clash(finish, said, ways, "take one of those")
        else:
            names = ", ".join(dict.fromkeys(each.finish for each in rows))
            said = f"{finish} is not offered; they have {names}"
            yield Clash(finish, said, (_without(piece, finish),))


def _on(piece: Piece, names: Sequence[str]) -> Iterator[Way[Piece]]:
    """Yields a piece on each stock of these names, the nearest in thickness first."""
    found = [stock(name) for name in names]
    for near in sorted(found, key=lambda each: abs(each.caliper_mil - piece.stock.caliper_mil)):
        yield Way(f"take {near.name}", replace(piece, stock=near))


def _without(piece: Piece, finish: str) -> Iterator[Way[Piece]]:
    left = tuple(each for each in piece.finishes if each != finish)
    yield Way(f"leave {finish} out", replace(piece, finishes=left))
