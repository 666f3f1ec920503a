"""A first suite file asked for, from the PDFs one has."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from mockup.asks.values import PathGiven, choice_of, path_of
from mockup.dies.folding import Fold
from mockup.errors import Mistake, RequestError
from mockup.output.destination import TOML, Destination, refuse_inputs, refuse_unfit
from mockup.output.files import write_whole
from mockup.progress import Progress
from mockup.suite.starting import Found, begin, find_art, read_art, refuse_replacing
from mockup.suite.starting_text import suite_text
from mockup.trade.finishes import Finish
from mockup.trade.sizes import CardSize, plain_name
from mockup.units import Unit, format_size


@dataclass(frozen=True)
class StartRequest:
    """A suite file to be begun.

    art: print PDFs and SVGs, or folders of them. output: the .toml to write. replace: write over a
    suite file that exists. units: "in" or "mm", None for what the pages seem to be measured in.
    """

    art: Iterable[PathGiven]
    output: PathGiven = "suite.toml"
    replace: bool = False
    units: str | None = None


@dataclass(frozen=True)
class StartedPiece:
    """One page of art as a piece of the suite file: its card, liner or envelope front, its bleed,
    and why."""

    name: str
    art: Path
    page: int
    card: str
    width_in: float
    height_in: float
    bleed_in: float
    because: str
    liner: bool
    front: bool = False
    """Whether it is printed on an envelope's front."""
    fold: Fold | None = None
    """Along which side the card is folded; its size is then the closed card's."""
    finishes: tuple[Finish, ...] = ()
    """What the names of its plates say."""


@dataclass(frozen=True)
class StartAnswer:
    """The file written, what was read from each page of the art, what lengths are told in, and a
    line for everything left aside."""

    written: Path
    pieces: tuple[StartedPiece, ...]
    units: Unit = "in"
    told: tuple[str, ...] = ()


def start_suite(request: StartRequest, progress: Progress | None = None) -> StartAnswer:
    """Writes a first suite file and returns what was inferred.

    Raises RequestError, InputError, LimitError, OutputError; an existing file is kept unless
    `replace` is said, and the art read is kept whatever is said.
    """
    output = path_of("output", request.output)
    units: Unit | None = None if request.units is None else _units(request.units)
    destination = [Destination(output, "suite file", TOML)]
    refuse_unfit(destination)
    if not request.replace:
        refuse_replacing(output)
    files = find_art(_sources(request.art))
    refuse_inputs(destination, files)
    found = read_art(files)
    beginning = begin(found, units)
    write_whole(output, suite_text(beginning, output.parent).encode())
    if progress is not None:
        progress(1.0)
    pieces = tuple(_started(each, beginning.units) for each in found)
    return StartAnswer(output, pieces, beginning.units, beginning.told)


def _card_name(card: CardSize, units: Unit) -> str:
    if "\u00d7" in card.name:  # no trade name: a size
        return format_size(card.width_in, card.height_in, units)
    return plain_name(card.name, units)


def _units(given: str) -> Unit:
    return "mm" if choice_of("units", given, ("in", "mm")) == "mm" else "in"


def _sources(given: Iterable[PathGiven]) -> list[Path]:
    one = isinstance(given, str | Path)
    sources = [path_of("art", each) for each in ([given] if one else given)]
    if not sources:
        raise RequestError(Mistake("names no art; give print PDFs, or folders of them", "", "art"))
    return sources


def _started(found: Found, units: Unit) -> StartedPiece:
    card = found.inferred.card
    return StartedPiece(
        found.name,
        found.art,
        found.page,
        _card_name(card, units),
        card.width_in,
        card.height_in,
        found.inferred.bleed_in,
        found.because(units),
        found.is_liner,
        found.is_front,
        found.fold,
        tuple(dict.fromkeys(what for _, what in (*found.noticed.plates, *found.on_back.plates))),
    )
