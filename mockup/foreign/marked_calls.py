"""Which operator of a page's drawings makes which painting call of MuPDF.

A copy of the page, in memory, has every painting operator on a layer of its own, named after the
operator; the library tells the layer with each call.
"""

# The methods MuPDF calls have the names and the meaning it gives them.
# pyright: reportIncompatibleMethodOverride=false
from __future__ import annotations

import io
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import pikepdf
import pymupdf
from pymupdf import mupdf

from mockup.foreign.drawings import INLINE_IMAGE, PATH_PAINTING, TYPE_SHOWING, drawings_of
from mockup.foreign.leaving_out import PAINTING
from mockup.foreign.library import drawing
from mockup.foreign.memberships import settled

PAINTERS = (*PATH_PAINTING, *TYPE_SHOWING, "sh", "Do", INLINE_IMAGE)
_TYPE = ("fill_text", "stroke_text")
_ENDED = "/OC <</Type/OCG/Name(%d.%d)>> BDC\n"

Place = tuple[int, int]
"""An operator: the number of its drawing, its number within it."""


@dataclass(frozen=True)
class Glyph:
    """A letter as it is placed: the font, its glyph, and the six numbers of its matrix, from the
    em to the user space of its drawing."""

    font: Any
    gid: int
    matrix: tuple[float, float, float, float, float, float]


@dataclass(frozen=True)
class Call:
    """One painting call: its name, the operator that made it if that is known, its letters."""

    method: str
    place: Place | None
    glyphs: tuple[Glyph, ...] = ()


class _Calls(mupdf.FzDevice2):
    """Notes painting calls in order, and the innermost of our layers they are made on."""

    def __init__(self) -> None:
        super().__init__()
        for call in (*PAINTING, "begin_layer", "end_layer"):
            getattr(self, f"use_virtual_{call}")()
        self.found: list[Call] = []
        self.fault: Exception | None = None
        self._layers: list[Place | None] = []

    def begin_layer(self, _c: Any, name: str) -> None:
        first, _, second = name.partition(".")
        ours = first.isdecimal() and second.isdecimal()
        self._layers.append((int(first), int(second)) if ours else None)

    def end_layer(self, _c: Any) -> None:
        if self._layers:
            self._layers.pop()

    def note(self, method: str, given: tuple[Any, ...]) -> None:
        place = next((each for each in reversed(self._layers) if each is not None), None)
        glyphs = _glyphs(given[0]) if method in _TYPE else ()
        self.found.append(Call(method, place, glyphs))


def _noting(method: str) -> Callable[..., None]:
    def note(self: Any, _c: Any, *given: Any) -> None:
        try:
            self.note(method, given)
        except Exception as error:  # the library would tell it as its own
            self.fault = self.fault or error

    return note


for _call in PAINTING:
    setattr(_Calls, _call, _noting(_call))


def _glyphs(text: Any) -> tuple[Glyph, ...]:
    found: list[Glyph] = []
    span = text.head
    while span:
        whole, trm = mupdf.FzTextSpan(span), span.trm
        held = mupdf.FzFont(mupdf.ll_fz_keep_font(span.font))
        for k in range(span.len):
            item = whole.items(k)
            if item.gid >= 0:
                matrix = (trm.a, trm.b, trm.c, trm.d, item.x, item.y)
                found.append(Glyph(held, item.gid, matrix))
        span = span.next
    return tuple(found)


def calls_of(page: pymupdf.Page) -> list[Call]:
    """Returns a page's painting calls, as for printing, numbered as marks are by their order."""
    device = _Calls()
    with drawing():
        pdf_page = mupdf.pdf_page_from_fz_page(page.this)
        mupdf.pdf_run_page_contents_with_usage(
            pdf_page, device, mupdf.FzMatrix(), "Print", mupdf.FzCookie()
        )
        mupdf.fz_close_device(device)
    if device.fault is not None:
        raise device.fault
    return device.found


def marked_calls(content: bytes, every_layer: bool, first: bytes = b"") -> list[Call]:
    """Returns the calls of a PDF's one page, each with its operator.

    `every_layer` has what is hidden painted as well. `first` is done before each letter that is
    set; as it stays in force, only where letters lie is then told truly. Raises InputError and
    LimitError for drawings that cannot be read.
    """
    with pikepdf.open(io.BytesIO(content)) as pdf:
        page = pdf.pages[0].obj
        for number, each in enumerate(drawings_of(pdf, page)):

            def marked(k: int, operation: Any, number: int = number) -> bytes:
                if operation.operator not in PAINTERS:
                    return operation.written
                begun = (_ENDED % (number, k)).encode()
                if operation.operator in TYPE_SHOWING:
                    begun += first
                return b"\n" + begun + operation.written + b"\nEMC\n"

            each.write(pdf, marked)
        if every_layer:
            _show_all(pdf, page)
        told = io.BytesIO()
        pdf.save(told)
    with drawing():
        copy = pymupdf.open(stream=settled(told.getvalue()), filetype="pdf")
        return calls_of(copy[0])


def _show_all(pdf: pikepdf.Pdf, page: Any) -> None:
    """Has every layer painted: a document without layers hides none."""
    if "/OCProperties" in pdf.Root:
        del pdf.Root["/OCProperties"]
