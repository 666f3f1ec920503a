"""What several printers ask for one suite, a column each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from mockup.ordering.bill import Bill, Line
from mockup.printers.prices import paid

NOT_PRICED = "not priced"


@dataclass(frozen=True)
class Row:
    """One row: of which piece, what, and a cell a printer; `under` the row before, in small."""

    item: str
    what: str
    cells: tuple[str, ...]
    under: bool = False


def side_by_side(bills: Sequence[Bill]) -> list[Row]:
    """Returns the lines of bills beside each other, of a die how it is cut and from how many on a
    die of one's own pays, and the totals at the end."""
    named = [{(line.item, line.work): line for line in bill.lines} for bill in bills]
    rows: list[Row] = []
    for key in dict.fromkeys(key for lines in named for key in lines):
        rows += _rows([lines.get(key) for lines in named], bills)
    totals = tuple(_total(bill) for bill in bills)
    rows.append(Row("", "total", totals))
    if not all(bill.whole for bill in bills):
        missing = ("" if bill.whole else "of what is priced" for bill in bills)
        rows.append(Row("", "", tuple(missing), under=True))
    return rows


def _rows(lines: Sequence[Line | None], bills: Sequence[Bill]) -> Iterator[Row]:
    known = next(line for line in lines if line is not None)
    amounts = (
        "" if line is None else _amount(line, bill) for line, bill in zip(lines, bills, strict=True)
    )
    yield Row(known.item, known.what.partition(", ")[0], tuple(amounts))
    ways = [line.way if line is not None else None for line in lines]
    if any(ways):
        yield Row("", "how", tuple(way.how if way else "" for way in ways), under=True)
    if any(way and way.pays for way in ways):
        pays = tuple(way.pays if way else "" for way in ways)
        yield Row("", "a die of your own pays", pays, under=True)


def _amount(line: Line, bill: Bill) -> str:
    return NOT_PRICED if line.amount is None else paid(line.amount, bill.currency)


def _total(bill: Bill) -> str:
    return paid(bill.total, bill.currency)
