"""A page to draw on: inches from its top left, y down; type, exact outlines, pictures, rules.

A thin layer over reportlab, set so that the same drawing always gives the same bytes. What is drawn
is tagged as it is drawn, so drawing goes in the order a page is read in.
"""

from __future__ import annotations

import io
import zlib
from collections.abc import Generator, Sequence
from contextlib import contextmanager, nullcontext
from pathlib import Path
from typing import Any, BinaryIO, Literal

import numpy as np
import pikepdf
from PIL import Image
from reportlab import rl_config
from reportlab.lib.colors import Color
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import (
    FILL_EVEN_ODD,  # pyright: ignore[reportAttributeAccessIssue]  # not in the stubs
    Canvas,
)
from reportlab.pdfgen.pathobject import PDFPathObject

from mockup.colour.srgb import Rgb
from mockup.geometry.outline import Line, Shape
from mockup.geometry.path_data import drawable
from mockup.geometry.point import Box, Point
from mockup.output.files import whole_file
from mockup.output.jpeg import jpeg_bytes
from mockup.output.pdf_about import LANGUAGE, declare_srgb, describe
from mockup.output.pdf_form import give_font, tag_fields
from mockup.output.pdf_tags import Container, Element, Leaf, Span, write_structure
from mockup.output.typography import (
    HAIR,
    INK,
    QUIET,
    Style,
    font_name,
    kerned,
    line_width_in,
    wrapped,
)
from mockup.pixels import Bytes
from mockup.units import PT_PER_INCH, in_to_pt

Align = Literal["left", "centre", "right"]
Lines = Literal["one", "several"]

FIELD: Rgb = (246, 244, 240)
"""The ground of a field that waits to be filled."""
_ENTRY_PT = 11
HAIRLINE_PT = 0.35
_LOSSLESS_BYTES_PX = 0.5  # judgement: about what a JPEG of quality 92 takes of a texture
_SAMPLED_ROWS = 8  # of so many rows one is packed, to know how far a picture packs
_MIDDLE_RISE = 0.33  # of a size: half the height of its small letters and capitals, about
_PACKED: dict[str, Any] = {
    "object_stream_mode": pikepdf.ObjectStreamMode.generate,
    "compress_streams": True,
}
_SHARE_BEFORE = {"left": 0.0, "centre": 0.5, "right": 1.0}

rl_config.useA85 = 0  # streams as bytes: written as letters they are a quarter larger


