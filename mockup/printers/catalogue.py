"""Printers' catalogues: which dies exist at which card sizes, and what cutting with them costs.

One TOML file a printer:

    name = "Sluice End Letterpress"
    invented = true        # of an example; left out for a real printer
    currency = "USD"

    [custom]               # a die made for the job
    tool = 165.00          # making it, once
    each = 0.34
    setup = 45.00          # each run
    minimum = 50
    thickest_mil = 40      # stock they cannot cut is thicker

    [[dies]]
    die = "lancet-arch"
    parameters = { rise = 4 }            # inches, or say units = "mm" at the top
    cards = { A7 = 0.58, A6 = 0.55 }     # price each, by card size
    minimum = 25

    [files]                # what print files they take; left out, the art with its cut line
    variant = "cut-line"   # or "art-alone", or "both"
    outlines = true        # type turned to outlines
    bleed = 0.125          # left out, what the suite says
    cut_name = "Cut"       # what they call the ink of the cut, and that of folds
    fold_name = "Crease"

What it says of stocks, finishes and envelopes is in `rules`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from functools import partial
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, Field, Strict
from pydantic_core import PydanticCustomError

from mockup.dies.families import FAMILIES
from mockup.dies.family import Die, Given, Value
from mockup.dies.making import make_die
from mockup.errors import Mistake, MockupError, SuiteError, nearest, quoted, together
from mockup.printers.cells import Exact, Minimum, Price, Table, Thickness
from mockup.printers.files_asked import (
    CUT_NAME,
    FOLD_NAME,
    THE_USUAL,
    FilesAsked,
    is_spot_name,
    variants_of,
)
from mockup.printers.prices import Terms
from mockup.printers.rules import NO_RULES, Rules, RulesTables, rules_mistakes, rules_of
from mockup.tables.reading import read_toml
from mockup.tables.wording import CURRENCY, form_mistakes, key_path, shown, sound_part
from mockup.trade.limits import CATALOGUES_MAX
from mockup.trade.sizes import CardSize, card_size
from mockup.units import INCHES_PER_UNIT, Unit


class _DieTable(Table):
    die: Annotated[str, Field(min_length=1, max_length=80)]
    cards: Annotated[dict[str, Price], Field(min_length=1, max_length=200)]
    parameters: dict[str, Any] = Field(default_factory=dict)
    setup: Price = Decimal(0)
    minimum: Minimum = 1
    thickest_mil: Thickness | None = None


class _CustomTable(Table):
    tool: Price
    each: Price
    setup: Price = Decimal(0)
    minimum: Minimum = 1
    thickest_mil: Thickness | None = None


def _ink_name(value: str) -> str:
    if not is_spot_name(value):
        raise PydanticCustomError(
            "ink_name",
            "cannot name an ink of its own; write plain letters, no process ink, not All or None",
        )
    return value


InkName = Annotated[str, Field(min_length=1, max_length=60), AfterValidator(_ink_name)]


class _FilesTable(Table):
    variant: Literal["art-alone", "cut-line", "both"] = "cut-line"
    outlines: bool = False
    bleed: Annotated[Exact, Field(ge=0, le=60)] | None = None
    cut_name: InkName = CUT_NAME
    fold_name: InkName = FOLD_NAME


class _PrinterTable(RulesTables):
    name: Annotated[str, Field(min_length=1, max_length=80)]
    currency: Annotated[str, Field(pattern=CURRENCY)]
    units: Literal["in", "mm"] = "in"
    invented: bool = False
    custom: _CustomTable | None = None
    files: _FilesTable = _FilesTable()
    dies: Annotated[tuple[_DieTable, ...], Strict(False), Field(max_length=1000)] = ()


HOW_TO_ADD = (
    "to have prices and stock, put a printer's catalogue, a .toml file each, into a folder "
    "`printers` beside the suite (`mockup demo DIR` lays two invented ones to copy)"
)


@dataclass(frozen=True)
class Offer:
    """A die a printer has: its outline at a card's size, the price, the thickest stock it cuts.

    `given` are the parameters the catalogue names; the die's own hold them all.
    """

    printer: str
    currency: str
    card: CardSize
    die: Die
    given: tuple[tuple[str, Value], ...]
    terms: Terms
    thickest_mil: float | None


@dataclass(frozen=True)
class Custom:
    """What a printer asks for a die made to any outline."""

    printer: str
    currency: str
    terms: Terms
    thickest_mil: float | None


@dataclass(frozen=True)
class Printer:
    """One printer's catalogue."""

    name: str
    offers: tuple[Offer, ...]
    custom: Custom | None
    files: FilesAsked = THE_USUAL
    rules: Rules = NO_RULES
    currency: str = ""


