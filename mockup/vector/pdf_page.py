"""Templates saved as PDF: the page turned to inches as seen, layers and processing steps named.

Read with pikepdf: what is painted, through every form, with its layer and its inks.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pikepdf

from mockup.errors import InputError, LimitError
from mockup.geometry.affine import Affine, rotation, scaling, translation
from mockup.geometry.point import Box
from mockup.trade.limits import FILE_MAX_BYTES
from mockup.units import PT_PER_INCH
from mockup.vector.pdf_content import PaintedPaths
from mockup.vector.template import Template


def read_pdf_template(path: Path, page_number: int = 1) -> Template:
    """Returns what is painted on a page (from 1) of a PDF: paths in inches, as the page is seen.

    Raises InputError for a file that is not a readable PDF, has no such page or needs a password;
    LimitError for one beyond the limits.
    """
    if path.stat().st_size > FILE_MAX_BYTES:
        raise LimitError(f"{path}: is over {FILE_MAX_BYTES // 1024**2} MB, the limit")
    try:
        with pikepdf.open(path) as pdf:
            return _page_template(path, pdf, page_number)
    except pikepdf.PasswordError as error:
        raise InputError(f"{path}: is protected by a password; save a copy without it") from error
    except (pikepdf.PdfError, ValueError, TypeError, LookupError, AttributeError) as error:
        said = " ".join(str(error).split())[:120]
        raise InputError(f"{path}: is broken ({said}); save it again as PDF") from error


def _page_template(path: Path, pdf: pikepdf.Pdf, number: int) -> Template:
    count = len(pdf.pages)
    if not 1 <= number <= count:
        raise InputError(f"{path}: there is no page {number}; the file has {count}")
    page = pdf.pages[number - 1]
    box = _visible_box(path, page)
    unit = _number(_inherited(page.obj, "/UserUnit"), 1.0) / PT_PER_INCH
    turn = round(_number(_inherited(page.obj, "/Rotate"), 0.0))
    if turn % 90:
        raise InputError(f"{path}: page {number} is turned by {turn} degrees, not by a quarter")
    to_inches = _as_seen(box, unit, turn)
    reader = PaintedPaths(str(path))
    reader.read_page(page, to_inches)
    width, height = box.width * unit, box.height * unit
    if turn % 180:
        width, height = height, width
    return Template(str(path), width, height, tuple(reader.paths))


def _visible_box(path: Path, page: pikepdf.Page) -> Box:
    """Returns the CropBox within the MediaBox (ISO 32000-1 14.11.2), points or user units."""
    boxes: list[Box] = []
    for key in ("/MediaBox", "/CropBox"):
        found = _inherited(page.obj, key)
        if found is not None:
            x0, y0, x1, y1 = (float(value) for value in found)
            boxes.append(Box(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)))
    if not boxes:
        raise InputError(f"{path}: the page has no size; save it again as PDF")
    media, crop = boxes[0], boxes[-1]
    box = Box(
        max(media.left, crop.left),
        max(media.top, crop.top),
        min(media.right, crop.right),
        min(media.bottom, crop.bottom),
    )
    if box.width <= 0 or box.height <= 0:
        raise InputError(f"{path}: the page has no size; save it again as PDF")
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
    for _ in range(64):
        if key in node:
            return node[key]
        if "/Parent" not in node:
            return None
        node = node["/Parent"]
    return None


def _number(value: Any, default: float) -> float:
    return default if value is None else float(value)
