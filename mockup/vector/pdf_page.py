"""Templates saved as PDF: the page turned to inches as seen, layers and processing steps named.

Read with pikepdf: what is painted, through every form, with its layer and its inks.
"""

from __future__ import annotations

import io
import re
from typing import Any

import pikepdf

from mockup.errors import InputError, LimitError, with_file
from mockup.geometry.affine import Affine, rotation, scaling, translation
from mockup.geometry.point import Box, Point, box_of
from mockup.units import PT_PER_INCH
from mockup.vector.optional_content import layers_of_template
from mockup.vector.pdf_content import PaintedPaths
from mockup.vector.pdf_ending import CUT_SHORT, lacks_its_end
from mockup.vector.pdf_objects import dictionary, entry, items_of, number, numbers
from mockup.vector.stumbling import asked
from mockup.vector.template import Template

_STREAM = re.compile(r"^stream <[^>]*>(?: \([^)]*\))?: ")  # how qpdf calls bytes in memory
_ABOVE_MAX = 64  # nodes above a page; judgement: a tree of a million pages is not half as deep


def read_pdf_template(name: str, source: bytes, page_number: int = 1) -> Template:
    """Returns what is painted on a page (from 1) of a PDF: paths in inches, as the page is seen.

    `name` is how messages call the file. Raises InputError for one that is not a readable PDF, has
    no such page or needs a password; LimitError for one beyond the limits.
    """
    try:
        with _opened(source) as pdf:
            return _page_template(name, pdf, page_number)
    except (InputError, LimitError) as error:
        raise with_file(error, name) from error


def read_last_drawing(name: str, source: bytes) -> Template:
    """Returns what the last content stream of a PDF's first page paints, and nothing before it: the
    part of it that a program added, where all of it is too much. Raises as read_pdf_template."""
    try:
        with _opened(source) as pdf:
            page: Any = asked(lambda: pdf.pages[0].obj, otherwise=None)
            streams = items_of(entry(page, "/Contents"))
            if streams:
                page["/Contents"] = streams[-1]
            return _page_template(name, pdf, 1)
    except (InputError, LimitError) as error:
        raise with_file(error, name) from error


def _opened(source: bytes) -> pikepdf.Pdf:
    try:
        pdf = pikepdf.open(io.BytesIO(source))
        rebuilt = bool(pdf.get_warnings())
    except pikepdf.PasswordError as error:
        raise InputError("is protected by a password; save a copy without it") from error
    except MemoryError:
        raise
    except Exception as error:  # one call of the library: whatever it raises here is its own
        said = _STREAM.sub("", " ".join(str(error).split()))[:120]
        raise InputError(f"is broken ({said}); save it again as PDF") from error
    if rebuilt and lacks_its_end(source):
        raise InputError(CUT_SHORT)
    return pdf


def _page_template(name: str, pdf: pikepdf.Pdf, page_number: int) -> Template:
    count = asked(lambda: len(pdf.pages), otherwise=0)
    if not count:
        raise InputError("has no pages, or is broken; save it again as PDF")
    if not 1 <= page_number <= count:
        raise InputError(f"there is no page {page_number}; the file has {count}")
    page = asked(lambda: pdf.pages[page_number - 1], otherwise=None)
    if page is None:
        raise InputError(f"is broken (page {page_number} cannot be read); save it again as PDF")
    box = _visible_box(page.obj)
    told = number(_inherited(page.obj, "/UserUnit"))
    unit = (told if told is not None and told > 0 else 1.0) / PT_PER_INCH
    turn = round(number(_inherited(page.obj, "/Rotate")) or 0.0)
    if turn % 90:
        raise InputError(f"page {page_number} is turned by {turn} degrees, not by a quarter")
    reader = PaintedPaths(layers_of_template(pdf))
    resources = dictionary(_inherited(page.obj, "/Resources"))
    as_seen = _as_seen(box, unit, turn)
    reader.read_page(page, resources, as_seen)
    width, height = box.width * unit, box.height * unit
    if turn % 180:
        width, height = height, width
    return Template(name, width, height, tuple(reader.paths), trim=_trim(page.obj, as_seen))


def _trim(page: Any, as_seen: Affine) -> Box | None:
    """Returns the TrimBox (ISO 32000-1 14.11.2.1) in inches as the page is seen, or None."""
    found = items_of(entry(page, "/TrimBox"))
    if not found:
        return None
    x0, y0, x1, y1 = numbers(found, 4, "/TrimBox")
    return box_of(as_seen.point(corner) for corner in (Point(x0, y0), Point(x1, y1)))


def _visible_box(page: Any) -> Box:
    """Returns the CropBox within the MediaBox (ISO 32000-1 14.11.2), points or user units."""
    boxes: list[Box] = []
    for key in ("/MediaBox", "/CropBox"):
        found = items_of(_inherited(page, key))
        if found:
            x0, y0, x1, y1 = numbers(found, 4, key)
            boxes.append(Box(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)))
    if not boxes:
        raise InputError("the page has no size; save it again as PDF")
    media, crop = boxes[0], boxes[-1]
    box = Box(
        max(media.left, crop.left),
        max(media.top, crop.top),
        min(media.right, crop.right),
        min(media.bottom, crop.bottom),
    )
    if box.width <= 0 or box.height <= 0:
        raise InputError("the page has no size; save it again as PDF")
    return box


def _as_seen(box: Box, unit: float, turn_deg: int) -> Affine:
    """Returns the map from user space to inches from the top left of the page as it is shown."""
    upright = scaling(unit) @ Affine(1, 0, 0, -1, -box.left, box.bottom)
    width, height = box.width * unit, box.height * unit
    back = {
        0: translation(0, 0),
        90: translation(height, 0),
        180: translation(width, height),
        270: translation(0, width),
    }[turn_deg % 360]
    return back @ rotation(turn_deg) @ upright


def _inherited(node: Any, key: str) -> Any:
    """Returns a page attribute, from the page or from the nodes above it (ISO 32000-1 7.7.3.4)."""
    for _ in range(_ABOVE_MAX):
        found = entry(node, key)
        if found is not None:
            return found
        node = entry(node, "/Parent")
    return None
