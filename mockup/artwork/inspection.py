"""What a print page holds, in card inches: painted paths, type and images, with ink and layer."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from mockup.artwork.art import Art
from mockup.artwork.page import Placement
from mockup.geometry.point import Box
from mockup.workshop import crew
from mockup.workshop.job import Job

_INSPECT = "mockup.foreign.inspecting:inspect_page"

Space = Literal["gray", "rgb", "cmyk", "spot", "lab", "other"]
Kind = Literal["path", "type", "image", "shade"]
Ring = NDArray[np.float64]
"""(n, 2) float64: points of a flattened sub-path, card inches, origin top left of the trim."""


@dataclass(frozen=True)
class Ink:
    """A colour as the file gives it: its space, shares 0 to 1, colourant names of a spot colour."""

    space: Space
    values: tuple[float, ...]
    names: tuple[str, ...] = ()
    calibrated: bool = False
    """Whether a profile says what the numbers look like (ICCBased, CalRGB, Lab)."""

    @property
    def total(self) -> float:
        """The sum of ink, 1 for one full ink: of CMYK and spot colours; nought for the others."""
        return sum(self.values) if self.space in ("cmyk", "spot") else 0.0


@dataclass(frozen=True)
class Pen:
    """How a path is stroked: width in inches as placed, dash lengths in inches, square ends."""

    width_in: float
    dashes: tuple[float, ...] = ()
    cap: Literal["butt", "round", "square"] = "butt"


@dataclass(frozen=True)
class Lettering:
    """One run of type: what it says, its font, size in points as placed, whether embedded."""

    text: str
    font: str
    size_pt: float
    embedded: bool
    glyph_of: tuple[int, ...] = ()
    """Of each letter of the text, which glyph draws it: a ligature draws several."""
    upright: bool = True
    """Whether it stands on a level line as it is read, not turned, mirrored or from the top down.
    """


@dataclass(frozen=True)
class Placed:
    """One image as placed: pixels, bits a channel, pixels an inch along its sides, its colours."""

    width_px: int
    height_px: int
    bits: int
    ppi: float
    space: Space
    calibrated: bool
    is_mask: bool


@dataclass(frozen=True)
class Painted:
    """One thing a page paints. `rings` are the outline of a fill, or the course of a stroke."""

    kind: Kind
    box: Box
    rings: tuple[Ring, ...] = field(repr=False)
    closed: tuple[bool, ...] = field(repr=False)
    even_odd: bool
    ink: Ink | None
    alpha: float
    layer: str | None
    clip: int
    """Index into `Inspection.clips`; 0 is no clip."""
    pen: Pen | None = None
    lettering: Lettering | None = None
    image: Placed | None = None
    glyphs: tuple[int, ...] = ()
    """For type: how many rings each glyph has, in order."""
    tiled: bool = False
    """Whether this is drawn over and over by a tiling pattern."""
    number: int = -1
    """Which of the page's painting calls this is, as `leaving_out` numbers them."""
    overprint: bool = False
    """Whether its ink leaves what lies under it where it has none itself (ISO 32000-1 8.6.7)."""


@dataclass(frozen=True)
class Clip:
    """A clip path: its outline, within the clip of index `parent`. Without rings it is a box."""

    rings: tuple[Ring, ...] = field(repr=False)
    even_odd: bool
    box: Box
    parent: int


@dataclass(frozen=True)
class Layer:
    """An optional content group (ISO 32000-1 8.11): its name, and when it is seen."""

    name: str
    shown: bool
    printed: bool
    processing_step: str | None = None
    """Its group and type under ISO 19593-1, such as "Structural/Cutting", or "White"."""


@dataclass(frozen=True)
class Inspection:
    """A page read for checking. `hidden` is what only its hidden layers paint."""

    painted: tuple[Painted, ...]
    hidden: tuple[Painted, ...]
    clips: tuple[Clip, ...]
    hidden_clips: tuple[Clip, ...]
    layers: tuple[Layer, ...]
    pages: int
    unembedded: tuple[str, ...]
    """Fonts the page sets type in and the file does not hold."""
    live_fonts: tuple[str, ...] = ()


def inspect(art: Art, placement: Placement) -> Inspection:
    """Returns everything a page paints, in drawing order, in inches from the trim's top left.

    Hidden layers, and those not printed, are read as well and told apart. Raises InputError and
    LimitError for art that cannot be read.
    """
    (found,) = crew.done(_INSPECT, [Job((art, placement), art.where, art.sha256)])
    return found
