"""A page of art as it goes to a printer: asked for here, written by a worker, content untouched."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mockup.artwork.art import Art
from mockup.artwork.page import Placement
from mockup.geometry.outline import Outline, Segment
from mockup.workshop import crew
from mockup.workshop.job import Job

_PRINT_COPY = "mockup.foreign.print_copies:print_copy"
_LOST = "mockup.foreign.same_content:lost_streams"

Corners = tuple[float, float, float, float]
"""A box as PDF writes it: left, bottom, right, top, in the page's own units."""


@dataclass(frozen=True)
class StepLines:
    """The lines of one processing step: the name of its ink, that of its layer, the step by
    ISO 19593-1 (`Structural/Cutting`), its closed outlines and open courses, card inches."""

    name: str
    layer: str
    step: str
    outlines: tuple[Outline, ...] = ()
    courses: tuple[tuple[Segment, ...], ...] = ()


@dataclass(frozen=True)
class CopyOrder:
    """What a print file is to be: one page of art, where the card lies on it, the bleed to keep.

    Marks in `art.left_out` are taken out. `steps` are drawn over the art, on layers of their own.
    """

    art: Art
    placement: Placement
    bleed_in: float
    steps: tuple[StepLines, ...] = ()
    outlined: bool = False


@dataclass(frozen=True)
class PageBoxes:
    """The boxes of a written page (ISO 32000-1 14.11.2), in its own units of 1/72 in, or of
    `unit` times that."""

    media: Corners
    crop: Corners
    bleed: Corners
    trim: Corners
    unit: float = 1.0


@dataclass(frozen=True)
class PrintCopy:
    """A print file written: its bytes, its boxes, how many letters were turned to outlines, and in
    words what of the source's file is not in it, as it is no part of the page that is printed.

    `bleeds_in` is how far the BleedBox goes beyond the card: left, up, right, down, as seen.
    """

    content: bytes
    boxes: PageBoxes
    bleeds_in: Corners
    letters: int
    dropped: tuple[str, ...]
    notes: tuple[str, ...]


def print_copies(orders: Sequence[CopyOrder]) -> list[PrintCopy]:
    """Returns the print file of every order.

    Raises InputError for art whose page cannot be handed on as it is, with the reason: SVG, under
    a password, drawing from other files, with lines that cannot be taken out or type that cannot
    be turned to outlines. LimitError for art beyond the limits.
    """
    jobs = [Job((order,), order.art.where, order.art.sha256) for order in orders]
    return crew.done(_PRINT_COPY, jobs)


def lost_streams(art: Art, written: Art) -> int:
    """Returns how many of the streams that an art's page is made of (its drawing, its images,
    fonts, profiles) a file written from it does not hold byte for byte. Raises InputError."""
    (lost,) = crew.done(_LOST, [Job((art, written), written.where, art.sha256)])
    return lost
