"""A proof that came back, read in a worker: its fields, its codes, and what is ticked or written.

A page is looked at as a reader shows it, with its fields and whatever was written on top.
"""

from __future__ import annotations

import hashlib
import io
from collections.abc import Iterator
from typing import Any

import numpy as np
import pikepdf
import pymupdf
import zxingcpp

from mockup.artwork.art import Art
from mockup.foreign.document import opened_file, opened_page
from mockup.foreign.library import drawing
from mockup.foreign.tick_boxes import ink_inside
from mockup.geometry.affine import Affine
from mockup.geometry.point import Box, Point
from mockup.pixels import Bytes
from mockup.record.paper import Code, Look, Places, Returned
from mockup.sources import read_whole
from mockup.trade.limits import FILE_MAX_BYTES
from mockup.units import PT_PER_INCH
from mockup.vector.stumbling import asked

_PPI = 300  # judgement: a module of our code is then eight pixels
_SIDE_MAX_PX = 4000  # of a page looked at for codes
_NO_INK = {"/Parent", "/StructParents", "/StructParent", "/Annots", "/Metadata", "/Tabs", "/B"}
_ONE_SIZE = 0.002  # of a side: sizes that differ by the rounding of a box
_OBJECTS_MAX = 20_000  # judgement: of one page; a proof's has some hundred

_LIBRARY: Any = pymupdf  # its constants have no types
_BUTTONS = (_LIBRARY.PDF_WIDGET_TYPE_RADIOBUTTON, _LIBRARY.PDF_WIDGET_TYPE_CHECKBOX)
_DRAWN = (
    *(_LIBRARY.PDF_ANNOT_INK, _LIBRARY.PDF_ANNOT_LINE, _LIBRARY.PDF_ANNOT_STAMP),
    *(_LIBRARY.PDF_ANNOT_POLY_LINE, _LIBRARY.PDF_ANNOT_CIRCLE, _LIBRARY.PDF_ANNOT_SQUARE),
)
_BY_PEN = 0.5  # dark: as a bold tick
_BESIDE_IN, _TICK_MOST_IN = 0.08, 1.2  # judgement: how a finger aims, and how it ticks
_WRITTEN = (_LIBRARY.PDF_ANNOT_FREE_TEXT, _LIBRARY.PDF_ANNOT_TEXT)


def read(art: Art) -> Returned:
    """Returns what a file that came back says. Raises InputError and LimitError."""
    pages = opened_file(art).document.page_count
    fields: dict[str, str] = {}
    codes: list[Code] = []
    for number in range(1, pages + 1):
        page = opened_file(art).page(number).page
        for name, value in _fields(page):
            fields[name] = value or fields.get(name, "")
        codes += _codes(page, number)
    return Returned(tuple(fields.items()), tuple(codes), page_digests(art), pages)


def look(art: Art, places: Places) -> tuple[Look, ...]:
    """Returns what is seen in each of some boxes of a page."""
    page = opened_page(art).page
    grey, scale = _grey(page)
    with drawing():
        written = [*_words(page), *_remarks(page)]
        ticks = list(_ticks(page))
    found: list[Look] = []
    for box in places.boxes:
        here = _mapped(places.onto, box)
        words = [text for at, text in written if _holds(here, at)]
        ticked = any(_holds(here.grown(_BESIDE_IN), at) for at in ticks)
        found.append(Look(_BY_PEN if ticked else ink_inside(grey, here, scale), " ".join(words)))
    return tuple(found)


def page_digests(art: Art) -> tuple[str, ...]:
    """Returns the SHA-256 of what each page draws, whatever file holds it.

    Of its content, unpacked, and of every object it draws with; a program that only fills in fields
    leaves it as it was. Empty where the file cannot be taken apart.
    """
    content = read_whole(art.path, FILE_MAX_BYTES)

    def of_all() -> tuple[str, ...]:
        with pikepdf.open(io.BytesIO(content)) as pdf:
            return tuple(_page_digest(page) for page in pdf.pages)

    return asked(of_all, otherwise=())


def pictured(art: Art, sent: Art, number: int, ppi: float) -> Bytes:
    """Returns a page laid on the page `number` of another file as printing lays it, (h, w, 3) sRGB.

    One of the same size as it is; one of another size made to fit, in the middle of it, as
    programs print a page on a paper it was not made for. Raises InputError and LimitError.
    """
    page, wanted = opened_page(art).page, opened_file(sent).page(number).page
    width, height = (round(side * ppi / PT_PER_INCH) for side in wanted.rect.br)
    across, down = wanted.rect.width / page.rect.width, wanted.rect.height / page.rect.height
    # Where a page was made to fit another, one of its sides was filled: that is undone.
    fit = max(across, down) if abs(across - down) > _ONE_SIZE else across
    zoom = fit * ppi / PT_PER_INCH
    with drawing():
        drawn = page.get_pixmap(
            matrix=pymupdf.Matrix(zoom, zoom), colorspace=pymupdf.csRGB, alpha=False, annots=False
        )
    seen = np.frombuffer(drawn.samples, np.uint8).reshape(drawn.height, drawn.width, 3)
    return _centred(seen, width, height)


def _centred(picture: Bytes, width: int, height: int) -> Bytes:
    """Returns a picture in the middle of a white one of another size, what sticks out cut off."""
    laid = np.full((height, width, 3), 255, np.uint8)
    rows, columns = (min(a, b) for a, b in zip(picture.shape[:2], (height, width), strict=True))
    top, left = (height - rows) // 2, (width - columns) // 2
    above, before = (picture.shape[0] - rows) // 2, (picture.shape[1] - columns) // 2
    part = picture[above : above + rows, before : before + columns]
    laid[top : top + rows, left : left + columns] = part
    return laid


