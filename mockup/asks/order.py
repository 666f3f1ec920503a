"""An order asked for: gates, print files as the printer wants them, the sheet, the record."""

from __future__ import annotations

import datetime
import os
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from mockup.asks.catalogue_inputs import inputs_of_catalogues
from mockup.asks.check import usual_settings
from mockup.asks.opening import Writing, open_suite
from mockup.asks.values import (
    PathGiven,
    choice_of,
    date_of,
    path_of,
    path_or_none,
    texts_of,
    yes_or_no,
)
from mockup.checks import running
from mockup.errors import Mistake, RequestError, StoppedError
from mockup.ordering.bill import bill_of
from mockup.ordering.contradictions import contradictions
from mockup.ordering.drafts import refuse_names
from mockup.ordering.gates import stops_told, without_quantity, without_yes
from mockup.output.destination import Destination
from mockup.output.files import made_folder, whole_folder
from mockup.output.order_sheet import write_order_sheet
from mockup.output.order_told import OrderTold, order_csv, order_json_text
from mockup.output.print_files import PrintFile, print_file_doors, print_files
from mockup.printers.catalogue import Printer, find_printers
from mockup.printers.files_asked import BOTH, THE_USUAL, VARIANTS, FilesAsked, variants_of
from mockup.progress import Progress, part
from mockup.record.events import Order, OrderedFile
from mockup.record.fingerprint import envelope_name, fingerprints
from mockup.record.folder import refuse_record
from mockup.record.reading import read_record
from mockup.record.status import Status, status_of
from mockup.record.writing import write_event
from mockup.suite.audience import Audience
from mockup.suite.suite import Suite, all_sides
from mockup.units import Unit

_CHECKED = 0.4  # of the time, about: checked, then written
SHEET, TABLE, MACHINE = "order.pdf", "order.csv", "order.json"


@dataclass(frozen=True)
class OrderRequest:
    """An order to be made, or, of two printers or more, to be compared.

    suite: the suite file. output: the folder to write into, made where it is missing. printers: the
    one whose catalogue says what its files must be, by name or part of it, none for the usual;
    with several, only the comparison is written. catalogues: a folder of catalogues, None for
    `printers` beside the suite or in the working folder. variant: "art-alone", "cut-line" or
    "both", None for the printer's own. outlines: whether type is turned to outlines, None for the
    printer's own. anyway: go on whatever stands against it, and write that down. date: the day it
    bears, None for today.
    """

    suite: PathGiven
    output: PathGiven
    printers: Iterable[str] = ()
    catalogues: PathGiven | None = None
    variant: str | None = None
    outlines: bool | None = None
    anyway: bool = False
    date: str | datetime.date | None = None


@dataclass(frozen=True)
class OrderAnswer:
    """The files written, piece by piece, then of envelopes (none where printers are compared); what
    the sheet says; whose wishes were followed, None for the usual; what was waived, a line each;
    what lengths are told in."""

    written: tuple[PrintFile, ...]
    told: OrderTold
    printer: str | None
    anyway: tuple[str, ...] = ()
    units: Unit = "in"


def order_suite(request: OrderRequest, progress: Progress | None = None) -> OrderAnswer:
    """Writes the print files of a suite and the order sheet, all or none, and records the order.

    Raises StoppedError with a line for everything that stands against the order; RequestError,
    SuiteError, InputError, LimitError, OutputError; RefusedError where a file, read again, is not
    what it was to be.
    """
    path, folder = path_of("suite", request.suite), path_of("output", request.output)
    catalogues = path_or_none("catalogues", request.catalogues)
    anyway, day = yes_or_no("anyway", request.anyway), date_of("date", request.date)
    printers = _printers(request, catalogues, path)
    printer = printers[0] if len(printers) == 1 else None
    asked = _asked(request, printer)
    compared = len(printers) > 1
    also_read = tuple(inputs_of_catalogues(catalogues, path)) if printers else ()
    opened = open_suite(
        path,
        Audience.STUDIO,  # what a printer is not given is found piece by piece, and listed
        Writing(lambda suite: _doors(suite, folder, asked, compared), folder, also_read),
    )
    suite = opened.suite
    if not compared:
        refuse_record(suite.path)
    record = read_record(suite.path)
    items = fingerprints(suite)
    status = status_of(items, record)
    told = OrderTold(suite, day, status.standings, tuple(bill_of(suite, p) for p in printers))
    if compared:
        return _compared(told, printers, folder)
    against = _against(suite, status, printers, progress)
    if against and not anyway:
        raise StoppedError(*against)
    if against:
        told = replace(told, against=(("Ordered anyway", tuple(against)),))

    def with_them(beside: Path, files: Sequence[PrintFile]) -> None:
        named = tuple((_item_name(suite, each), each.path.name) for each in files)
        _write_sheets(beside, replace(told, files=named))

    written = print_files(suite, folder, asked, part(progress, _CHECKED, 1.0), with_them)
    files = tuple(_ordered(suite, each) for each in written)
    told = replace(told, files=tuple((each.name, Path(each.file).name) for each in files))
    name = printer.name if printer else ""
    write_event(record, Order(day, name, files, items, tuple(against)))
    return OrderAnswer(written, told, printer and printer.name, tuple(against), suite.units)


