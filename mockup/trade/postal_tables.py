"""What post offices publish, read from one dated TOML table an operator.

Tables lie in `postal_tables/`, lengths in mm or in as the operator gives them; here all is in
inches and grams. No prices: they change, and are the user's to give.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any, Literal

from mockup.errors import SuiteError, nearest
from mockup.trade.tolerances import Limit
from mockup.units import Unit, mm_to_in

OPERATORS = ("us", "uk", "canada", "germany", "france", "upu")
G_PER_OZ = 28.349523125  # exact, international avoirdupois ounce (1959)

Extent = tuple[float, float, float]
"""Longer side, shorter side, thickness; inches."""


@dataclass(frozen=True)
class SizeClass:
    """A class of mail: its least and most extent, and the upper ends of its weight steps."""

    name: str
    least_in: Extent
    most_in: Extent
    aspect_least: float | None
    aspect_most: float | None
    sum_most_in: float | None
    weight_steps_g: tuple[float, ...]
    sorted_by_machine: bool
    source: str
    weight_source: str


@dataclass(frozen=True)
class MachineRules:
    """What a letter must meet to be sorted by machine at the plain price."""

    aspect_least: float
    aspect_most: float
    aspect_source: str
    thin_over_in: tuple[float, float]
    thin_under_in: float
    thin_source: str
    orientation_source: str
    short_length_source: str


@dataclass(frozen=True)
class ShapeRule:
    """The largest corner radius a card posted bare may have, None for any; other shapes need an
    envelope."""

    source: str
    corner_radius_most_in: float | None = None


@dataclass(frozen=True)
class ZoneRule:
    """A place on the address side, by distances from its right, left and bottom edges, inches."""

    name: str
    left_in: float | None
    width_from_right_in: float | None
    right_in: float
    bottom_in: float
    top_above_bottom_in: float
    source: str


@dataclass(frozen=True)
class PostalOperator:
    """One operator's table. Where it has no rule of a kind, that kind is empty or None."""

    key: str
    title: str
    as_of: str
    weighs_in: Literal["g", "oz"]
    """What its clerks weigh in."""
    least_tolerance_in: float
    """How much smaller than the least size a side may be."""
    most_tolerance_in: float
    """How much larger than the greatest size a side may be."""
    classes: tuple[SizeClass, ...]
    """For envelopes, the cheapest first."""
    cards: tuple[SizeClass, ...]
    """For cards posted bare."""
    machine: MachineRules | None
    shape: ShapeRule | None
    zones: tuple[ZoneRule, ...]
    features: Mapping[str, str]
    """What makes a letter hand-sorted, by name, each with its source."""
    limits: Mapping[str, Limit]


def likely_operator(paper: str, units: Unit) -> str:
    """Returns the table a suite is likeliest posted by, of the proof's paper and the units.

    Letter paper is North America's, where Canada measures in millimetres; of the countries of A4
    one is taken, for something must be. A guess, to be told as one.
    """
    if paper == "letter":
        return "canada" if units == "mm" else "us"
    return "uk"


@cache
def postal_operator(text: str) -> PostalOperator:
    """Returns an operator's table: us, uk, canada, germany, france or upu.

    Raises SuiteError with the nearest.
    """
    key = text.strip().lower()
    if key not in OPERATORS:
        hint = nearest(key, OPERATORS)
        raise SuiteError(f'no postal table called "{text}"{hint}; allowed: {", ".join(OPERATORS)}')
    path = files("mockup.trade") / "postal_tables" / f"{key}.toml"
    table = tomllib.loads(path.read_text(encoding="utf-8"))
    machine, shape = table.get("machine"), table.get("shape")
    return PostalOperator(
        key=key,
        title=table["title"],
        as_of=table["as_of"],
        weighs_in=table.get("weighs_in", "g"),
        least_tolerance_in=mm_to_in(table["least_tolerance_mm"]),
        most_tolerance_in=mm_to_in(table["most_tolerance_mm"]),
        classes=tuple(_size_class(row) for row in table["classes"]),
        cards=tuple(_size_class(row) for row in table.get("cards", [])),
        machine=_machine(machine) if machine else None,
        shape=ShapeRule(**shape) if shape else None,
        zones=tuple(_zone(row) for row in table.get("zones", [])),
        features=table.get("features", {}),
        limits={name: Limit(**row) for name, row in table.get("limits", {}).items()},
    )


def _size_class(row: Mapping[str, Any]) -> SizeClass:
    steps_oz = row.get("weight_steps_oz", [])
    total_mm = row.get("sum_most_mm")
    return SizeClass(
        name=row["name"],
        least_in=_extent(row, "least"),
        most_in=_extent(row, "most"),
        aspect_least=row.get("aspect_least"),
        aspect_most=row.get("aspect_most"),
        sum_most_in=None if total_mm is None else mm_to_in(total_mm),
        weight_steps_g=tuple(row.get("weight_steps_g", [oz * G_PER_OZ for oz in steps_oz])),
        sorted_by_machine=row["sorted_by_machine"],
        source=row["source"],
        weight_source=row["weight_source"],
    )


def _extent(row: Mapping[str, Any], name: str) -> Extent:
    inches = row.get(f"{name}_in") or [mm_to_in(length) for length in row[f"{name}_mm"]]
    longer, shorter, thickness = (float(length) for length in inches)
    return longer, shorter, thickness


def _machine(row: dict[str, Any]) -> MachineRules:
    length, height = row.pop("thin_over_in")
    return MachineRules(thin_over_in=(length, height), **row)


def _zone(row: dict[str, Any]) -> ZoneRule:
    left, width = row.pop("left_in", None), row.pop("width_from_right_in", None)
    return ZoneRule(left_in=left, width_from_right_in=width, **row)