def _fields(page: pymupdf.Page) -> Iterator[tuple[str, str]]:
    """Yields the names and values of a page's fields; of a button that is not pressed, nothing."""
    with drawing():
        widgets: list[Any] = list(page.widgets())
    for widget in widgets:
        name, value = str(widget.field_name or ""), widget.field_value
        if widget.field_type in _BUTTONS:
            state = str(widget.on_state())
            pressed = value is True or str(value).lstrip("/") == state
            yield name, state if pressed else ""
        else:
            yield name, "" if value is None else str(value)


def _codes(page: pymupdf.Page, number: int) -> Iterator[Code]:
    grey, scale = _grey(page)
    reader: Any = zxingcpp  # one format counts as several, which its stubs do not say
    for found in reader.read_barcodes(grey, reader.BarcodeFormat.QRCode):
        at = found.position
        corners = (at.top_left, at.top_right, at.bottom_right, at.bottom_left)
        places = [Point(corner.x / scale, corner.y / scale) for corner in corners]
        size = Point(grey.shape[1] / scale, grey.shape[0] / scale)
        yield Code(number, found.text, (places[0], places[1], places[2], places[3]), size)


def _grey(page: pymupdf.Page) -> tuple[Bytes, float]:
    """Returns a page as it is seen, (h, w) uint8, and its pixels an inch."""
    longest = max(page.rect.width, page.rect.height, 1.0) / PT_PER_INCH
    ppi = min(_PPI, _SIDE_MAX_PX / longest)
    zoom = ppi / PT_PER_INCH
    with drawing():
        drawn = page.get_pixmap(
            matrix=pymupdf.Matrix(zoom, zoom), colorspace=pymupdf.csGRAY, alpha=False, annots=True
        )
    pixels = np.frombuffer(drawn.samples, np.uint8).reshape(drawn.height, drawn.stride)
    return np.ascontiguousarray(pixels[:, : drawn.width]), ppi


def _words(page: pymupdf.Page) -> Iterator[tuple[Point, str]]:
    """Yields the words of a page and their middles, inches, as it is seen."""
    turned = page.rotation_matrix
    words: list[Any] = list(page.get_text("words", sort=True))
    for left, top, right, bottom, text, *_ in words:
        middle = pymupdf.Point((left + right) / 2, (top + bottom) / 2) * turned
        yield Point(middle.x / PT_PER_INCH, middle.y / PT_PER_INCH), str(text)


def _remarks(page: pymupdf.Page) -> Iterator[tuple[Point, str]]:
    """Yields what was written on top of a page, and where."""
    for remark in page.annots(types=_WRITTEN):
        text = str(remark.info.get("content", "")).strip()
        if text:
            box = remark.rect * page.rotation_matrix
            middle = Point((box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2)
            yield Point(middle.x / PT_PER_INCH, middle.y / PT_PER_INCH), text


def _ticks(page: pymupdf.Page) -> Iterator[Point]:
    """Yields the middles of what a telephone's pen drew on a page: small things, which the library
    draws under the fields they were put upon."""
    for drawn in page.annots(types=_DRAWN):
        box = drawn.rect * page.rotation_matrix
        if max(box.width, box.height) < _TICK_MOST_IN * PT_PER_INCH:
            yield Point((box.x0 + box.x1) / 2 / PT_PER_INCH, (box.y0 + box.y1) / 2 / PT_PER_INCH)


def _mapped(onto: Affine, box: Box) -> Box:
    corners = [onto.point(Point(*corner)) for corner in box.corners()]
    xs, ys = [corner.x for corner in corners], [corner.y for corner in corners]
    return Box(min(xs), min(ys), max(xs), max(ys))


def _holds(box: Box, at: Point) -> bool:
    return box.left <= at.x <= box.right and box.top <= at.y <= box.bottom


def _page_digest(page: pikepdf.Page) -> str:
    mark = hashlib.sha256()
    contents = page.obj.get("/Contents", pikepdf.Array())
    streams = list(contents) if isinstance(contents, pikepdf.Array) else [contents]
    for stream in streams:
        mark.update(stream.read_bytes().strip() + b"\n")
    seen: set[tuple[int, int]] = set()
    _told(page.resources, mark, seen)
    mark.update(repr([round(float(each), 3) for each in page.mediabox]).encode())
    return mark.hexdigest()


def _told(thing: Any, mark: Any, seen: set[tuple[int, int]]) -> None:
    """Tells a digest an object and all it leads to, by value, each once."""
    waiting: list[Any] = [thing]
    while waiting and len(seen) < _OBJECTS_MAX:
        each = waiting.pop()
        if isinstance(each, pikepdf.Object) and each.is_indirect:
            if each.objgen in seen:
                continue
            seen.add(each.objgen)
        if isinstance(each, pikepdf.Stream):
            mark.update(_unpacked(each))
        if isinstance(each, pikepdf.Dictionary | pikepdf.Stream):
            held = each.stream_dict if isinstance(each, pikepdf.Stream) else each
            names = sorted(name for name in list(held.keys()) if name not in _NO_INK | _PACKING)
            mark.update(" ".join(names).encode())
            waiting += [held[name] for name in names]
        elif isinstance(each, pikepdf.Array):
            waiting += list(each)
        else:
            mark.update(f"{each!s};".encode())


_PACKING = {"/Length", "/Filter", "/DecodeParms", "/DL"}


def _unpacked(stream: pikepdf.Stream) -> bytes:
    return asked(stream.read_bytes, otherwise=b"") or asked(stream.read_raw_bytes, otherwise=b"")
