"""What a printer's press says against a piece: its stock's thickness, its back, its bleed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from mockup.ordering.clashes import Clash, Way
from mockup.ordering.other_stocks import stock_ways
from mockup.printers.catalogue import Printer
from mockup.suite.suite import Piece
from mockup.units import format_caliper, format_length

_LESS_IN = 0.001  # judgement: a bleed that is a thousandth short is not told


def printing_clashes(piece: Piece, printer: Printer) -> Iterator[Clash[Piece]]:
    """Yields what does not go at a printer before anything is cut."""
    printing, mil = printer.rules.printing, piece.stock.caliper_mil
    if not printing.feeds(mil):
        ends = (
            f"{word} {format_caliper(end, piece.units)}"
            for word, end in (("from", printing.thinnest_mil), ("to", printing.thickest_mil))
            if end is not None
        )
        yield Clash(
            "thickness",
            f"they print on stock {' '.join(ends)}, this is {format_caliper(mil, piece.units)}",
            (stock_ways(piece, printer, "take {} ({})"),),
            "choose another stock",
        )
    if piece.back is not None and not printing.backs:
        without = Way("leave the back out", replace(piece, back=None))
        yield Clash("back", "nothing is printed on a back there", ((without,),))
    asked_in = printer.files.bleed_in
    if asked_in is not None and piece.bleed_in < asked_in - _LESS_IN:
        asked, own = (format_length(each, piece.units) for each in (asked_in, piece.bleed_in))
        more = Way(f"draw it with {asked} of bleed, and say so", replace(piece, bleed_in=asked_in))
        yield Clash("bleed", f"they ask for {asked} of bleed, this has {own}", ((more,),))
