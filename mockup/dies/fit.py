"""Refusals that name the nearest value that works, and outlines turned to a side of the card."""

from __future__ import annotations

import math
from collections.abc import Callable

from mockup.dies.family import choice
from mockup.errors import DieError, Mistake
from mockup.geometry.affine import IDENTITY, Affine
from mockup.geometry.outline import Shape

SIDES = ("top", "right", "bottom", "left")
SIDE = choice("side", SIDES, "the side of the card it stands on top of")

ALL, TOP_BOTTOM, LEFT_RIGHT = "all", "top-bottom", "left-right"
EDGES = choice("edges", (ALL, TOP_BOTTOM, LEFT_RIGHT), "the edges that are shaped")

_SLACK = 1e-9  # what adding and halving floats may cost a value that just fits


def within(name: str, value: float, low: float, high: float, unit: str = " in") -> None:
    """Refuses a value outside low to high.

    Raises DieError with the nearest value that works; its key is the name.
    """
    if high < low - _SLACK:
        raise DieError(f"no {name} fits this size; make the card larger")
    said = f"{name} {value:.6g}{unit} is too"
    if value < low - _SLACK:
        raise DieError(Mistake(f"{said} small; the least is {_up(low)}{unit}", key=name))
    if value > high + _SLACK:
        raise DieError(Mistake(f"{said} large; the most is {_down(high)}{unit}", key=name))


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


def _up(value: float) -> str:
    return _plain(math.ceil(value * 1000 - 1e-6) / 1000)


def _down(value: float) -> str:
    return _plain(math.floor(value * 1000 + 1e-6) / 1000)


def _plain(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".")
