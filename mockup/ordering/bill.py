"""What an order costs by a printer's catalogue: lines, and what the catalogue does not price."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal

from mockup.ordering.contradictions import UNCUT, drilled
from mockup.ordering.envelope_rules import envelope_row
from mockup.printers.catalogue import Printer
from mockup.printers.choosing import cuts, offers_of
from mockup.printers.prices import Terms, break_even, run_cost, to_coin
from mockup.printers.rules import offered
from mockup.suite.suite import Envelope, Piece, Suite

NOT_PRICED = "not in the catalogue"
TOOL_USUAL = (
    "A die made to order commonly costs 150 to 400 for its tool (common practice, no source)"
)


@dataclass(frozen=True)
class Line:
    """One line of a bill: of which piece, what, how many, by which terms, and what it comes to;
    terms and amount are None where the catalogue does not say. `note` is beside it."""

    item: str
    what: str
    quantity: int | None
    terms: Terms | None
    amount: Decimal | None
    note: str = ""


@dataclass(frozen=True)
class Bill:
    """An order's lines at one printer, and the sum of those that are priced, to the coin."""

    printer: str
    currency: str
    lines: tuple[Line, ...]
    overs_percent: Decimal

    @property
    def total(self) -> Decimal:
        """The sum of what is priced."""
        return sum((each.amount for each in self.lines if each.amount is not None), Decimal(0))

    @property
    def whole(self) -> bool:
        """Whether every line is priced."""
        return all(each.amount is not None for each in self.lines)

    def run(self, quantity: int | None) -> int | None:
        """Returns how many are run of a quantity, overs with them."""
        if quantity is None:
            return None
        run = quantity * (1 + self.overs_percent / 100)
        return int(run.to_integral_value(ROUND_CEILING))


def bill_of(suite: Suite, printer: Printer) -> Bill:
    """Returns what a suite costs at a printer."""
    lines = [line for piece in suite.pieces for line in _piece(piece, printer)]
    lines += [line for each in suite.envelopes for line in _envelope(each, printer)]
    return Bill(printer.name, printer.currency, tuple(lines), printer.rules.overs_percent)


def _line(
    item: Piece | Envelope, what: str, terms: Terms | None, currency: str, note: str = ""
) -> Line:
    quantity = item.quantity
    amount = None
    if terms is not None and quantity is not None:
        amount = to_coin(run_cost(terms, quantity), currency)
    return Line(item.name, what, quantity, terms, amount, note or ("" if terms else NOT_PRICED))


def _piece(piece: Piece, printer: Printer) -> Iterator[Line]:
    rules, currency = printer.rules, printer.currency
    stock = next((s.terms for s in rules.stocks if s.stock.name == piece.stock.name), None)
    yield _line(piece, f"printed on {piece.stock.name}", stock, currency)
    if piece.die.name != UNCUT:
        yield _cut(piece, printer)
    if drilled(piece):
        yield _line(piece, "drilled", rules.drilling and rules.drilling.terms, currency)
    for finish in piece.finishes:
        rows = offered(rules.finishes, finish)
        yield _line(piece, finish, rows[0].terms if rows else None, currency)


def _cut(piece: Piece, printer: Printer) -> Line:
    """Returns the line of a die: of the stock one, where there is one that cuts, else made."""
    custom = printer.custom
    offers = offers_of([printer], piece.die, piece.stock.caliper_mil)
    if offers:
        note = TOOL_USUAL
        if custom is not None and cuts(custom, piece.stock.caliper_mil):
            pays = break_even(custom.terms, offers[0].terms)
            note = f"a die made for you pays from {pays:,} on" if pays else "a die made never pays"
        name = f"{piece.die.name}, stock die at {offers[0].card.name}"
        return _line(piece, name, offers[0].terms, printer.currency, note)
    known = custom is not None and cuts(custom, piece.stock.caliper_mil)
    terms = custom.terms if custom is not None and known else None
    note = "the tool is made once" if terms else f"{NOT_PRICED}. {TOOL_USUAL}"
    if terms and offers_of([printer], piece.die):
        note = f"their {piece.die.name} does not cut stock so thick; {note}"
    return _line(piece, f"{piece.die.name}, die made to order", terms, printer.currency, note)


def _envelope(envelope: Envelope, printer: Printer) -> Iterator[Line]:
    row = envelope_row(envelope, printer)
    currency = printer.currency
    yield _line(envelope, f"envelope {envelope.size.name}", row and row.terms, currency)
    if envelope.liner is not None:
        lining = None if row is None or row.liner is None else Terms(row.liner)
        yield _line(envelope, "liner put in", lining, currency)
