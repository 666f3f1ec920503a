"""Dies asked for: which there are, who cuts them at which sizes, and who has a suite's own."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from mockup.asks.catalogue_inputs import inputs_of_catalogues
from mockup.asks.opening import Writing, open_suite
from mockup.asks.values import (
    PathGiven,
    choice_of,
    path_or_none,
    text_or_none,
    texts_of,
)
from mockup.dies.family import Die
from mockup.errors import Mistake, RequestError, both
from mockup.output.destination import PDF, Destination, refuse_inputs, refuse_unfit
from mockup.output.dies_sheet import write_dies_sheet
from mockup.output.proof.grid import PAPERS_IN
from mockup.printers.answers import sheet_about, size_of
from mockup.printers.catalogue import Printer, find_printers
from mockup.printers.choosing import offers_of
from mockup.printers.listing import Listed, listed
from mockup.progress import Progress
from mockup.suite.audience import Audience
from mockup.suite.suite import Suite
from mockup.trade.sizes import ISO_216, card_size
from mockup.units import Unit, format_length

SIDE_MIN_IN, SIDE_MAX_IN = 0.5, 60.0  # judgement: a tag, and more than any sheet that is die cut


@dataclass(frozen=True)
class DiesRequest:
    """Dies to be listed.

    suite: a suite file, to be told who has the dies of its pieces. card: only dies at this size,
    `"A7"` or `"5 x 7 in"`; without a unit it is in the suite's, else inches. printers: only these
    printers' dies, none for all. catalogues: a folder of catalogues, None for `printers` beside the
    suite or in the working folder. sheet: a .pdf to draw them into at true size, a suite's own
    where one is named, on `paper`, "letter" or "a4".
    """

    suite: PathGiven | None = None
    card: str | None = None
    printers: Iterable[str] = ()
    catalogues: PathGiven | None = None
    sheet: PathGiven | None = None
    paper: str = "letter"


@dataclass(frozen=True)
class DiesAnswer:
    """The dies listed, the printers asked, a suite's (piece, die) pairs, the sheet, its pages, and
    what lengths are told in."""

    dies: tuple[Listed, ...]
    printers: tuple[Printer, ...]
    pieces: tuple[tuple[str, Die], ...] | None
    sheet: Path | None
    pages: int
    units: Unit = "in"


def list_dies(request: DiesRequest, progress: Progress | None = None) -> DiesAnswer:
    """Returns the dies there are, and writes a sheet of them where one is asked.

    Raises RequestError, SuiteError, InputError, OutputError.
    """
    path, sheet = path_or_none("suite", request.suite), path_or_none("sheet", request.sheet)
    paper = choice_of("paper", request.paper, tuple(PAPERS_IN))
    card = text_or_none("card", request.card)
    if path is None and card is not None:
        _sound(card, "in")  # told before the work
    names = texts_of("printers", request.printers)
    folder = path_or_none("catalogues", request.catalogues)
    wanted = [Destination(sheet, "sheet of dies", PDF)] if sheet else []
    read = inputs_of_catalogues(folder, path)
    suite, printers = both(
        lambda: None if path is None else _opened(path, wanted, read),
        lambda: find_printers(folder, names, path),
    )
    units = _units(card) if suite is None else suite.units
    size = None if card is None else _sound(card, "in" if suite is None else units)
    refuse_unfit(wanted)
    refuse_inputs(wanted, read)
    rows = listed(printers, size, only_offered=bool(names))
    pages = 0
    if sheet is not None:
        shown, about = rows, sheet_about(card, size, units)
        if suite is not None:
            shown, about = _of_suite(suite, printers), f"The dies of {suite.title}"
        pages = write_dies_sheet(sheet, shown, about, paper, units)
    if progress is not None:
        progress(1.0)
    pieces = suite and tuple((piece.name, piece.die) for piece in suite.pieces)
    return DiesAnswer(tuple(rows), printers, pieces, sheet, pages, units)


def _units(card: str | None) -> Unit:
    """Returns what a card without a suite is told in: what its size says, or who names it so."""
    if card is None:
        return "in"
    is_metric = card.lower().strip().endswith(("mm", "cm")) or card_size(card).source == ISO_216
    return "mm" if is_metric else "in"


def _opened(path: Path, wanted: Sequence[Destination], read: Sequence[Path]) -> Suite:
    # No art is drawn: the outlines are the studio's and the client's alike.
    writing = Writing(lambda suite: wanted, also_read=tuple(read))
    return open_suite(path, Audience.STUDIO, writing).suite


def _of_suite(suite: Suite, printers: Sequence[Printer]) -> list[Listed]:
    return [
        Listed(
            f"{piece.title}: {piece.die.name}",
            piece.die.name,
            piece.die.parameters,
            piece.die,
            tuple(offers_of(printers, piece.die, piece.stock.caliper_mil)),
        )
        for piece in suite.pieces
    ]


def _sound(card: str, units: Unit) -> tuple[float, float]:
    size_in = size_of(card, units)
    if not all(SIDE_MIN_IN <= side <= SIDE_MAX_IN for side in size_in):
        bounds = f"{format_length(SIDE_MIN_IN, units)} to {format_length(SIDE_MAX_IN, units)}"
        told = f'"{card}" is no size a die is made at; its sides are {bounds}'
        raise RequestError(Mistake(told, "", "card", card))
    return size_in