class Pdf:
    """A PDF being drawn, one page after another."""

    def __init__(self, file: BinaryIO, title: str, author: str, subject: str) -> None:
        face = font_name("text")  # the library would begin with a font it does not embed
        self._canvas = Canvas(
            file,
            invariant=1,
            pageCompression=1,
            pdfVersion=(1, 6),
            initialFontName=face,  # pyright: ignore[reportArgumentType]  # the stubs say float
            lang=LANGUAGE,
        )
        self._canvas.setTitle(title)
        self._canvas.setAuthor(author)
        self._canvas.setSubject(subject)
        self._canvas.setCreator("Mockup")
        self._canvas.setProducer("Mockup, with ReportLab")
        self.width_in = 0.0
        self.height_in = 0.0
        self.elements = Element("Document")
        self._within = [self.elements]
        self._marking = False
        self._spans = 0

    def begin_page(
        self, width_in: float, height_in: float, bookmark: str, trim: Box | None = None
    ) -> None:
        """Begins a page of a size in inches, with an entry in the document's outline; its trim box
        is the page, or the box given."""
        self.end_page()
        self.width_in, self.height_in = width_in, height_in
        size_pt = (in_to_pt(width_in), in_to_pt(height_in))
        self._canvas.setPageSize(size_pt)
        box = trim or Box(0, 0, width_in, height_in)
        low, high = Point(box.left, box.bottom), Point(box.right, box.top)
        self._canvas.setTrimBox((*self._pt(low), *self._pt(high)))
        key = f"page-{self._canvas.getPageNumber()}"
        self._canvas.bookmarkPage(key)
        self._canvas.addOutlineEntry(bookmark, key)
        self._spans = 0
        section = Element("Sect")
        self.elements.parts.append(section)
        self._within = [self.elements, section]

    def end_page(self) -> None:
        """Ends the page being drawn, if there is one."""
        if self.width_in:
            self._canvas.showPage()
        self.width_in = 0.0

    def save(self) -> None:
        """Ends the last page and writes the file."""
        self.end_page()
        self._canvas.save()

    @contextmanager
    def group(self, role: Container) -> Generator[None]:
        """Takes the elements drawn inside together, as a list, a table or a row of it."""
        with self._element(Element(role)):
            yield

    @contextmanager
    def element(self, role: Leaf, alt: str = "") -> Generator[None]:
        """Takes all that is drawn inside as one element; `alt` tells a figure in words.

        Inside another element or an artifact it is a part of that one.
        """
        if self._marking:
            yield
            return
        span = Span(self._canvas.getPageNumber() - 1, self._spans)
        self._spans += 1
        with (
            self._element(Element(role, alt)),
            self._marked(f"/{role} <</MCID {span.number}>> BDC"),
        ):
            self._within[-1].parts.append(span)
            yield

    @contextmanager
    def artifact(self) -> Generator[None]:
        """Takes all that is drawn inside as no part of what the page says."""
        with nullcontext() if self._marking else self._marked("/Artifact BMC"):
            yield

    @contextmanager
    def footer(self) -> Generator[None]:
        """Takes all that is drawn inside as the running foot (ISO 32000-1 14.8.2.2.2)."""
        with self._marked("/Artifact <</Type /Pagination /Subtype /Footer>> BDC"):
            yield

    def text(self, at: Point, text: str, style: Style, align: Align = "left") -> None:
        """Sets one line with its baseline at `at`. Raises OutputError for a letter not there."""
        left = at.x - line_width_in(text, style) * _SHARE_BEFORE[align]
        with self.element("P"):
            self._set(*self._pt(Point(left, at.y)), text, style)

    def text_upward(self, at: Point, text: str, style: Style, align: Align = "left") -> None:
        """Sets one line that reads upward, its baseline beginning at `at`."""
        with self.element("P"), self._state():
            self._canvas.translate(*self._pt(at))
            self._canvas.rotate(90)
            before = line_width_in(text, style) * _SHARE_BEFORE[align]
            self._set(-in_to_pt(before), 0, text, style)

    def paragraph(
        self, at: Point, text: str, style: Style, measure_in: float, align: Align = "left"
    ) -> Point:
        """Sets a paragraph, its first baseline at `at`; returns where the next line would begin."""
        lines = wrapped(text, style, measure_in)
        with self.element("P") if lines else nullcontext():
            for number, line in enumerate(lines, start=1):
                left = at.x - line_width_in(line, style) * _SHARE_BEFORE[align]
                # A space at its end keeps a line's last word from the next one's first, read aloud.
                set_line = line if number == len(lines) else f"{line} "
                self._set(*self._pt(Point(left, at.y)), set_line, style)
                at = Point(at.x, at.y + style.leading_in)
        return at

    def rule(
        self,
        start: Point,
        end: Point,
        width_pt: float = HAIRLINE_PT,
        colour: Rgb = HAIR,
        dash_in: tuple[float, ...] = (),
    ) -> None:
        """Draws a straight line with flat ends, dashed where lengths are given."""
        with self.artifact(), self._state():
            self._pen(colour, width_pt)
            self._canvas.setDash([in_to_pt(length) for length in dash_in])
            self._canvas.line(*self._pt(start), *self._pt(end))

    def line(self, points: Sequence[Point], colour: Rgb, width_pt: float) -> None:
        """Draws a line through points, not closed."""
        if len(points) < 2:
            return
        with self.artifact(), self._state():
            self._pen(colour, width_pt)
            path = self._canvas.beginPath()
            path.moveTo(*self._pt(points[0]))
            for point in points[1:]:
                path.lineTo(*self._pt(point))
            self._canvas.drawPath(path, stroke=1, fill=0)

    def rectangle(self, box: Box, colour: Rgb, width_pt: float) -> None:
        """Draws the sides of a box."""
        corners = [Point(*corner) for corner in box.corners()]
        self.line([*corners, corners[0], corners[1]], colour, width_pt)

    def fill(self, shape: Shape, colour: Rgb) -> None:
        """Fills a shape, its holes left open."""
        with self.artifact(), self._state():
            self._canvas.setFillColorRGB(*_shares(colour))
            self._canvas.drawPath(self._path(shape), stroke=0, fill=1, fillMode=FILL_EVEN_ODD)

    def stroke(
        self, shape: Shape, colour: Rgb, width_pt: float, dash_in: tuple[float, ...] = ()
    ) -> None:
        """Strokes a shape's outlines, the line centred on them, corners mitred."""
        with self.artifact(), self._state():
            self._pen(colour, width_pt)
            self._canvas.setDash([in_to_pt(length) for length in dash_in])
            self._canvas.drawPath(self._path(shape), stroke=1, fill=0)

    def picture(self, pixels: Bytes, box: Box, clip: Shape | None = None) -> None:
        """Places an opaque (h, w, 3) sRGB picture in a box, losslessly, cut to a shape's path."""
        self._place(ImageReader(Image.fromarray(pixels)), box, clip)

    def art(self, pixels: Bytes, box: Box, clip: Shape | None = None) -> None:
        """Places a picture of art: losslessly where that is no larger than a photograph would be,
        else as one; cut to a shape's path."""
        packed = zlib.compress(np.ascontiguousarray(pixels[::_SAMPLED_ROWS]).tobytes(), 6)
        if len(packed) * _SAMPLED_ROWS <= _LOSSLESS_BYTES_PX * pixels.shape[0] * pixels.shape[1]:
            self.picture(pixels, box, clip)
        else:
            self._place(ImageReader(io.BytesIO(jpeg_bytes(pixels, PT_PER_INCH))), box, clip)

    def text_over(self, text: str, style: Style, angle_deg: float, opacity: float) -> None:
        """Sets one line across the middle of the page, turned up from level, so opaque (0 to 1)."""
        with self.artifact(), self._state():
            self._canvas.setFillAlpha(opacity)
            self._canvas.translate(in_to_pt(self.width_in / 2), in_to_pt(self.height_in / 2))
            self._canvas.rotate(angle_deg)
            half = in_to_pt(line_width_in(text, style)) / 2
            self._set(-half, -style.size_pt * _MIDDLE_RISE, text, style)

    def photograph(self, pixels: Bytes, box: Box) -> None:
        """Places an (h, w, 3) sRGB picture as JPEG, quality 92, its colour not halved."""
        self._place(ImageReader(io.BytesIO(jpeg_bytes(pixels, PT_PER_INCH))), box, None)

    @contextmanager
    def clipped(self, shape: Shape) -> Generator[None]:
        """Cuts all that is drawn inside to a shape."""
        with self._state():
            self._canvas.clipPath(self._path(shape), stroke=0, fill=0, fillMode=FILL_EVEN_ODD)
            yield

    def choice(self, field: str, value: str, box: Box, told: str) -> None:
        """Places one button of a form's field of which at most one is pressed, on a square box.

        `told` says in words what the field is for; a button can be pressed again to release it.
        """
        form: Any = self._canvas.acroForm  # the stubs say whole numbers
        form.radio(
            name=field,
            value=value,
            tooltip=told,
            buttonStyle="check",
            shape="square",
            size=in_to_pt(box.width),
            fieldFlags="radio",
            **self._field_look(box),
        )

    def entry(self, field: str, box: Box, told: str, lines: Lines = "one") -> None:
        """Places a field to write in, of one line or of several."""
        form: Any = self._canvas.acroForm
        form.textfield(
            name=field,
            tooltip=told,
            width=in_to_pt(box.width),
            height=in_to_pt(box.height),
            fontSize=_ENTRY_PT,
            maxlen=None,
            fieldFlags="multiline" if lines == "several" else "",
            **self._field_look(box),
        )

    def _field_look(self, box: Box) -> dict[str, Any]:
        left, bottom = self._pt(Point(box.left, box.bottom))
        return {
            "x": left,
            "y": bottom,
            "borderWidth": 0.6,
            "borderColor": Color(*_shares(QUIET)),
            "fillColor": Color(*_shares(FIELD)),
            "textColor": Color(*_shares(INK)),
        }

    def _place(self, image: ImageReader, box: Box, clip: Shape | None) -> None:
        left, bottom = self._pt(Point(box.left, box.bottom))
        cut = nullcontext() if clip is None else self.clipped(clip)
        with self.artifact(), cut:
            self._canvas.drawImage(image, left, bottom, in_to_pt(box.width), in_to_pt(box.height))

    def _set(self, x_pt: float, y_pt: float, text: str, style: Style) -> None:
        run = self._canvas.beginText(x_pt, y_pt)
        run.setFont(font_name(style.face), style.size_pt, style.leading_pt)
        run.setFillColorRGB(*_shares(style.colour))
        run.setCharSpace(style.tracking_pt)
        run.textOut(kerned(text, style))
        self._canvas.drawText(run)

    def _path(self, shape: Shape) -> PDFPathObject:
        path = self._canvas.beginPath()
        for outline in shape.outlines:
            path.moveTo(*self._pt(outline.segments[0].start))
            for part in drawable(outline):
                if isinstance(part, Line):
                    path.lineTo(*self._pt(part.end))
                else:
                    controls = (part.control1, part.control2, part.end)
                    path.curveTo(*(value for point in controls for value in self._pt(point)))
            path.close()
        return path

    def _pen(self, colour: Rgb, width_pt: float) -> None:
        self._canvas.setStrokeColorRGB(*_shares(colour))
        self._canvas.setLineWidth(width_pt)
        self._canvas.setLineCap(0)
        self._canvas.setLineJoin(0)

    def _pt(self, point: Point) -> tuple[float, float]:
        """Returns a place of the page in PDF points, y up."""
        return in_to_pt(point.x), in_to_pt(self.height_in - point.y)

    @contextmanager
    def _element(self, element: Element) -> Generator[None]:
        self._within[-1].parts.append(element)
        self._within.append(element)
        try:
            yield
        finally:
            self._within.pop()

    @contextmanager
    def _marked(self, opening: str) -> Generator[None]:
        """Marks what is drawn inside; spans never lie in one another (ISO 32000-1 14.7.4.2)."""
        self._canvas.addLiteral(opening)
        self._marking = True
        try:
            yield
        finally:
            self._marking = False
            self._canvas.addLiteral("EMC")

    @contextmanager
    def _state(self) -> Generator[None]:
        self._canvas.saveState()
        try:
            yield
        finally:
            self._canvas.restoreState()


@contextmanager
def whole_pdf(path: Path, title: str, author: str, subject: str) -> Generator[Pdf]:
    """Yields a PDF to draw on; its file is written whole at the end, or not at all.

    Every colour in it is sRGB, and says so. Raises OutputError where it cannot be written.
    """
    with whole_file(path) as beside:
        drawn = io.BytesIO()
        pdf = Pdf(drawn, title, author, subject)
        yield pdf
        pdf.save()
        drawn.seek(0)
        with pikepdf.open(drawn) as document:
            declare_srgb(document)
            write_structure(document, pdf.elements)
            give_font(document)
            tag_fields(document)
            describe(document)
            written = io.BytesIO()  # where a disk is full, its library would end the process
            document.save(written, deterministic_id=True, **_PACKED)
        beside.write_bytes(written.getbuffer())


def _shares(colour: Rgb) -> tuple[float, float, float]:
    return colour[0] / 255, colour[1] / 255, colour[2] / 255
