"""What is said of an option: for the client its name, for the studio its cost and its clearance."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from mockup.checks.clearing import Clearing, largest_clear
from mockup.dies.family import Die
from mockup.dies.features import cutting_notes, features
from mockup.output.proof.words import die_name
from mockup.printers.catalogue import HOW_TO_ADD, Offer
from mockup.printers.choosing import same_die
from mockup.printers.options import UNCUT, Option
from mockup.printers.prices import break_even, cost_each, money, run_cost
from mockup.reading.page_facts import PageFacts
from mockup.reading.part import densified
from mockup.suite.suite import Piece
from mockup.trade.tolerances import SAFE
from mockup.units import Unit, format_length

PRESENT = "the present shape"
QUANTITY = 100  # where the suite names none


NO_CATALOGUE = "No printer has been asked yet which of these dies are in stock"


@dataclass(frozen=True)
class Caption:
    """An option's name, and the lines under it."""

    name: str
    lines: tuple[str, ...] = ()


def is_present(piece: Piece, option: Option) -> bool:
    """Returns whether an option is the die the piece has now."""
    return option.die.name == piece.die.name and same_die(option.die, piece.die)


def client_captions(piece: Piece, options: Sequence[Option]) -> list[Caption]:
    """Returns the names, and which of them is the present one."""
    return [Caption(die_name(option.die), _present_line(piece, option)) for option in options]


def studio_captions(
    piece: Piece, options: Sequence[Option], page: PageFacts, stocked: bool
) -> list[Caption]:
    """Returns each option's name with its price, what it costs for the quantity, its clearance.

    `page` is the piece's page as read for the checks; without a catalogue (`stocked`) no cost is
    told.
    """
    quantity = piece.quantity or QUANTITY
    against = _reference(piece, options)
    return [
        Caption(
            die_name(option.die),
            (
                *_present_line(piece, option),
                *(_cost_lines(option, quantity, against) if stocked else ()),
                *_fit_lines(page, option, piece.units),
            ),
        )
        for option in options
    ]


def cost_lines(piece: Piece, option: Option, options: Sequence[Option]) -> tuple[str, ...]:
    """Returns what a piece's quantity costs in one of its options, weighed against the others."""
    quantity = piece.quantity or QUANTITY
    return tuple(_cost_lines(option, quantity, _reference(piece, options)))


def type_clearance(page: PageFacts, die: Die) -> float | None:
    """Returns how far type would lie from a die's cut, inches, negative over it; None without."""
    rings = [
        densified(part.ring)
        for k, part in enumerate(page.parts.all)
        if part.is_type or k in page.parts.lettered
    ]
    if page.misfit is not None or not rings:
        return None
    return float(page.zones_of(die).signed(np.concatenate(rings)).min())


def about_studio(piece: Piece, options: Sequence[Option], stocked: bool) -> str:
    """Returns the line that says what prices and clearances are measured against."""
    safe = (
        "Safe is the largest scale at which type, and marks that stand by themselves, keep "
        f"{format_length(SAFE.value, piece.units)} from the cut."
    )
    if not stocked:
        how = HOW_TO_ADD.replace("`", "")  # marks of the terminal
        return f"{NO_CATALOGUE}; {how}. {safe}"
    quantity = piece.quantity or QUANTITY
    against = _reference(piece, options)
    weighed = (
        f" A die made to order is weighed against {die_name(against.die).lower()} in stock at "
        f"{against.printer}."
        if against
        else ""
    )
    return (
        f"Costs are for {quantity:,}, making ready included, from the catalogues; the printer's "
        f"own quotation goes before them.{weighed} {safe}"
    )


def _present_line(piece: Piece, option: Option) -> tuple[str, ...]:
    return (PRESENT,) if is_present(piece, option) else ()


def _reference(piece: Piece, options: Sequence[Option]) -> Offer | None:
    """Returns the offer custom dies are weighed against: of the piece's own die, else the least.

    A rounded corner is hardly a shape; it counts where nothing else is in stock.
    """
    offers = [option.offer for option in options if option.offer is not None]
    own = [offer for offer in offers if offer.die.name == piece.die.name]
    shaped = [offer for offer in offers if offer.die.name != "rounded-corner"]
    return min(own or shaped or offers, key=lambda offer: offer.terms.each, default=None)


def _cost_lines(option: Option, quantity: int, against: Offer | None) -> list[str]:
    if option.die.name == UNCUT:
        return ["trimmed square, no die"]
    if option.offer is not None:
        offer = option.offer
        least = f", least {offer.terms.minimum:,}" if quantity < offer.terms.minimum else ""
        return [
            offer.printer,
            f"{money(offer.terms.each, offer.currency)} each{least}",
            f"{money(run_cost(offer.terms, quantity), offer.currency)} for {quantity:,}",
        ]
    if option.custom is None:
        return ["no printer here makes it"]
    custom = option.custom
    whole = money(run_cost(custom.terms, quantity), custom.currency)
    tool = f"die {money(custom.terms.tool, custom.currency)}"
    if against is not None and against.currency == custom.currency:
        pays = break_even(custom.terms, against.terms)
        tool += f", pays from {pays:,}" if pays else ", never pays"
    each = f"{cost_each(custom.terms, quantity):,}"
    return [custom.printer, tool, f"{whole} for {quantity:,}, {each} each"]


def _fit_lines(page: PageFacts, option: Option, units: Unit) -> list[str]:
    """Returns how an option fits the art; what must stay clear is judged by the piece's own die."""
    if page.misfit is not None:
        return []
    zones = page.zones_of(option.die)
    lines: list[str] = []
    least = type_clearance(page, option.die)
    if least is not None:
        over = "type runs over by" if least < 0 else "type clears by"
        lines.append(f"{over} {format_length(abs(least), units)}")
    points = page.marks.points
    if len(points):
        allowed = zones.inside(zones.safe_in)
        change = largest_clear(points, allowed, zones.shape.box.centre)
        told = f"safe at {_change_words(change, units)}" if change else "not safe at any scale"
        lines.append(told)
    lines += [note.split(",")[0] for note in cutting_notes(features(option.die.shape), units)]
    return lines


def _change_words(change: Clearing, units: Unit) -> str:
    scale = "100 %" if change.scale >= 1 else f"{change.scale * 100:.1f} %"
    moved = [
        f"{format_length(abs(length), units)} {ahead if length > 0 else back}"
        for length, ahead, back in (
            (change.shift.x, "right", "left"),
            (change.shift.y, "down", "up"),
        )
        if abs(length) > 1e-9
    ]
    return f"{scale}, moved {' and '.join(moved)}" if moved else scale
