"""A page of artwork: its boxes in inches, and where on it the card is trimmed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mockup.artwork.art import Art
from mockup.errors import InputError
from mockup.geometry.affine import Affine
from mockup.geometry.point import Box
from mockup.units import MM_PER_INCH, PT_PER_INCH, Unit, format_change, format_length, format_size
from mockup.workshop import crew
from mockup.workshop.job import Job

BLEEDS_IN = (0.125, 3 / MM_PER_INCH)  # common practice, no source: 1/8 in, or 3 mm
SIZE_TOLERANCE_IN = 0.01  # a size rounded to whole points or tenths of a millimetre passes
_FACTS = "mockup.foreign.page:page_facts"
_COUNT = "mockup.foreign.document:page_count"


@dataclass(frozen=True)
class PageFacts:
    """A page's boxes, inches as it is seen: rotated, cropped, origin top left."""

    visible: Box
    trim: Box | None
    bleed: Box | None


@dataclass(frozen=True)
class ArtPage:
    """One page of artwork with its boxes; inches as it is seen: rotated, origin top left."""

    art: Art
    visible: Box
    trim: Box | None
    bleed: Box | None

    @property
    def where(self) -> str:
        """The file and page, as messages name them."""
        return self.art.where


@dataclass(frozen=True)
class Placement:
    """Where a card lies on its page: the trim box in page inches, and how that is known."""

    trim: Box
    bleed_in: float
    because: str


def read_page(art: Art) -> ArtPage:
    """Returns a page's boxes. Raises InputError for art that cannot be read, LimitError for sides
    under 3 pt or over 14,400 pt."""
    return read_pages([art])[0]


def read_pages(arts: Sequence[Art]) -> list[ArtPage]:
    """Returns the boxes of several pages, read two at a time. Raises what read_page raises."""
    jobs = [Job((art,), art.where, art.sha256, (art.sha256, art.page)) for art in arts]
    facts: list[PageFacts] = crew.done(_FACTS, jobs)
    pairs = zip(arts, facts, strict=True)
    return [ArtPage(art, each.visible, each.trim, each.bleed) for art, each in pairs]


def page_count(art: Art) -> int:
    """Returns how many pages an art's file has. Raises InputError and LimitError."""
    (count,) = crew.done(_COUNT, [Job((art,), str(art.path), art.sha256, art.sha256)])
    return count


def place_card(
    page: ArtPage, width_in: float, height_in: float, bleed_in: float, units: Unit = "in"
) -> Placement:
    """Returns where a card of a declared size lies on the page.

    The TrimBox is believed when it has the declared size; else the page must be the card, alone or
    with `bleed_in`, 1/8 in or 3 mm on every side. Raises InputError that says by how much the
    sizes differ, in `units`.
    """
    if page.trim is not None and _same_size(page.trim, width_in, height_in):
        margins = page.trim.margins_in(page.visible)
        return Placement(page.trim, max(0.0, min(margins)), "its TrimBox has the card's size")
    for bleed in (bleed_in, *BLEEDS_IN, 0.0):
        if _same_size(page.visible, width_in + 2 * bleed, height_in + 2 * bleed):
            trim = Box(bleed, bleed, bleed + width_in, bleed + height_in)
            because = f"the page is the card and {format_length(bleed, units)} bleed"
            return Placement(trim, bleed, because if bleed else "the page is the card, no bleed")
    raise InputError(_misfit(page, (width_in, height_in), bleed_in, units))


def trim_matrix(placement: Placement) -> Affine:
    """Returns the map from card inches (origin top left of the trim) to page points as seen."""
    scale = PT_PER_INCH
    return Affine(scale, 0, 0, scale, placement.trim.left * scale, placement.trim.top * scale)


def _same_size(box: Box, width_in: float, height_in: float) -> bool:
    return (
        abs(box.width - width_in) <= SIZE_TOLERANCE_IN
        and abs(box.height - height_in) <= SIZE_TOLERANCE_IN
    )


def _is_in_mm(box: Box, width_in: float, height_in: float) -> bool:
    """Returns whether numbers taken as inches are a page's millimetres, but for a bleed."""
    off = (box.width - width_in / MM_PER_INCH, box.height - height_in / MM_PER_INCH)
    return all(-SIZE_TOLERANCE_IN <= each <= 2 * BLEEDS_IN[0] + SIZE_TOLERANCE_IN for each in off)


def _misfit(page: ArtPage, card_in: tuple[float, float], bleed_in: float, units: Unit) -> str:
    width_in, height_in = card_in
    card = format_size(width_in, height_in, units)
    box = page.trim or page.visible
    name = "TrimBox" if page.trim else "page"
    wide, high = width_in, height_in
    if not page.trim:
        wide, high = width_in + 2 * bleed_in, height_in + 2 * bleed_in
    across, down = box.width - wide, box.height - high
    message = (
        f"{page.where}: the {name} is {format_size(box.width, box.height, units)}, the card {card}"
        f"{'' if page.trim else f' with {format_length(bleed_in, units)} bleed'} needs "
        f"{format_size(wide, high, units)}: {format_change(across, units)} wide, "
        f"{format_change(down, units)} high"
    )
    if _is_in_mm(box, width_in, height_in):
        size = f"{width_in:g} x {height_in:g} mm"
        return f'{message}; for millimetres write units = "mm", or "{size}"'
    if _same_size(Box(0, 0, box.height, box.width), wide, high):
        return f"{message}; the sides are swapped: turn the card's size, or the art"
    return f"{message}; declare the size the art has, or save the art at the card's size"
