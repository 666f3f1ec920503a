"""An order asked for: the print files of a suite, as its printer wants them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from mockup.asks.inputs import inputs_of_catalogues
from mockup.asks.opening import Writing, open_suite
from mockup.asks.values import PathGiven, choice_of, path_of, path_or_none, text_or_none, yes_or_no
from mockup.errors import Mistake, RequestError
from mockup.ordering.drafts import refuse_names
from mockup.output.print_files import PrintFile, print_file_doors, print_files
from mockup.printers.catalogue import Printer, find_printers
from mockup.printers.files_asked import BOTH, THE_USUAL, VARIANTS, FilesAsked, variants_of
from mockup.progress import Progress
from mockup.suite.audience import Audience
from mockup.units import Unit


@dataclass(frozen=True)
class OrderRequest:
    """Print files to be written.

    suite: the suite file. output: the folder to write into, made where it is missing. printer: the
    one whose catalogue says what its files must be, by name or part of it; None for the usual.
    catalogues: a folder of catalogues, None for `printers` beside the suite or in the working
    folder. variant: "art-alone", "cut-line" or "both", None for the printer's own. outlines:
    whether type is turned to outlines, None for the printer's own.
    """

    suite: PathGiven
    output: PathGiven
    printer: str | None = None
    catalogues: PathGiven | None = None
    variant: str | None = None
    outlines: bool | None = None


@dataclass(frozen=True)
class OrderAnswer:
    """The files written, piece by piece, then the liners; whose wishes were followed, None for the
    usual; what lengths are told in."""

    written: tuple[PrintFile, ...]
    printer: str | None
    units: Unit = "in"


def order_suite(request: OrderRequest, progress: Progress | None = None) -> OrderAnswer:
    """Writes the print files of a suite, all or none, each read again, and returns them.

    Raises RequestError, SuiteError, InputError, LimitError, OutputError; RefusedError where a file,
    read again, is not what it was to be.
    """
    path, folder = path_of("suite", request.suite), path_of("output", request.output)
    catalogues = path_or_none("catalogues", request.catalogues)
    printer = _printer(request, catalogues, path)
    asked = _asked(request, printer)
    also_read = tuple(inputs_of_catalogues(catalogues, path)) if printer else ()
    opened = open_suite(
        path,
        Audience.STUDIO,  # what a printer is not given is found piece by piece, and listed
        Writing(lambda suite: print_file_doors(suite, folder, asked), folder, also_read),
    )
    suite = opened.suite
    written = print_files(suite, folder, asked, progress)
    return OrderAnswer(written, printer and printer.name, suite.units)


def _printer(request: OrderRequest, catalogues: Path | None, suite: Path) -> Printer | None:
    name = text_or_none("printer", request.printer)
    if name is None:
        return None
    first, *others = find_printers(catalogues, [name], suite)
    if others:
        names = ", ".join(each.name for each in (first, *others))
        said = f'"{name}" is in several names ({names}); name one printer'
        raise RequestError(Mistake(said, "", "printer", name))
    return first


def _asked(request: OrderRequest, printer: Printer | None) -> FilesAsked:
    asked = THE_USUAL if printer is None else printer.files
    if request.variant is not None:
        word = choice_of("variant", request.variant, (*VARIANTS, BOTH))
        asked = replace(asked, variants=variants_of(word))
    if request.outlines is not None:
        asked = replace(asked, outlined=yes_or_no("outlines", request.outlines))
    refuse_names(asked)
    return asked
