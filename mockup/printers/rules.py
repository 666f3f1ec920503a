"""What a printer offers beside dies, and what does not go together there.

overs = 3                       # in a hundred: run beyond the quantity, within the prices

[[stocks]]                      # printed on it; left out, nothing is said of stocks
stock = "cotton-110-white"
each = 1.10
setup = 40.00
minimum = 25
cards = ["A7", "A6"]            # left out, every size

[[finishes]]
finish = "foil"                 # white, foil, varnish, letterpress, deboss or emboss
stocks = ["cotton-110-white"]   # left out, every stock
each = 0.40
setup = 60.00
minimum = 50

[[envelopes]]
size = "A7"
flaps = ["pointed"]             # left out, every flap
colours = ["white", "#22385a"]  # left out, every colour
each = 0.48
liner = 0.65                    # put in, each; left out, they put in none

[drilling]                      # a hole in the card
each = 0.06
not_with = ["ticket-corner"]
drills = ["1/8 in", "1/4 in"]   # left out, nothing is said of sizes

[[never]]                       # what they do not do
dies = ["lancet-arch"]          # left out, any die
stocks = ["kraft-100"]          # or: over_mil = 20

A row with a minimum may say `step = 25` too: ordered in 25, 50, 75. `[printing]` is in `printing`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Annotated, Any

from pydantic import Field, Strict

from mockup.dies.families import FAMILIES
from mockup.envelopes.spec import Flap
from mockup.errors import Mistake, MockupError, nearest, quoted
from mockup.printers.cells import Minimum, Name, Price, Share, Table, Thickness
from mockup.printers.prices import Terms
from mockup.printers.printing import (
    WHATEVER_COMES,
    Printing,
    PrintingTable,
    printing_mistakes,
    printing_of,
)
from mockup.tables.wording import key_path
from mockup.trade.finishes import Finish, is_kin
from mockup.trade.papers import Stock, paper_colour, stock
from mockup.trade.sizes import CardSize, EnvelopeSize, card_size, envelope_size
from mockup.units import Unit, parse_length

Names = Annotated[tuple[Name, ...], Strict(False), Field(max_length=200)]


class _Priced(Table):
    each: Price
    setup: Price = Decimal(0)
    minimum: Minimum = 1
    step: Minimum = 1

    @property
    def terms(self) -> Terms:
        return Terms(self.each, self.setup, Decimal(0), self.minimum, self.step)


class StockTable(_Priced):
    """`[[stocks]]`."""

    stock: Name
    cards: Names = ()


class FinishTable(_Priced):
    """`[[finishes]]`."""

    finish: Finish
    stocks: Names = ()


class EnvelopeTable(_Priced):
    """`[[envelopes]]`."""

    size: Name
    flaps: Annotated[tuple[Flap, ...], Strict(False), Field(max_length=20)] = ()
    colours: Names = ()
    liner: Price | None = None


class DrillingTable(_Priced):
    """`[drilling]`."""

    not_with: Names = ()
    drills: Names = ()


class NeverTable(Table):
    """`[[never]]`."""

    dies: Names = ()
    stocks: Names = ()
    over_mil: Thickness | None = None


class RulesTables(Table):
    """The tables of a catalogue that are of rules."""

    overs: Share = Decimal(0)
    stocks: Annotated[tuple[StockTable, ...], Strict(False), Field(max_length=500)] = ()
    finishes: Annotated[tuple[FinishTable, ...], Strict(False), Field(max_length=50)] = ()
    envelopes: Annotated[tuple[EnvelopeTable, ...], Strict(False), Field(max_length=500)] = ()
    drilling: DrillingTable | None = None
    never: Annotated[tuple[NeverTable, ...], Strict(False), Field(max_length=200)] = ()
    printing: PrintingTable = PrintingTable()


@dataclass(frozen=True)
class StockOffer:
    """A stock they print on, and the cards they print on it, none where every size goes."""

    stock: Stock
    cards: tuple[CardSize, ...]
    terms: Terms


@dataclass(frozen=True)
class FinishOffer:
    """A finish, and the names of the stocks it goes on, none where it goes on all."""

    finish: Finish
    stocks: tuple[str, ...]
    terms: Terms


@dataclass(frozen=True)
class EnvelopeOffer:
    """An envelope: its flaps and its colours (names, `#rrggbb`), none where all go; what putting a
    liner in costs, None where they put none in."""

    size: EnvelopeSize
    flaps: tuple[str, ...]
    colours: tuple[str, ...]
    liner: Decimal | None
    terms: Terms


@dataclass(frozen=True)
class Drilling:
    """A hole in the card, the dies that they do not drill, and how wide their drills are, inches:
    none where they do not say."""

    terms: Terms
    not_with: tuple[str, ...]
    drills_in: tuple[float, ...] = ()


@dataclass(frozen=True)
class Never:
    """What they do not do: these dies (none: any) on these stocks, or on thicker ones."""

    dies: tuple[str, ...]
    stocks: tuple[str, ...]
    over_mil: float | None


@dataclass(frozen=True)
class Rules:
    """All that a catalogue says beside dies; what is empty, it says nothing of."""

    overs_percent: Decimal = Decimal(0)
    stocks: tuple[StockOffer, ...] = ()
    finishes: tuple[FinishOffer, ...] = ()
    envelopes: tuple[EnvelopeOffer, ...] = ()
    drilling: Drilling | None = None
    never: tuple[Never, ...] = ()
    printing: Printing = WHATEVER_COMES


NO_RULES = Rules()


def offered(rows: Sequence[FinishOffer], finish: Finish) -> list[FinishOffer]:
    """Returns the rows of a finish; where it has none, those of the other way of embossing."""
    own = [each for each in rows if each.finish == finish]
    return own or [each for each in rows if is_kin(each.finish, finish)]


def rules_of(table: RulesTables, units: Unit) -> Rules:
    """Returns the rules of tables without mistakes."""
    given = table.drilling
    drilling = given and Drilling(
        given.terms, given.not_with, tuple(parse_length(each, units) for each in given.drills)
    )
    return Rules(
        table.overs,
        tuple(
            StockOffer(stock(row.stock), tuple(card_size(c, units) for c in row.cards), row.terms)
            for row in table.stocks
        ),
        tuple(FinishOffer(row.finish, row.stocks, row.terms) for row in table.finishes),
        tuple(
            EnvelopeOffer(
                *(envelope_size(row.size, units), row.flaps, row.colours, row.liner), row.terms
            )
            for row in table.envelopes
        ),
        drilling,
        tuple(
            Never(row.dies, row.stocks, None if row.over_mil is None else float(row.over_mil))
            for row in table.never
        ),
        printing_of(table.printing),
    )


def rules_mistakes(file: str, table: RulesTables, units: Unit) -> list[Mistake]:
    """Returns what is wrong with rules beyond their form: names of nothing, rules that say
    nothing."""
    told = printing_mistakes(file, table.printing)
    for key, name, read in _named(table, units):
        try:
            read(name)
        except MockupError as error:
            told.append(Mistake(error.mistakes[0].sentence, file, key_path(key), name))
    for number, row in enumerate(table.never):
        if not row.stocks and row.over_mil is None:
            said = "rules nothing out; write stocks, or over_mil"
            told.append(Mistake(said, file, key_path(("never", number))))
    return told


_Read = tuple[tuple[str | int, ...], str, Callable[[str], object]]


def _named(table: RulesTables, units: Unit) -> Iterator[_Read]:
    """Yields every name: its key, itself, and what reads it."""
    yield from _offered(table, units)
    for name in table.drilling.not_with if table.drilling else ():
        yield ("drilling", "not_with"), name, _family
    for name in table.drilling.drills if table.drilling else ():
        yield ("drilling", "drills"), name, lambda text: parse_length(text, units)
    for number, row in enumerate(table.never):
        for name in row.dies:
            yield ("never", number, "dies"), name, _family
        for name in row.stocks:
            yield ("never", number, "stocks"), name, stock


def _offered(table: RulesTables, units: Unit) -> Iterator[_Read]:
    for number, row in enumerate(table.stocks):
        yield ("stocks", number, "stock"), row.stock, stock
        for name in row.cards:
            yield ("stocks", number, "cards"), name, lambda text: card_size(text, units)
    for number, row in enumerate(table.finishes):
        for name in row.stocks:
            yield ("finishes", number, "stocks"), name, stock
    for number, row in enumerate(table.envelopes):
        yield ("envelopes", number, "size"), row.size, lambda text: envelope_size(text, units)
        for name in row.colours:
            yield ("envelopes", number, "colours"), name, paper_colour


def _family(name: str) -> Any:
    if name not in FAMILIES:
        raise MockupError(f"no die called {quoted(name)}{nearest(name, FAMILIES)}")
    return FAMILIES[name]
