"""From a family's name, a size and parameters to a die, refusing what cannot be cut."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from mockup.dies.families import FAMILIES
from mockup.dies.family import Die, Family, Given, Parameter, Value
from mockup.dies.fit import MisfitError
from mockup.errors import DieError, Mistake, MockupError, nearest, quoted
from mockup.units import Unit, format_length, format_size, parse_length

SMALLEST_IN = 0.25  # common practice: nothing smaller is cut as a card
LARGEST_IN = 200.0  # the largest page side the program takes on, 14,400 pt

SHORTEST_WORD = 3  # judgement: fewer letters are in every other name

_NONE: Mapping[str, Given] = MappingProxyType({})

Drawn = Value | tuple[float, ...]


def make_die(
    name: str,
    width_in: float,
    height_in: float,
    parameters: Mapping[str, Given] = _NONE,
    units: Unit = "in",
) -> Die:
    """Returns the named die fitted to a card of width x height inches.

    Lengths given as parameters are numbers in `units` or text with a unit of its own; corners take
    one length or four, clockwise from the top left. `units` are also what mistakes tell lengths
    in; the die's own parameters are inches. Raises DieError for an unknown name or parameter (with
    the nearest one), and for a value that cannot be drawn at this size (with the nearest value that
    can). Where one given parameter is the cause, the mistake's key is its name.
    """
    family = FAMILIES.get(name)
    if family is None:
        raise DieError(f"no die called {quoted(name)}{_meant(name)}")
    check_size(name, width_in, height_in, units)
    try:
        values = _values(family, (width_in, height_in), parameters, units)
        shape = family.draw(width_in, height_in, **values)
    except (MisfitError, MockupError) as error:
        mistakes = [error.told(units)] if isinstance(error, MisfitError) else error.mistakes
        size = format_size(width_in, height_in, units)
        told = (
            replace(
                each,
                sentence=f"die {name} at {size}: {each.sentence}",
                key=each.key if each.key in parameters else "",
            )
            for each in mistakes
        )
        raise DieError(*told) from error
    recorded = tuple((key, _recorded(value)) for key, value in values.items())
    return Die(name, width_in, height_in, recorded, shape)


def _meant(name: str) -> str:
    """Returns a hint: the dies whose names hold the word, else the nearest, else all."""
    word = name.strip().lower().removesuffix("s")
    kin = [each for each in FAMILIES if len(word) >= SHORTEST_WORD and word in each]
    if len(kin) > 1:
        return f"; of that kind there are {', '.join(kin)}"
    return nearest(name, kin or FAMILIES) or f"; there are {', '.join(FAMILIES)}"


def check_size(name: str, width_in: float, height_in: float, units: Unit = "in") -> None:
    """Refuses a card that no die is drawn for, 1/4 in to 200 in. Raises DieError."""
    for side, length_in in (("width", width_in), ("height", height_in)):
        if not SMALLEST_IN <= length_in <= LARGEST_IN:  # false for nan as well
            raise DieError(
                f"die {name}: {side} {format_length(length_in, units)} is out of range; from "
                f"{format_length(SMALLEST_IN, units)} to {format_length(LARGEST_IN, units)} can be "
                "drawn"
            )


def _values(
    family: Family, card_in: tuple[float, float], parameters: Mapping[str, Given], units: Unit
) -> dict[str, Drawn]:
    known = {parameter.name: parameter for parameter in family.parameters}
    for key in parameters:
        if key not in known:
            hint = nearest(key, known) or _listing(known)
            raise DieError(Mistake(f"no parameter called {quoted(key)}{hint}", key=key))
    given = {key: _read(known[key], value, units) for key, value in parameters.items()}
    side = given.get("side", "top")  # a turned die's defaults see the card turned with it
    size = card_in[::-1] if side in ("left", "right") else card_in
    return {key: given.get(key, _default(known[key], *size)) for key in known}


def _listing(known: Mapping[str, Parameter]) -> str:
    return f"; it takes {', '.join(known)}" if known else "; it takes none"


def _default(parameter: Parameter, width_in: float, height_in: float) -> Drawn:
    default = parameter.default
    value = default(width_in, height_in) if callable(default) else default
    if parameter.kind == "corners":
        return (float(value),) * 4
    return value if parameter.kind in ("choice", "count") else float(value)


def _read(parameter: Parameter, given: Given, units: Unit) -> Drawn:
    """Returns a parameter's value. Raises DieError, with the parameter as the mistake's key."""
    try:
        return _value(parameter, given, units)
    except MockupError as error:
        raise DieError(*(replace(each, key=parameter.name) for each in error.mistakes)) from error


def _value(parameter: Parameter, given: Given, units: Unit) -> Drawn:
    if parameter.kind == "choice":
        return _chosen(parameter, given)
    if parameter.kind == "corners":
        return _corners(parameter, given, units)
    if isinstance(given, Sequence) and not isinstance(given, str):
        raise DieError(f"{parameter.name} takes one value, not a list")
    value = _number(parameter, given, units)
    if parameter.kind == "count":
        if value != round(value):
            raise DieError(f"{parameter.name} {value:g} is not whole; try {round(value)}")
        return round(value)
    return value


def _chosen(parameter: Parameter, given: Given) -> str:
    if isinstance(given, str) and given in parameter.choices:
        return given
    choices = ", ".join(parameter.choices)
    if not isinstance(given, str):
        raise DieError(f"{parameter.name} is a word, one of {choices}")
    hint = nearest(given, parameter.choices) or f"; it is one of {choices}"
    raise DieError(f"{parameter.name} cannot be {quoted(given)}{hint}")


def _corners(parameter: Parameter, given: Given, units: Unit) -> tuple[float, ...]:
    if isinstance(given, str):
        given = given.split(",")
    parts = given if isinstance(given, Sequence) else [given]
    lengths = tuple(_number(parameter, part, units) for part in parts)
    if len(lengths) not in (1, 4):
        raise DieError(
            f"{parameter.name} has {len(lengths)} values; give one, "
            "or four clockwise from the top left corner"
        )
    return lengths * 4 if len(lengths) == 1 else lengths


def _number(parameter: Parameter, given: object, units: Unit) -> float:
    """Returns a number; `given` is what a file holds, so it may be anything TOML knows."""
    name = parameter.name
    if isinstance(given, bool) or not isinstance(given, int | float | str):
        raise DieError(f"{name} is {_kind(given)}, not a number")
    if parameter.kind in ("length", "corners"):
        try:
            return parse_length(given, units)
        except MockupError as error:
            raise DieError(f"{name}: {error}") from error
    try:
        value = float(given)
    except (ValueError, OverflowError):
        value = math.nan
    if not math.isfinite(value):
        said = quoted(given) if isinstance(given, str) else f"{math.inf:g}"
        raise DieError(f"{name} {said} is not a number")
    return value


def _kind(given: object) -> str:
    if isinstance(given, Mapping | list):
        return "a table" if isinstance(given, Mapping) else "a list"
    return "true or false" if isinstance(given, bool) else "a date or time"


def _recorded(value: Drawn) -> Value:
    if not isinstance(value, tuple):
        return value
    return value[0] if len(set(value)) == 1 else ", ".join(f"{part:.9g}" for part in value)
