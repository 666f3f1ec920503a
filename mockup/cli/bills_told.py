"""What printers ask, told: side by side where the terminal is wide enough, else one by one."""

from __future__ import annotations

import shutil
import textwrap
from collections.abc import Iterable, Sequence

from mockup.cli import console
from mockup.ordering.bill import Bill
from mockup.ordering.side_by_side import side_by_side
from mockup.printers.prices import paid

_HEAD = 20  # letters of a printer's name on a line, before it is broken
_BETWEEN = 2


def say_bills(bills: Sequence[Bill]) -> None:
    """Prints what each printer asks: all lines of several, the sum of one."""
    if len(bills) > 1 and _said_beside(bills):
        return
    for bill in bills:
        word = "total" if bill.whole else "total of what is priced"
        console.say(f"{bill.printer}: {word} {paid(bill.total, bill.currency)}")


def _said_beside(bills: Sequence[Bill]) -> bool:
    """Prints columns, and returns whether they fitted the terminal."""
    rows: list[list[str]] = []
    item = ""
    for row in side_by_side(bills):
        first = row.item if row.item != item else ""
        item = row.item or item
        rows.append([first, f"  {row.what}" if row.under else row.what, *row.cells])
    heads = [textwrap.wrap(console.escaped(bill.printer), _HEAD) for bill in bills]
    cells = list(zip(*(row[2:] for row in rows), strict=True))
    widths = [max(map(len, (*head, *column))) for head, column in zip(heads, cells, strict=True)]
    said = [max(len(row[at]) for row in rows) for at in (0, 1)]
    if sum((*said, *widths)) + _BETWEEN * (len(widths) + 1) > shutil.get_terminal_size().columns:
        return False
    for line in range(max(map(len, heads))):
        own = (head[line] if line < len(head) else "" for head in heads)
        console.say(_line("", "", own, said, widths))
    for first, what, *own in rows:
        console.say(_line(first, what, own, said, widths))
    return True


def _line(
    item: str, what: str, cells: Iterable[str], said: Sequence[int], widths: Sequence[int]
) -> str:
    """Returns a row as it is printed: what is said to the left, amounts to the right."""
    own = (cell.rjust(width) for cell, width in zip(cells, widths, strict=True))
    left = (item.ljust(said[0]), what.ljust(said[1]))
    return (" " * _BETWEEN).join((*left, *own)).rstrip()
