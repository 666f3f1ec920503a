"""Printers' catalogues: which dies exist at which card sizes, and what cutting with them costs.

One TOML file a printer:

    name = "Sluice End Letterpress"
    currency = "USD"

    [custom]               # a die made for the job
    tool = 165.00          # making it, once
    each = 0.34
    setup = 45.00          # each run
    minimum = 50
    thickest_mil = 40      # stock they cannot cut is thicker

    [[dies]]
    die = "lancet-arch"
    parameters = { rise = 4 }
    cards = { A7 = 0.58, A6 = 0.55 }     # price each, by card size
    minimum = 25
"""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from mockup.dies.family import Die, Given, Value
from mockup.dies.making import make_die
from mockup.errors import MockupError, SuiteError, nearest
from mockup.printers.prices import Terms
from mockup.shipped import shipped
from mockup.trade.sizes import CardSize, card_size

Price = Annotated[Decimal, Field(ge=0, le=1_000_000)]
Minimum = Annotated[int, Field(ge=1, le=1_000_000)]
Thickness = Annotated[Decimal, Field(gt=0, le=1000)]


class _Table(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class _DieTable(_Table):
    die: str
    cards: Annotated[dict[str, Price], Field(min_length=1)]
    parameters: dict[str, Any] = {}
    setup: Price = Decimal(0)
    minimum: Minimum = 1
    thickest_mil: Thickness | None = None


class _CustomTable(_Table):
    tool: Price
    each: Price
    setup: Price = Decimal(0)
    minimum: Minimum = 1
    thickest_mil: Thickness | None = None


class _PrinterTable(_Table):
    name: Annotated[str, Field(min_length=1, max_length=80)]
    currency: Annotated[str, Field(pattern=r"^[A-Z]{3}$")]
    custom: _CustomTable | None = None
    dies: tuple[_DieTable, ...] = ()


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


def find_printers(
    folder: Path | None, names: Sequence[str] = (), beside: Path | None = None
) -> tuple[Printer, ...]:
    """Returns the catalogues of a folder, only the printers named where names are given.

    Without a folder, those in `printers` beside the suite file, or in the working folder, else the
    demo's. Raises SuiteError.
    """
    return named(read_printers(catalogue_folder(folder, beside)), names)


def catalogue_folder(folder: Path | None, beside: Path | None = None) -> Path:
    """Returns the folder whose catalogues are read: the one given, or the usual one."""
    near = [place / "printers" for place in (beside and beside.parent, Path()) if place]
    own = next((place for place in near if place.is_dir()), shipped("assets_demo") / "printers")
    return folder or own


def catalogue_files(folder: Path) -> list[Path]:
    """Returns the catalogues in a folder, by file name."""
    return sorted(folder.glob("*.toml"))


def read_printers(folder: Path) -> tuple[Printer, ...]:
    """Returns the catalogues in a folder, by file name. Raises SuiteError as read_printer does."""
    files = catalogue_files(folder)
    if not files:
        raise SuiteError(f"{folder}: holds no catalogue; put a .toml file there for each printer")
    return tuple(read_printer(file) for file in files)


def read_printer(path: Path) -> Printer:
    """Returns a catalogue read from a TOML file.

    Raises SuiteError with a line for every mistake: file, key, value, and what is allowed.
    """
    try:
        raw = tomllib.loads(path.read_text(encoding="utf-8"), parse_float=Decimal)
        table = _PrinterTable.model_validate(raw)
    except FileNotFoundError as error:
        raise SuiteError(f"{path}: no such file") from error
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise SuiteError(f"{path}: is not TOML ({error})") from error
    except ValidationError as error:
        raise SuiteError(*_mistakes(path, error)) from error
    offers, mistakes = _offers(path, table)
    if mistakes:
        raise SuiteError(*mistakes)
    custom = table.custom and Custom(
        table.name,
        table.currency,
        Terms(table.custom.each, table.custom.setup, table.custom.tool, table.custom.minimum),
        _mil(table.custom.thickest_mil),
    )
    return Printer(table.name, tuple(offers), custom)


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
            raise SuiteError(f'no printer called "{name}"{hint}')
        chosen += [printer for printer in found if printer not in chosen]
    return tuple(chosen) if names else tuple(printers)


def _offers(path: Path, table: _PrinterTable) -> tuple[list[Offer], list[str]]:
    offers: list[Offer] = []
    mistakes: list[str] = []
    for number, row in enumerate(table.dies, 1):
        for card_name, each in row.cards.items():
            try:
                offers.append(_offer(table, row, card_name, each))
            except MockupError as error:
                mistakes.append(f"{path}: dies {number}, {card_name}: {error}")
    return offers, mistakes


def _offer(table: _PrinterTable, row: _DieTable, card_name: str, each: Decimal) -> Offer:
    card = card_size(card_name)
    given: dict[str, Given] = {key: _given(value) for key, value in row.parameters.items()}
    die = make_die(row.die, card.width_in, card.height_in, given)
    terms = Terms(each, row.setup, Decimal(0), row.minimum)
    shown = tuple((key, _shown(value)) for key, value in row.parameters.items())
    thickest = _mil(row.thickest_mil)
    return Offer(table.name, table.currency, card, die, shown, terms, thickest)


def _given(value: Any) -> Given:
    if isinstance(value, list):
        parts: list[Any] = value
        return [part if isinstance(part, str) else float(part) for part in parts]
    return value if isinstance(value, str) else float(value)


def _shown(value: Any) -> Value:
    if isinstance(value, list):
        parts: list[Any] = value
        return ", ".join(str(part) for part in parts)
    return value if isinstance(value, str) else float(value)


def _mil(value: Decimal | None) -> float | None:
    return None if value is None else float(value)


_MODELS: dict[str, type[BaseModel]] = {"dies": _DieTable, "custom": _CustomTable}


def _mistakes(path: Path, error: ValidationError) -> list[str]:
    lines: list[str] = []
    for mistake in error.errors():
        place = [str(part) for part in mistake["loc"]]
        key = ".".join(place)
        if mistake["type"] == "extra_forbidden":
            model = _MODELS.get(place[0], _PrinterTable) if len(place) > 1 else _PrinterTable
            allowed = list(model.model_fields)
            hint = nearest(place[-1], allowed) or f"; allowed: {', '.join(allowed)}"
            lines.append(f'{path}: {key}: no key called "{place[-1]}"{hint}')
        elif mistake["type"] == "missing":
            lines.append(f"{path}: {key}: is missing; write it")
        else:
            wanted = mistake["msg"][:1].lower() + mistake["msg"][1:]
            lines.append(f'{path}: {key}: "{mistake["input"]}" cannot be: {wanted}')
    return lines
