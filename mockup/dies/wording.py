"""A die's parameters in words, lengths in a reader's units."""

from __future__ import annotations

from collections.abc import Sequence

from mockup.dies.families import FAMILIES
from mockup.dies.family import Parameter, Value
from mockup.units import Unit, format_length, in_to_mm, parse_length

LENGTHS = ("length", "corners")


def parameters_told(
    family: str, parameters: Sequence[tuple[str, Value]], units: Unit = "in"
) -> list[str]:
    """Returns `radius 0.5 in`, `side left`: a parameter each, a choice only where it is not the
    usual one. Numbers are inches where they are lengths; texts keep the unit they say."""
    known = _known(family)
    told: list[str] = []
    for name, value in parameters:
        parameter = known.get(name)
        words = name.replace("_", " ")
        if parameter is None or parameter.kind not in (*LENGTHS, "choice", "angle"):
            told.append(f"{words} {_figure(value)}")
        elif parameter.kind in LENGTHS:
            told.append(f"{words} {_lengths_told(value, units)}")
        elif parameter.kind == "angle":
            told.append(f"{words} {_figure(value)}\u00b0")
        elif value != parameter.choices[0]:
            told.append(f"{words} {value}")
    return told


def lengths_mm(family: str, parameters: Sequence[tuple[str, Value]]) -> dict[str, Value]:
    """Returns those parameters that are lengths, in millimetres; several of one in a text."""
    known = _known(family)
    found: dict[str, Value] = {}
    for name, value in parameters:
        if name in known and known[name].kind in LENGTHS:
            parts = [round(in_to_mm(length), 4) for length in _lengths_in(value)]
            found[name] = parts[0] if len(parts) == 1 else ", ".join(f"{each:g}" for each in parts)
    return found


def _known(family: str) -> dict[str, Parameter]:
    found = FAMILIES.get(family)
    return {each.name: each for each in found.parameters} if found else {}


def _lengths_in(value: Value) -> list[float]:
    if isinstance(value, str):
        return [parse_length(part) for part in value.split(",")]
    return [value]


def _lengths_told(value: Value, units: Unit) -> str:
    figures = [format_length(length, units) for length in _lengths_in(value)]
    return ", ".join([*(each.removesuffix(f" {units}") for each in figures[:-1]), figures[-1]])


def _figure(value: Value) -> str:
    return value if isinstance(value, str) else f"{value:.3f}".rstrip("0").rstrip(".")