def _compared(told: OrderTold, printers: Sequence[Printer], folder: Path) -> OrderAnswer:
    """Writes what printers ask for one suite; nothing is ordered."""
    suite = told.suite
    rows = tuple((f"At {p.name}", tuple(contradictions(suite, p))) for p in printers)
    told = replace(told, against=tuple(row for row in rows if row[1]))
    with made_folder(folder), whole_folder(folder) as beside:
        _write_sheets(beside, told)
    return OrderAnswer((), told, None, (), suite.units)


def _doors(suite: Suite, folder: Path, asked: FilesAsked, compared: bool) -> list[Destination]:
    files = [] if compared else print_file_doors(suite, folder, asked)
    sheets = ((SHEET, ".pdf"), (TABLE, ".csv"), (MACHINE, ".json"))
    return [*files, *(Destination(folder / name, "order sheet", (end,)) for name, end in sheets)]


def _against(
    suite: Suite, status: Status, printers: Sequence[Printer], progress: Progress | None
) -> list[str]:
    """Returns a line for everything that stands against an order."""
    settings = usual_settings(suite)
    findings = running.check_suite(suite, settings, part(progress, 0.0, _CHECKED), printers)
    told = [*stops_told(findings), *without_yes(status), *without_quantity(suite)]
    return [*told, *(line for each in printers for line in contradictions(suite, each))]


def _write_sheets(folder: Path, told: OrderTold) -> None:
    write_order_sheet(folder / SHEET, told)
    (folder / TABLE).write_text(order_csv(told), encoding="utf-8", newline="")
    (folder / MACHINE).write_text(order_json_text(told), encoding="utf-8")


def _item_name(suite: Suite, file: PrintFile) -> str:
    """Returns the name in the record of what a file is of."""
    names = {f"{each.name}-liner": envelope_name(each) for each in suite.envelopes}
    names |= {
        each.side_name(side): envelope_name(each)
        for each in suite.envelopes
        for side, _ in each.outside.arts
    }
    for side in all_sides(suite.pieces):
        names |= dict.fromkeys((side.side_name, *dict(side.finish_pages)), side.name)
    return names[file.piece]


def _ordered(suite: Suite, file: PrintFile) -> OrderedFile:
    """Returns a file as the record has it: by its way from the suite's folder, where it has one."""
    try:
        way = os.path.relpath(file.path.absolute(), suite.path.absolute().parent)
    except ValueError:  # on another drive
        way = file.path.name
    return OrderedFile(Path(way).as_posix(), _item_name(suite, file), file.sha256)


def _printers(request: OrderRequest, catalogues: Path | None, suite: Path) -> tuple[Printer, ...]:
    found: dict[str, Printer] = {}
    for name in texts_of("printers", request.printers):
        first, *others = find_printers(catalogues, [name], suite)
        if others:
            names = ", ".join(each.name for each in (first, *others))
            said = f'"{name}" is in several names ({names}); name one printer'
            raise RequestError(Mistake(said, "", "printer", name))
        found[first.name] = first
    return tuple(found.values())


def _asked(request: OrderRequest, printer: Printer | None) -> FilesAsked:
    asked = THE_USUAL if printer is None else printer.files
    if request.variant is not None:
        word = choice_of("variant", request.variant, (*VARIANTS, BOTH))
        asked = replace(asked, variants=variants_of(word))
    if request.outlines is not None:
        asked = replace(asked, outlined=yes_or_no("outlines", request.outlines))
    refuse_names(asked)
    return asked
