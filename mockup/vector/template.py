"""What a reader finds on a template: painted paths in inches, and what is said of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from mockup.geometry.outline import Segment
from mockup.geometry.point import Box

Space = Literal["gray", "rgb", "cmyk", "spot", "lab", "pattern", "other"]


@dataclass(frozen=True)
class Colour:
    """A colour as the file gives it: its space, shares 0 to 1, colourant names of a spot colour.

    A pattern, a gradient, and a colour that cannot be read have no values; `names` then holds what
    was written.
    """

    space: Space
    values: tuple[float, ...] = ()
    names: tuple[str, ...] = ()


@dataclass(frozen=True)
class TemplatePath:
    """One run of segments without a gap, inches from the top left of the page, y down.

    `painted` numbers the paint operator or element it was drawn by: parts of one compound path
    share it. `filled` says that an open run is closed by its paint. `stroke` and `fill` are its
    colours where it is stroked or filled; the line's width and dashes are inches. What is `hidden`
    lies on a layer that is switched off or not printed: it is not painted.
    """

    segments: tuple[Segment, ...]
    closed: bool
    filled: bool
    painted: int
    layers: tuple[str, ...] = ()
    inks: tuple[str, ...] = ()
    steps: tuple[str, ...] = ()
    stroke: Colour | None = None
    fill: Colour | None = None
    width_in: float = 0.0
    dashes_in: tuple[float, ...] = ()
    hidden: bool = False


@dataclass(frozen=True)
class TemplateWords:
    """A line of live type on a template: its words, its box in inches, its colour where told."""

    words: str
    box: Box
    colour: Colour | None = None


@dataclass(frozen=True)
class Template:
    """A page of a template. Sizes in inches; `name` is how messages call the file.

    `words` are those that are seen; type turned to outlines is among the paths. `trim` is the
    page's TrimBox where it has one, as the page is seen.
    """

    name: str
    width_in: float
    height_in: float
    paths: tuple[TemplatePath, ...]
    words: tuple[TemplateWords, ...] = ()
    trim: Box | None = None
