"""A page's boxes, read in a worker: as they are seen, in inches, cropped and turned."""

from __future__ import annotations

import math
import re

import pymupdf
from pymupdf import mupdf

from mockup.artwork.art import Art
from mockup.artwork.page import PageFacts
from mockup.errors import LimitError
from mockup.foreign.document import opened_page
from mockup.foreign.library import drawing, key_of
from mockup.geometry.affine import Affine
from mockup.geometry.point import Box, Point, box_of
from mockup.trade.limits import PAGE_SIDE_MAX_PT, PAGE_SIDE_MIN_PT
from mockup.units import PT_PER_INCH
from mockup.vector.stumbling import asked

_NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)")


def page_facts(art: Art) -> PageFacts:
    """Returns the boxes of a page. Raises InputError and LimitError, also for sides under 3 pt or
    over 14,400 pt."""
    page = opened_page(art).page
    width_pt, height_pt = page.rect.width, page.rect.height
    for side_pt in (width_pt, height_pt):
        if not PAGE_SIDE_MIN_PT <= side_pt <= PAGE_SIDE_MAX_PT:
            raise LimitError(
                f"the page is {width_pt / 72:.2f} x {height_pt / 72:.2f} in; "
                f"sides from {PAGE_SIDE_MIN_PT:.0f} pt to {PAGE_SIDE_MAX_PT / 72:.0f} in are taken"
            )
    visible = Box(0.0, 0.0, width_pt / PT_PER_INCH, height_pt / PT_PER_INCH)
    to_seen = seen_matrix(page)
    trim = _declared_box(page, "TrimBox", to_seen)
    return PageFacts(visible, trim, _declared_box(page, "BleedBox", to_seen))


def seen_matrix(page: pymupdf.Page) -> Affine:
    """Returns the map from PDF user space to points as seen: cropped, rotated, y down."""
    with drawing():
        pdf_page = mupdf.pdf_page_from_fz_page(page.this)
        matrix = mupdf.FzMatrix()
        mupdf.pdf_page_transform(pdf_page, mupdf.FzRect(), matrix)
    return Affine(matrix.a, matrix.b, matrix.c, matrix.d, matrix.e, matrix.f)


def _declared_box(page: pymupdf.Page, key: str, to_seen: Affine) -> Box | None:
    """Returns a box the page itself declares, in seen inches; none where it says nothing useful."""
    document = page.parent
    assert document is not None
    kind, text = key_of(document, page.xref, key)
    if kind == "xref":  # the box is an object of its own
        text = asked(document.xref_object, int(text.split()[0]), otherwise="").strip()
    numbers = [float(number) for number in _NUMBER.findall(text)] if text.startswith("[") else []
    if len(numbers) != 4 or not all(map(math.isfinite, numbers)):
        return None
    corners = (Point(numbers[0], numbers[1]), Point(numbers[2], numbers[3]))
    box = box_of(to_seen.point(corner) for corner in corners)
    inches = Box(*(value / PT_PER_INCH for value in box))
    return inches if inches.width > 0 and inches.height > 0 else None
