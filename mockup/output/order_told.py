"""An order for a machine: its items, its lines and what was waived, as JSON and as CSV."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from mockup.dies.folding import flat_size
from mockup.ordering.bill import Bill
from mockup.output.proof.words import stock_words
from mockup.record.fingerprint import envelope_name
from mockup.record.finish_facts import edge_said
from mockup.record.status import Standing
from mockup.suite.suite import Envelope, Piece, Suite
from mockup.units import format_size

CAUTION = "Reckoned from a catalogue: the printer's own quotation has the last word."
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")  # what spreadsheets take for a formula


@dataclass(frozen=True)
class OrderTold:
    """All an order sheet says: the suite, its day, how its items stand, the bill of every printer
    asked, the files of each item, and a line for everything waived or open."""

    suite: Suite
    date: str
    standings: tuple[Standing, ...]
    bills: tuple[Bill, ...]
    files: tuple[tuple[str, str], ...] = ()
    against: tuple[tuple[str, tuple[str, ...]], ...] = ()
    """Under a heading, the lines: what was ordered anyway, or what does not go at each printer."""


def item_rows(told: OrderTold) -> list[dict[str, str]]:
    """Returns a row for every piece and envelope, each cell in words."""
    suite, run = told.suite, told.bills[0].run if len(told.bills) == 1 else None
    rows = [
        {
            "item": piece.name,
            "title": piece.title,
            "size": _size(piece),
            "die": piece.die.name,
            "stock": f"{piece.stock.name}: {stock_words(piece.stock, piece.units)}",
            "quantity": str(piece.quantity or ""),
            "run": str((run and run(piece.quantity)) or ""),
            "finish": ", ".join(finishes_ordered(piece)) or "none",
            "sides": "one side" if piece.back is None else "both sides",
            "liner": "",
        }
        for piece in suite.pieces
    ]
    rows += [
        {
            "item": envelope_name(each),
            "title": each.title,
            "size": format_size(each.spec.width_in, each.spec.height_in, each.units),
            "die": f"{each.spec.flap} flap, {each.size.name}",
            "stock": f"{each.stock.name}, colour {each.colour_name}",
            "quantity": str(each.quantity or ""),
            "run": str((run and run(each.quantity)) or ""),
            "finish": "",
            "sides": _printed_told(each),
            "liner": f"lined with {each.liner.stock.name}" if each.liner else "unlined",
        }
        for each in suite.envelopes
    ]
    return [{**row, **_stands(told, row["item"])} for row in rows]


def _printed_told(envelope: Envelope) -> str:
    sides = " and ".join(f"the {side}" for side, _ in envelope.outside.arts)
    return f"printed on {sides}" if sides else ""


def _size(piece: Piece) -> str:
    """Returns a card's size; of a folded one that of its flat sheet, and what it is folded to; of a
    band that of its strip, and what it goes round."""
    closed = format_size(piece.die.width_in, piece.die.height_in, piece.units)
    if piece.wraps is not None:
        return f"{closed} flat, a band round {', '.join(piece.wraps.cards)}"
    if piece.fold is None:
        return closed
    flat = flat_size(piece.die.width_in, piece.die.height_in, piece.fold)
    told = format_size(*flat, piece.units)
    return f"{told} flat, folded at the {piece.fold} to {closed}"


def finishes_ordered(piece: Piece) -> list[str]:
    """Returns what a piece has beside ink, foil with its metals, and how its edges are made."""
    art = (*piece.art.finishing, *(piece.back.finishing if piece.back else ()))
    told: list[str] = []
    for what in piece.finishes:
        metals = dict.fromkeys(each.metal for each in art if each.finish == what and each.metal)
        named = f" ({', '.join(metal.replace('-', ' ') for metal in metals)})" if metals else ""
        told.append(f"{what}{named}")
    if piece.edge is not None:
        told.append(f"{edge_said(piece.edge).replace('-', ' ')} edges")
    if piece.torn:
        told.append("torn: " + " ".join(piece.torn))
    return told


def _stands(told: OrderTold, name: str) -> dict[str, str]:
    standing = next(each for each in told.standings if each.item.name == name)
    yes = standing.state == "approved"
    approved = f"revision {standing.revision}, {standing.date}, {standing.by}" if yes else "no yes"
    files = ", ".join(file for item, file in told.files if item == name)
    return {
        "fingerprint": standing.item.fingerprint.short,
        "approved": approved,
        "files": files,
    }


def order_json(told: OrderTold) -> dict[str, Any]:
    """Returns the whole order; amounts are texts, exact."""
    return {
        "title": told.suite.title,
        "date": told.date,
        "items": item_rows(told),
        "printers": [_bill_json(each) for each in told.bills],
        "against": [{"of": of, "lines": list(lines)} for of, lines in told.against],
        "caution": CAUTION,
    }


def _bill_json(bill: Bill) -> dict[str, Any]:
    return {
        "printer": bill.printer,
        "currency": bill.currency,
        "overs_percent": str(bill.overs_percent),
        "lines": [
            {
                "item": each.item,
                "what": each.what,
                "quantity": each.quantity,
                "each": each.terms and str(each.terms.each),
                "setup": each.terms and str(each.terms.setup),
                "tool": each.terms and str(each.terms.tool),
                "minimum": each.terms and each.terms.minimum,
                "amount": None if each.amount is None else str(each.amount),
                "note": each.note,
            }
            for each in bill.lines
        ],
        "total": str(bill.total),
        "all_priced": bill.whole,
    }


def order_json_text(told: OrderTold) -> str:
    """Returns the order as a JSON document."""
    return json.dumps(order_json(told), indent=2) + "\n"


def order_csv(told: OrderTold) -> str:
    """Returns the order as CSV (RFC 4180): items, then price lines, then what stands against it.

    A cell that a spreadsheet would take for a formula begins with an apostrophe.
    """
    out = io.StringIO()
    writer = csv.writer(out)
    rows = item_rows(told)
    writer.writerow(rows[0])
    writer.writerows([safe_cells(list(row.values())) for row in rows])
    for bill in told.bills:
        writer.writerow([])
        heads = ("item", "line", "quantity", "amount", "currency", "note")
        writer.writerow(safe_cells(["printer", bill.printer]))
        writer.writerow(heads)
        for line in bill.lines:
            amount = "" if line.amount is None else str(line.amount)
            cells = [line.item, line.what, str(line.quantity or ""), amount]
            writer.writerow(safe_cells([*cells, bill.currency, line.note]))
        writer.writerow(["", "total", "", str(bill.total), bill.currency, CAUTION])
    for of, lines in told.against:
        writer.writerow([])
        writer.writerows(safe_cells([of, line]) for line in lines)
    return out.getvalue()


def safe_cells(cells: Sequence[str]) -> list[str]:
    """Returns cells none of which a spreadsheet takes for a formula."""
    return [f"'{each}" if each.startswith(_FORMULA) else each for each in cells]
