"""The boxes of a print page: the card is its TrimBox, the bleed that is asked for its BleedBox."""

from __future__ import annotations

from typing import Any

import pikepdf

from mockup.artwork.page import Placement
from mockup.artwork.print_copy import Corners, PageBoxes
from mockup.errors import InputError
from mockup.geometry.affine import Affine
from mockup.geometry.point import Box, Point, box_of
from mockup.vector.pdf_objects import entry, items_of, number

_DECIMALS = 4  # of a unit: well below a micrometre


def set_boxes(
    page: Any, placement: Placement, bleed_in: float, to_user: Affine
) -> tuple[PageBoxes, Corners]:
    """Sets a page's boxes, and returns them and how far the bleed goes beyond the card: left, up,
    right, down as seen, inches.

    MediaBox and CropBox stay where they are, so that nothing moves and nothing is cut off; the
    BleedBox is cut down to what is asked for and to what can be seen. `to_user` maps card inches to
    the page's own space. The ArtBox has gone before: one page has one box for its finished size
    (ISO 15930). Raises InputError for a page without a size.
    """
    media = _box(page, "/MediaBox")
    if media is None:
        raise InputError("the page has no size; save it again as PDF")
    crop = _meet(media, _box(page, "/CropBox") or media)
    trim = placement.trim
    # What is seen, by the map there and back, is what the bleed may reach.
    seen = _mapped(crop, to_user.inverse())
    card = Box(0.0, 0.0, trim.width, trim.height)
    bleed = _meet(card.grown(bleed_in), seen)
    told = number(entry(page, "/UserUnit"))
    boxes = PageBoxes(
        media,
        crop,
        _mapped(bleed, to_user),
        _mapped(card, to_user),
        told if told is not None and told > 0 else 1.0,
    )
    for key, corners in (("/BleedBox", boxes.bleed), ("/TrimBox", boxes.trim)):
        page[key] = pikepdf.Array([round(each, _DECIMALS) for each in corners])
    return boxes, card.margins_in(bleed)


def _box(page: Any, key: str) -> Box | None:
    """Returns a box with its corners in order; None where it is not four numbers."""
    found = [number(each) for each in items_of(entry(page, key))]
    told = [each for each in found if each is not None]
    if len(found) != 4 or len(told) != 4:
        return None
    x0, y0, x1, y1 = told
    box = Box(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))
    return box if box.width > 0 and box.height > 0 else None


def _meet(first: Box, second: Box) -> Box:
    return Box(
        max(first.left, second.left),
        max(first.top, second.top),
        min(first.right, second.right),
        min(first.bottom, second.bottom),
    )


def _mapped(box: Box, affine: Affine) -> Box:
    """Returns a box's image, for a map by quarter turns."""
    corners = (Point(box.left, box.top), Point(box.right, box.bottom))
    return box_of(affine.point(corner) for corner in corners)
