"""A page of artwork: its boxes in inches, and where on it the card is trimmed."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

import pymupdf
from pymupdf import mupdf

from mockup.artwork.document import open_page
from mockup.errors import InputError, LimitError
from mockup.geometry.affine import Affine
from mockup.geometry.point import Box, Point, box_of
from mockup.trade.limits import PAGE_SIDE_MAX_PT, PAGE_SIDE_MIN_PT
from mockup.units import MM_PER_INCH, PT_PER_INCH, format_length, format_size

BLEEDS_IN = (0.125, 3 / MM_PER_INCH)  # common practice, no source: 1/8 in, or 3 mm
SIZE_TOLERANCE_IN = 0.01  # a size rounded to whole points or tenths of a millimetre passes
_NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)")


@dataclass(frozen=True)
class ArtPage:
    """One page of an artwork file; boxes in inches as it is seen: rotated, origin top left."""

    path: Path
    number: int
    visible: Box
    trim: Box | None
    bleed: Box | None
    leave_out: frozenset[int] = frozenset()
    """Marks that are not drawn, as `leaving_out` numbers them."""

    @property
    def where(self) -> str:
        """The file and page, as messages name them."""
        return f"{self.path}, page {self.number}"


@dataclass(frozen=True)
class Placement:
    """Where a card lies on its page: the trim box in page inches, and how that is known."""

    trim: Box
    bleed_in: float
    because: str


def read_page(path: Path, number: int = 1) -> ArtPage:
    """Returns a page's boxes. Raises InputError and LimitError as open_page does, and for sides
    under 3 pt or over 14,400 pt."""
    with open_page(path, number) as page:
        width_pt, height_pt = page.rect.width, page.rect.height
        for side_pt in (width_pt, height_pt):
            if not PAGE_SIDE_MIN_PT <= side_pt <= PAGE_SIDE_MAX_PT:
                raise LimitError(
                    f"{path}, page {number}: is {width_pt / 72:.2f} x {height_pt / 72:.2f} in; "
                    f"sides from {PAGE_SIDE_MIN_PT:.0f} pt to {PAGE_SIDE_MAX_PT / 72:.0f} in "
                    "are taken"
                )
        visible = Box(0.0, 0.0, width_pt / PT_PER_INCH, height_pt / PT_PER_INCH)
        to_seen = seen_matrix(page)
        trim = _declared_box(page, "TrimBox", to_seen)
        bleed = _declared_box(page, "BleedBox", to_seen)
    return ArtPage(path, number, visible, trim, bleed)


def place_card(page: ArtPage, width_in: float, height_in: float, bleed_in: float) -> Placement:
    """Returns where a card of a declared size lies on the page.

    The TrimBox is believed when it has the declared size; else the page must be the card, alone or
    with `bleed_in`, 1/8 in or 3 mm on every side. Raises InputError that says by how much the
    sizes differ.
    """
    if page.trim is not None and _same_size(page.trim, width_in, height_in):
        margins = _margins(page.trim, page.visible)
        return Placement(page.trim, max(0.0, min(margins)), "its TrimBox has the card's size")
    for bleed in (bleed_in, *BLEEDS_IN, 0.0):
        if _same_size(page.visible, width_in + 2 * bleed, height_in + 2 * bleed):
            trim = Box(bleed, bleed, bleed + width_in, bleed + height_in)
            because = f"the page is the card and {format_length(bleed)} bleed"
            return Placement(trim, bleed, because if bleed else "the page is the card, no bleed")
    raise InputError(_misfit(page, width_in, height_in, bleed_in))


def trim_matrix(placement: Placement) -> Affine:
    """Returns the map from card inches (origin top left of the trim) to page points as seen."""
    scale = PT_PER_INCH
    return Affine(scale, 0, 0, scale, placement.trim.left * scale, placement.trim.top * scale)


def _same_size(box: Box, width_in: float, height_in: float) -> bool:
    return (
        abs(box.width - width_in) <= SIZE_TOLERANCE_IN
        and abs(box.height - height_in) <= SIZE_TOLERANCE_IN
    )


def _margins(inner: Box, outer: Box) -> tuple[float, float, float, float]:
    return (
        inner.left - outer.left,
        inner.top - outer.top,
        outer.right - inner.right,
        outer.bottom - inner.bottom,
    )


def _misfit(page: ArtPage, width_in: float, height_in: float, bleed_in: float) -> str:
    card = format_size(width_in, height_in)
    box = page.trim or page.visible
    name = "TrimBox" if page.trim else "page"
    wide, high = width_in, height_in
    if not page.trim:
        wide, high = width_in + 2 * bleed_in, height_in + 2 * bleed_in
    across, down = box.width - wide, box.height - high
    message = (
        f"{page.where}: the {name} is {format_size(box.width, box.height)}, the card {card}"
        f"{'' if page.trim else f' with {format_length(bleed_in)} bleed'} needs "
        f"{format_size(wide, high)}: {across:+.3f} in wide, {down:+.3f} in high"
    )
    if _same_size(Box(0, 0, box.height, box.width), wide, high):
        return f"{message}; the sides are swapped: turn the card's size, or the art"
    return f"{message}; declare the size the art has, or save the art at the card's size"


def seen_matrix(page: pymupdf.Page) -> Affine:
    """Returns the map from PDF user space to points as seen: cropped, rotated, y down."""
    pdf_page = mupdf.pdf_page_from_fz_page(page.this)
    matrix = mupdf.FzMatrix()
    mupdf.pdf_page_transform(pdf_page, mupdf.FzRect(), matrix)
    return Affine(matrix.a, matrix.b, matrix.c, matrix.d, matrix.e, matrix.f)


def _declared_box(page: pymupdf.Page, key: str, to_seen: Affine) -> Box | None:
    """Returns a box the page itself declares, in seen inches; none where it says nothing useful."""
    document = page.parent
    assert document is not None
    kind, text = document.xref_get_key(page.xref, key)
    numbers = [float(number) for number in _NUMBER.findall(text)] if kind == "array" else []
    if len(numbers) != 4:
        return None
    corners = (Point(numbers[0], numbers[1]), Point(numbers[2], numbers[3]))
    box = box_of(to_seen.point(corner) for corner in corners)
    inches = Box(*(value / PT_PER_INCH for value in box))
    return inches if inches.width > 0 and inches.height > 0 else None
