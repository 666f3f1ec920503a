"""The stocks that a printer has for a piece instead of its own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from mockup.ordering.clashes import Way
from mockup.printers.catalogue import Printer
from mockup.printers.choosing import same_size
from mockup.printers.rules import StockOffer
from mockup.suite.suite import Piece
from mockup.units import format_caliper


def at_size(row: StockOffer, piece: Piece) -> bool:
    """Returns whether a stock is printed at a piece's size."""
    return not row.cards or any(
        same_size(piece.die, card.width_in, card.height_in) for card in row.cards
    )


def stock_ways(
    piece: Piece, printer: Printer, said: str, most_mil: float | None = None
) -> Iterator[Way[Piece]]:
    """Yields a piece on each stock they have for it, the nearest in thickness first, thinner before
    thicker; none thicker than a most. `said` has places for the
    stock and its thickness."""
    mil = piece.stock.caliper_mil
    found = [
        each.stock
        for each in printer.rules.stocks
        if at_size(each, piece)
        and each.stock.name != piece.stock.name
        and (most_mil is None or each.stock.caliper_mil <= most_mil)
    ]
    for near in sorted(
        found, key=lambda each: (each.caliper_mil > mil, abs(each.caliper_mil - mil))
    ):
        told = said.format(near.name, format_caliper(near.caliper_mil, piece.units))
        yield Way(told, replace(piece, stock=near))
