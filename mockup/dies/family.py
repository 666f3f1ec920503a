"""What a die and a family of dies are: a name, its parameters, and the outline they give."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from mockup.geometry.outline import Segment, Shape

Value = float | str
Given = float | str | Sequence[float | str]
"""A parameter as a suite file or a command line gives it: a number, a text, a list of either."""

Corners = tuple[float, float, float, float]
"""One number a corner: top left, top right, bottom right, bottom left."""

Kind = Literal["length", "corners", "angle", "number", "count", "choice"]


@dataclass(frozen=True)
class Die:
    """One die at one size. `shape` lies in the box from (0, 0) to (width_in, height_in), inches."""

    name: str
    width_in: float
    height_in: float
    parameters: tuple[tuple[str, Value], ...]
    shape: Shape
    because: str = ""
    """For a die read from a template: which path of it was taken as the cut, and why."""
    others: str = ""
    """For a die read from a template: which other paths came next, in words."""
    template: Path | None = None
    """The file it was read from, for a die read from a template."""
    template_sha256: str = ""
    """The SHA-256 of that file."""
    bleed: Shape | None = None
    """The bleed line its template draws round it, and how far outside where that is even."""
    bleed_in: float | None = None
    safe: Shape | None = None
    """The safe zone its template draws in it, and how far inside where that is even."""
    safe_in: float | None = None
    folds: tuple[tuple[Segment, ...], ...] = ()
    """The lines its template folds it along."""


@dataclass(frozen=True)
class Parameter:
    """One number or word a family is drawn with.

    A default may be worked out from the (width_in, height_in) of the card. Lengths and corners
    are inches, angles degrees.
    """

    name: str
    kind: Kind
    default: Value | Callable[[float, float], float]
    about: str
    choices: tuple[str, ...] = ()


@dataclass(frozen=True)
class Family:
    """A way to draw one kind of die.

    `draw(width_in, height_in, **parameters)` returns a Shape that fills the box of that size, or
    raises MisfitError with the nearest value that works.
    """

    name: str
    about: str
    source: str
    parameters: tuple[Parameter, ...]
    draw: Callable[..., Shape]


def length(name: str, default: float | Callable[[float, float], float], about: str) -> Parameter:
    """Returns a length in inches; text with a unit is read too."""
    return Parameter(name, "length", default, about)


def corners(name: str, default: float | Callable[[float, float], float], about: str) -> Parameter:
    """Returns a length for each corner: one for all, or four, clockwise from the top left."""
    return Parameter(name, "corners", default, about)


def angle(name: str, default: float, about: str) -> Parameter:
    """Returns an angle in degrees."""
    return Parameter(name, "angle", default, about)


def number(name: str, default: float, about: str) -> Parameter:
    """Returns a plain number."""
    return Parameter(name, "number", default, about)


def count(name: str, default: int, about: str) -> Parameter:
    """Returns a whole number."""
    return Parameter(name, "count", default, about)


def choice(name: str, choices: tuple[str, ...], about: str) -> Parameter:
    """Returns a word out of a few; the first one is the default."""
    return Parameter(name, "choice", choices[0], about, choices)