def find_printers(
    folder: Path | None, names: Sequence[str] = (), beside: Path | None = None
) -> tuple[Printer, ...]:
    """Returns the catalogues of a folder, only the printers named where names are given.

    Without a folder, those in `printers` beside the suite file, or in the working folder, else
    none: the demo's printers are invented, and say nothing of any other suite. Raises SuiteError.
    """
    place = catalogue_folder(folder, beside)
    if place is None:
        if names:
            raise SuiteError(f"no printer called {quoted(names[0])}; {HOW_TO_ADD}")
        return ()
    return named(read_printers(place), names)


def catalogue_folder(folder: Path | None, beside: Path | None = None) -> Path | None:
    """Returns the folder whose catalogues are read: the one given, or the usual one if it is
    there."""
    near = [place / "printers" for place in (beside and beside.parent, Path()) if place]
    return folder or next((place for place in near if place.is_dir()), None)


def catalogue_files(folder: Path) -> list[Path]:
    """Returns the catalogues in a folder, by file name."""
    return sorted(folder.glob("*.toml"))


def read_printers(folder: Path) -> tuple[Printer, ...]:
    """Returns the catalogues in a folder, by file name.

    Raises SuiteError with the mistakes of all of them; two printers of one name are one.
    """
    files = catalogue_files(folder)
    if not files:
        said = "holds no catalogue; put a .toml file there for each printer"
        raise SuiteError(Mistake(said, str(folder)))
    if len(files) > CATALOGUES_MAX:
        said = f"holds {len(files)} catalogues; keep at most {CATALOGUES_MAX} there"
        raise SuiteError(Mistake(said, str(folder)))
    printers = together(*(partial(read_printer, file) for file in files))
    seen: dict[str, Path] = {}
    told: list[Mistake] = []
    for printer, file in zip(printers, files, strict=True):
        first = seen.setdefault(printer.name.casefold(), file)
        if first != file:
            said = f"{quoted(printer.name)} is the printer of {first} already; name each once"
            told.append(Mistake(said, str(file), "name", printer.name))
    if told:
        raise SuiteError(*told)
    return printers


def read_printer(path: Path) -> Printer:
    """Returns a catalogue read from a TOML file.

    Raises SuiteError with every mistake: file, key, value, and what is allowed.
    """
    raw = read_toml(path, _decimal)
    told = form_mistakes(str(path), raw, _PrinterTable)
    rows = [sound_part(row, _DieTable) for row in _rows(raw)]
    units: Unit = "mm" if raw.get("units") == "mm" else "in"
    drawn, mistakes = _drawn(str(path), rows, units)
    told += [each for each in mistakes if each.key not in {form.key for form in told}]
    if not told:
        told += rules_mistakes(str(path), _PrinterTable.model_validate(raw), units)
    if told:
        raise SuiteError(*told)
    table = _PrinterTable.model_validate(raw)
    if table.invented:
        table = table.model_copy(update={"name": f"{table.name} (invented)"})
    offers = [_offer(table, cut) for cut in drawn]
    custom = table.custom and Custom(
        table.name,
        table.currency,
        Terms(table.custom.each, table.custom.setup, table.custom.tool, table.custom.minimum),
        _mil(table.custom.thickest_mil),
    )
    asked, rules = _files(table.files, units), rules_of(table, units)
    return Printer(table.name, tuple(offers), custom, asked, rules, table.currency)


def _files(table: _FilesTable, units: Unit) -> FilesAsked:
    bleed_in = None if table.bleed is None else float(table.bleed) * INCHES_PER_UNIT[units]
    return FilesAsked(
        variants_of(table.variant), table.outlines, bleed_in, table.cut_name, table.fold_name
    )


