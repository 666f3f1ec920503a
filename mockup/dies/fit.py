"""Refusals that name the nearest value that works, and outlines turned to a side of the card."""

from __future__ import annotations

import math
from collections.abc import Callable

from mockup.dies.family import choice
from mockup.errors import Mistake
from mockup.geometry.affine import IDENTITY, Affine
from mockup.geometry.outline import Shape
from mockup.units import MM_PER_INCH, Unit, format_length

SIDES = ("top", "right", "bottom", "left")
SIDE = choice("side", SIDES, "the side of the card it stands on top of")

ALL, TOP_BOTTOM, LEFT_RIGHT = "all", "top-bottom", "left-right"
EDGES = choice("edges", (ALL, TOP_BOTTOM, LEFT_RIGHT), "the edges that are shaped")

_STEP_IN: dict[Unit, float] = {"in": 0.001, "mm": 0.01 / MM_PER_INCH}  # as lengths are told
_SLACK = 1e-9  # what adding and halving floats may cost a value that just fits


class MisfitError(Exception):
    """What a family cannot draw, to be told in a reader's units by who knows them."""

    def __init__(self, told: Callable[[Unit], Mistake]) -> None:
        super().__init__(told("in").sentence)
        self.told = told


def within(name: str, length_in: float, low_in: float, high_in: float) -> None:
    """Refuses a length outside low to high, inches.

    Raises MisfitError that tells the nearest length that works; its key is the name.
    """
    if high_in < low_in - _SLACK:
        raise MisfitError(lambda unit: Mistake(f"no {name} fits this size; make the card larger"))
    small, large = length_in < low_in - _SLACK, length_in > high_in + _SLACK
    if small or large:

        def told(unit: Unit) -> Mistake:
            bound = f"small; the least is {_up(low_in, unit)}"
            if large:
                bound = f"large; the most is {_down(high_in, unit)}"
            return Mistake(f"{name} {format_length(length_in, unit)} is too {bound}", key=name)

        raise MisfitError(told)


def within_number(name: str, value: float, low: float, high: float, unit: str = "") -> None:
    """Refuses a plain number, or an angle, outside low to high; `unit` is written after it.

    Raises MisfitError that tells the nearest value that works; its key is the name.
    """
    said = f"{name} {value:.6g}{unit} is too"
    if value < low - _SLACK:
        small = Mistake(f"{said} small; the least is {low:g}{unit}", key=name)
        raise MisfitError(lambda _: small)
    if value > high + _SLACK:
        large = Mistake(f"{said} large; the most is {high:g}{unit}", key=name)
        raise MisfitError(lambda _: large)


def side_affine(side: str, width_in: float, height_in: float) -> Affine:
    """Returns the map that takes the top of a card to the named side of width x height inches.

    What it maps is drawn as (height x width) for the left and the right side.
    """
    return {
        "top": IDENTITY,
        "right": Affine(0, 1, -1, 0, width_in, 0),
        "bottom": Affine(-1, 0, 0, -1, width_in, height_in),
        "left": Affine(0, -1, 1, 0, 0, height_in),
    }[side]


def turned(
    draw: Callable[[float, float], Shape], side: str, width_in: float, height_in: float
) -> Shape:
    """Returns what `draw(across, deep)` draws at the top of a card, turned to another side."""
    across, deep = (width_in, height_in) if side in ("top", "bottom") else (height_in, width_in)
    return draw(across, deep).mapped(side_affine(side, width_in, height_in))


def _up(length_in: float, unit: Unit) -> str:
    step = _STEP_IN[unit]
    return format_length(math.ceil(length_in / step - 1e-6) * step, unit)


def _down(length_in: float, unit: Unit) -> str:
    step = _STEP_IN[unit]
    return format_length(math.floor(length_in / step + 1e-6) * step, unit)
