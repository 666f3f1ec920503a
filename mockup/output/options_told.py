"""What a sheet of options shows of a piece: its dies, and what is said of each."""

from __future__ import annotations

from collections.abc import Sequence

from mockup.dies.family import Die
from mockup.output.options_sheet import Sheet
from mockup.output.options_words import (
    NO_CATALOGUE,
    about_studio,
    client_captions,
    studio_captions,
    type_clearance,
)
from mockup.printers.catalogue import Printer
from mockup.printers.options import options_for
from mockup.reading.page import read_facts
from mockup.suite.suite import Piece, Suite


def sheet_of(
    suite: Suite,
    piece: Piece,
    printers: tuple[Printer, ...],
    names: Sequence[str] = (),
    studio: bool = False,
) -> Sheet:
    """Returns the dies a piece could have, those named or those that suit, with what is said of
    them: for the studio prices and clearances too.

    Raises DieError for a die that cannot be, InputError and LimitError for art that cannot be read.
    """
    page = read_facts(piece)

    def suits(die: Die) -> bool:  # nobody has a die made that comes too near the type
        clearance = type_clearance(page, die)
        return clearance is None or clearance >= page.safe_in

    options = options_for(printers, piece.die, piece.stock.caliper_mil, tuple(names), suits)
    stocked = bool(printers)
    if studio:
        captions = studio_captions(piece, options, page, stocked)
        about = about_studio(piece, options, stocked)
    else:
        captions = client_captions(piece, options)
        about = "" if stocked else NO_CATALOGUE
    return Sheet(suite, piece, options, captions, about, studio, stocked)
