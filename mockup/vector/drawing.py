"""What an SVG draws, as plain values: its size, and its shapes in the order they are painted."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from mockup.geometry.outline import Segment
from mockup.vector.template import Colour, TemplateWords

Cap = Literal["butt", "round", "square"]


@dataclass(frozen=True)
class Run:
    """Segments without a gap, inches from the top left of the view, y down."""

    segments: tuple[Segment, ...]
    closed: bool


@dataclass(frozen=True)
class Stroke:
    """How a course is stroked. Width and dashes in inches; no dashes is a whole line."""

    colour: Colour
    width_in: float
    dashes_in: tuple[float, ...] = ()
    cap: Cap = "butt"


@dataclass(frozen=True)
class DrawnShape:
    """One shape as it is placed. `element` is how messages call it: `<circle id="moon">`.

    `names` are those of all it lies in, outermost first; `data` are the data-* attributes of
    itself over those around it. `child` is the number, from 0, of the root's child that holds it.
    `stroke_width_in` is what a stroke has or would have. `hidden` ones are not painted.
    """

    element: str
    tag: str
    runs: tuple[Run, ...]
    fill: Colour | None
    stroke: Stroke | None
    opacity: float
    even_odd: bool
    names: tuple[str, ...]
    data: tuple[tuple[str, str], ...]
    child: int
    hidden: bool


@dataclass(frozen=True)
class Drawing:
    """A drawing's size in inches and its shapes. `sized` where the file itself says how large.

    `words` are its live type, as far as it is seen.
    """

    name: str
    width_in: float
    height_in: float
    sized: bool
    shapes: tuple[DrawnShape, ...]
    words: tuple[TemplateWords, ...] = ()
