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
from mockup.trade.sizes import plain_name

NOT_PRICED = "not in the catalogue"
NO_FOLDS = "no catalogue prices a fold, its score, or a sheet twice the card: ask"
NO_HANDWORK = "no catalogue prices what is put together by hand: ask, or allow for the hours"
TOOL_USUAL = (
    "A die made to order commonly costs 150 to 400 for its tool (common practice, no source)"
)


@dataclass(frozen=True)
class Way:
    """How a die is cut: `stock die at A7`; and whether one of one's own pays: `from 200 on`."""

    how: str
    pays: str = ""


@dataclass(frozen=True)
class Line:
    """One line of a bill: of which piece, which work on it and what, how many, by which terms, and
    what it comes to; terms and amount are None where the catalogue does not say. `note` is beside
    it; `way` is of a die."""

    item: str
    work: str
    what: str
    quantity: int | None
    terms: Terms | None
    amount: Decimal | None
    note: str = ""
    way: Way | None = None


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
    item: Piece | Envelope,
    work: str,
    what: str,
    terms: Terms | None,
    currency: str,
    note: str = "",
    way: Way | None = None,
) -> Line:
    quantity = item.quantity
    amount = None
    if terms is not None and quantity is not None:
        amount = to_coin(run_cost(terms, quantity), currency)
    note = note or ("" if terms else NOT_PRICED)
    told = what if way is None else f"{what}, {way.how}"
    return Line(item.name, work, told, quantity, terms, amount, note, way)


def _piece(piece: Piece, printer: Printer) -> Iterator[Line]:
    rules, currency = printer.rules, printer.currency
    stock = next((s.terms for s in rules.stocks if s.stock.name == piece.stock.name), None)
    yield _line(piece, "printing", f"printed on {piece.stock.name}", stock, currency)
    if piece.fold is not None:
        said = f"flat sheet folded at the {piece.fold}"
        yield _line(piece, "folding", said, None, currency, NO_FOLDS)
    if piece.die.name != UNCUT:
        yield _cut(piece, printer)
    if drilled(piece):
        yield _line(piece, "drilling", "drilled", rules.drilling and rules.drilling.terms, currency)
    for work, said in _handwork(piece):
        yield _line(piece, work, said, None, currency, NO_HANDWORK)
    for finish in piece.finishes:
        rows = offered(rules.finishes, finish)
        yield _line(piece, finish, finish, rows[0].terms if rows else None, currency)


def _handwork(piece: Piece) -> Iterator[tuple[str, str]]:
    """Yields what is done to a piece by hand once it is printed and cut: the work, and on what."""
    if piece.wraps is not None:
        yield "wrapping", f"wrapped round {', '.join(piece.wraps.cards)} and glued, by hand"
    if piece.cord is not None:
        yield "cord", "cord put through and tied, by hand"


def _cut(piece: Piece, printer: Printer) -> Line:
    """Returns the line of a die: of the stock one, where there is one that cuts, else made."""
    name, currency, custom = piece.die.name, printer.currency, printer.custom
    makes = custom if custom is not None and cuts(custom, piece.stock.caliper_mil) else None
    offers = offers_of([printer], piece.sides[0].die, piece.stock.caliper_mil)
    if offers:
        note, pays = TOOL_USUAL, ""
        if makes is not None:
            count = break_even(makes.terms, offers[0].terms)
            note = (
                f"a die made for you pays from {count:,} on" if count else "a die made never pays"
            )
            pays = f"from {count:,} on" if count else "never"
        way = Way(f"stock die at {plain_name(offers[0].card.name, piece.units)}", pays)
        return _line(piece, "cutting", name, offers[0].terms, currency, note, way)
    way = Way("die made to order")
    if makes is None:
        note = f"{NOT_PRICED}. {TOOL_USUAL}"
        return _line(piece, "cutting", name, None, currency, note, way)
    note = "the tool is made once"
    if offers_of([printer], piece.sides[0].die):
        note = f"their {name} does not cut stock so thick; {note}"
    return _line(piece, "cutting", name, makes.terms, currency, note, way)


def _envelope(envelope: Envelope, printer: Printer) -> Iterator[Line]:
    row = envelope_row(envelope, printer)
    currency = printer.currency
    yield _line(envelope, "envelope", f"envelope {envelope.size.name}", row and row.terms, currency)
    if envelope.liner is not None:
        lining = None if row is None or row.liner is None else Terms(row.liner)
        yield _line(envelope, "lining", "liner put in", lining, currency)
    for side, _ in envelope.outside.arts:
        said = f"printed on the {side}"
        yield _line(envelope, said, said, None, currency)
