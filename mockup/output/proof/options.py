"""The proof's pages of options, there when asked for: each piece in the dies it could have."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from mockup.colour.plates import Plates
from mockup.output.options_sheet import Sheet, best_grid, draw_options
from mockup.output.options_told import sheet_of
from mockup.output.pdf import Pdf
from mockup.output.proof.grid import PAPERS_IN, TAIL_IN
from mockup.output.proof.plan import Page, Telling
from mockup.printers.catalogue import find_printers


def option_pages(telling: Telling) -> list[Page]:
    """Returns a page a piece, upright as the others are.

    Raises SuiteError for a catalogue with mistakes, InputError and LimitError for art that cannot
    be read.
    """
    suite = telling.suite
    printers = find_printers(None, (), suite.path)
    sheets = (sheet_of(suite, each, printers, (), telling.for_studio) for each in suite.pieces)
    return [_page(replace(each, studio=False, tail_in=TAIL_IN)) for each in sheets]


def _page(sheet: Sheet) -> Page:
    paper = PAPERS_IN[sheet.suite.paper]
    grid = best_grid(sheet, [paper])

    def draw(pdf: Pdf, drawn: Sequence[Plates]) -> None:
        draw_options(pdf, sheet, grid)

    return Page(f"{sheet.piece.title}, options", *paper, draw)
