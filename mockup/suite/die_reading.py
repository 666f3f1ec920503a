"""A piece's die as a suite file gives it: by name, as a shape with parameters, from a template."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from mockup.dies import Die, make_die
from mockup.dies.families import FAMILIES
from mockup.dies.importing import import_die
from mockup.errors import DieError, Mistake, MockupError, SuiteError
from mockup.sources import read_whole
from mockup.tables.wording import shown, told
from mockup.trade.limits import FILE_MAX_BYTES, PAGES_MAX
from mockup.units import Unit

OUTLINES_MAX = 10_000  # judgement: more are never listed
_TEMPLATE_KEYS = ("file", "pick", "page")
_HOW = 'write { shape = "ticket-corner", radius = 0.4 }, or { file = "leaf.pdf" }'


def read_die(
    given: str | Mapping[str, Any],
    card_in: tuple[float, float],
    folder: Path,
    units: Unit = "in",
) -> Die:
    """Returns a die of the card's size, (width, height) inches; templates lie beside `folder`.

    Lengths without a unit are in `units`, in which mistakes tell lengths as well.

    Raises DieError, SuiteError, InputError or LimitError; where one key is the cause, the
    mistake's key is that key.
    """
    if isinstance(given, str):
        return make_die(given, *card_in, units=units)
    if "file" in given:
        return _template_die(given, card_in, folder, units)
    if "shape" not in given:
        raise SuiteError(f"says no shape and no file; {_HOW}")
    shape = _word(given, "shape")
    parameters = {key: value for key, value in given.items() if key != "shape"}
    try:
        return make_die(shape, *card_in, parameters, units)
    except DieError as error:
        if shape in FAMILIES:
            raise
        told = (replace(each, key="shape", value=shape) for each in error.mistakes)
        raise DieError(*told) from error


def cuts_told(dies: Iterable[tuple[str, Die]]) -> tuple[str, ...]:
    """Returns for each (name, die) from a template which path of it is the cut, and why."""
    return tuple(f"{name}: the cut is {die.because}" for name, die in dies if die.because)


def _template_die(
    given: Mapping[str, Any], card_in: tuple[float, float], folder: Path, units: Unit
) -> Die:
    for key in given:
        if key not in _TEMPLATE_KEYS:
            raise SuiteError(Mistake(told(key, "key", _TEMPLATE_KEYS), key=key))
    template = folder / _word(given, "file")
    pick = _pick(given["pick"]) if "pick" in given else None
    page = given.get("page", 1)
    if isinstance(page, bool) or not isinstance(page, int) or not 1 <= page <= PAGES_MAX:
        said = f"{shown(page)} is no page; write a whole number from 1 to {PAGES_MAX}"
        raise SuiteError(Mistake(said, key="page", value=shown(page)))
    try:
        read_whole(template, FILE_MAX_BYTES)  # devices and pipes end here
    except MockupError as error:
        said = (replace(each, sentence=str(each), file="", key="file") for each in error.mistakes)
        raise type(error)(*said) from error
    return import_die(template, card_in, pick, page, units).die


def _pick(value: Any) -> str:
    """Returns what is picked: a name, a colour, a size, or an outline's number."""
    if isinstance(value, int) and not isinstance(value, bool) and 0 < value < OUTLINES_MAX:
        return str(value)
    return _word({"pick": value}, "pick")


def _word(given: Mapping[str, Any], key: str) -> str:
    value = given[key]
    if not isinstance(value, str) or not value.strip():
        said = f"{shown(value)} is no text; write it in quotes"
        raise SuiteError(Mistake(said, key=key, value=shown(value)))
    return value