def named(printers: Sequence[Printer], names: Sequence[str]) -> tuple[Printer, ...]:
    """Returns the printers whose names hold the given words, all where none is given.

    Raises SuiteError with the nearest name.
    """
    chosen: list[Printer] = []
    for name in names:
        found = [printer for printer in printers if name.casefold() in printer.name.casefold()]
        if not found:
            known = [printer.name for printer in printers]
            hint = nearest(name, known) or f"; there are {', '.join(known)}"
            raise SuiteError(f"no printer called {quoted(name)}{hint}")
        chosen += [printer for printer in found if printer not in chosen]
    return tuple(chosen) if names else tuple(printers)


def _decimal(text: str) -> Decimal:
    try:
        return Decimal(text)
    except InvalidOperation:  # an exponent of twenty digits
        return Decimal("inf")


def _rows(raw: dict[str, Any]) -> list[dict[str, Any]]:
    """Returns the tables under [[dies]]; what is none of them has been told as such."""
    dies = raw.get("dies")
    return [row if isinstance(row, dict) else {} for row in dies] if isinstance(dies, list) else []


Cut = tuple[int, str, CardSize, Die]
"""The number of a row from 0, a card as the row names it, its size, the die at that size."""


def _drawn(
    file: str, rows: Sequence[_DieTable | None], units: Unit
) -> tuple[list[Cut], list[Mistake]]:
    """Returns every die of the rows at every card, and what cannot be drawn, told once a key."""
    cuts: list[Cut] = []
    told: dict[str, Mistake] = {}
    seen: dict[object, int] = {}
    for number, card_name, row in _cells(rows):
        try:
            card = card_size(card_name, units)
            die = make_die(row.die, card.width_in, card.height_in, _parameters(row), units)
        except MockupError as error:
            for each in error.mistakes:
                key = key_path(("dies", number, *_keys(each, row, card_name)))
                value = each.value or _value(row, each.key)
                told.setdefault(key, Mistake(each.sentence, file, key, value))
            continue
        outline = (die.name, die.width_in, die.height_in, die.parameters)
        if outline in seen:
            key = key_path(("dies", number, "cards", card_name))
            said = f"this die at this size is in dies.{seen[outline] + 1} already; price it once"
            told.setdefault(key, Mistake(said, file, key, card_name))
        seen.setdefault(outline, number)
        cuts.append((number, card_name, card, die))
    return cuts, list(told.values())


def _cells(rows: Sequence[_DieTable | None]) -> Iterator[tuple[int, str, _DieTable]]:
    for number, row in enumerate(rows):
        for card_name in row.cards if row else ():
            assert row is not None
            yield number, card_name, row


def _keys(mistake: Mistake, row: _DieTable, card_name: str) -> tuple[str, ...]:
    """Returns the key of a row that is the cause of a die that cannot be drawn."""
    if row.die not in FAMILIES:
        return ("die",)
    return ("parameters", mistake.key) if mistake.key else ("cards", card_name)


def _value(row: _DieTable, key: str) -> str:
    if row.die not in FAMILIES:
        return row.die
    return shown(row.parameters[key]) if key in row.parameters else ""


def _offer(table: _PrinterTable, cut: Cut) -> Offer:
    number, card_name, card, die = cut
    drawn = dict(die.parameters)
    row = table.dies[number]
    terms = Terms(row.cards[card_name], row.setup, Decimal(0), row.minimum)
    given = tuple((key, drawn[key]) for key in row.parameters)
    thickest = _mil(row.thickest_mil)
    return Offer(table.name, table.currency, card, die, given, terms, thickest)


def _parameters(row: _DieTable) -> dict[str, Given]:
    return {key: _given(value) for key, value in row.parameters.items()}


def _given(value: Any) -> Any:
    """Returns a parameter with floats for Decimals; what else it may be, the die tells."""
    if isinstance(value, list):
        parts: list[Any] = value
        return [_given(part) for part in parts]
    return float(value) if isinstance(value, Decimal) else value


def _mil(value: Decimal | None) -> float | None:
    return None if value is None else float(value)
