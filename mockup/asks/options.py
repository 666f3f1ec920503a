"""A piece's options asked for: its own art in the dies it could have, on one sheet."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from mockup.asks.catalogue_inputs import inputs_of_catalogues
from mockup.asks.opening import Writing, open_suite
from mockup.asks.values import (
    PathGiven,
    audience_of,
    path_of,
    path_or_none,
    pixels,
    text_of,
    texts_of,
)
from mockup.dies.family import Value
from mockup.errors import SuiteError, both, nearest
from mockup.output.destination import PICTURE_OR_PDF, Destination
from mockup.output.options_sheet import write_options
from mockup.output.options_told import sheet_of
from mockup.output.options_words import Caption, is_present
from mockup.output.proof.words import sentence
from mockup.printers.catalogue import HOW_TO_ADD, find_printers
from mockup.printers.options import Option
from mockup.progress import Progress
from mockup.suite.audience import Audience
from mockup.suite.suite import Piece, Suite
from mockup.trade.limits import FLATLAY_WIDTH_MAX_PX

WIDTH_MIN_PX = 600  # judgement: narrower, the names under the dies cannot be read


@dataclass(frozen=True)
class OptionsRequest:
    """Options to be shown.

    suite: the suite file. piece: its name there. output: a .png, .jpg or .pdf to write. dies: names
    of dies to show, none for twelve that suit. printers: only these printers' dies, none for all.
    catalogues: a folder of catalogues, None for `printers` beside the suite or in the
    working folder; where there is none, nothing is said of stock.
    width_px: of a picture, 600 to 12000. audience: the studio is also told prices, break-even and
    clearances.
    """

    suite: PathGiven
    piece: str
    output: PathGiven
    dies: Iterable[str] = ()
    printers: Iterable[str] = ()
    catalogues: PathGiven | None = None
    width_px: int = 3300
    audience: Audience | str = Audience.CLIENT


@dataclass(frozen=True)
class ShownOption:
    """One die on the sheet: its number there, its parameters, whether it is in stock (None where no
    catalogue says), whether the piece has it now, its lines."""

    number: int
    die: str
    parameters: tuple[tuple[str, Value], ...]
    in_stock: bool | None
    present: bool
    told: tuple[str, ...]


@dataclass(frozen=True)
class OptionsAnswer:
    """The file written, the scale (1 is true size), what is shown, what of the art is not, how a
    catalogue is added where there is none, and how names with two meanings were taken."""

    written: Path
    scale: float
    options: tuple[ShownOption, ...]
    left_out: tuple[str, ...]
    advice: str = ""
    taken: tuple[str, ...] = ()


def show_options(request: OptionsRequest, progress: Progress | None = None) -> OptionsAnswer:
    """Writes the options of a piece and returns what is shown.

    Raises RequestError, SuiteError for an unknown piece or catalogue, DieError for a die that
    cannot be, InputError, LimitError, OutputError.
    """
    path, output = path_of("suite", request.suite), path_of("output", request.output)
    name, names = text_of("piece", request.piece), texts_of("dies", request.dies)
    width_px = pixels("width_px", request.width_px, WIDTH_MIN_PX, FLATLAY_WIDTH_MAX_PX)
    audience = audience_of(request.audience)
    folder = path_or_none("catalogues", request.catalogues)
    destination = Destination(output, "sheet of options", PICTURE_OR_PDF)
    also_read = tuple(inputs_of_catalogues(folder, path))
    writing = Writing(lambda suite: [destination], also_read=also_read)
    only = texts_of("printers", request.printers)
    opened, printers = both(
        lambda: open_suite(path, audience, writing), lambda: find_printers(folder, only, path)
    )
    suite, piece = opened.suite, _piece(opened.suite, name)
    stocked = bool(printers)
    sheet = sheet_of(suite, piece, printers, names, audience is Audience.STUDIO)
    grid = write_options(output, sheet, width_px)
    if progress is not None:
        progress(1.0)
    shown = _shown(piece, sheet.options, sheet.captions, stocked)
    advice = "" if stocked else sentence(HOW_TO_ADD)
    return OptionsAnswer(output, grid.scale, shown, opened.left_out, advice, opened.taken)


def _shown(
    piece: Piece, options: Sequence[Option], captions: Sequence[Caption], stocked: bool
) -> tuple[ShownOption, ...]:
    pairs = enumerate(zip(options, captions, strict=True), 1)
    return tuple(
        ShownOption(
            number,
            option.die.name,
            option.die.parameters,
            option.in_stock if stocked else None,
            is_present(piece, option),
            tuple(caption.lines),
        )
        for number, (option, caption) in pairs
    )


def _piece(suite: Suite, name: str) -> Piece:
    known = {piece.name: piece for piece in suite.pieces}
    if name not in known:
        hint = nearest(name, known) or f"; there are {', '.join(known)}"
        raise SuiteError(f'{suite.path}: no piece called "{name}"{hint}')
    return known[name]
