"""A flat print page: trim plus 1/8 in bleed, filled outlines, live type, one image kind.

Drawing is in inches from the top left corner of the trim, x right, y down; every colour is the
four inks' own numbers.
"""

from __future__ import annotations

import io
from collections.abc import Iterable
from pathlib import Path

import pikepdf
from curves import Outline
from embedding import advance, embedded, stream
from exchange import PDF, say_what_it_is
from palette import Ink
from pikepdf import Array, Dictionary, Name
from PIL import Image
from typeset import Face, Line

BLEED = 0.125


class Page:
    """One page being drawn; width and height are the trim's, in inches."""

    def __init__(self, width: float, height: float) -> None:
        self.width, self.height = width, height
        self._ops: list[str] = []
        self._faces: dict[str, tuple[Face, dict[int, str]]] = {}
        self._images: list[tuple[bytes, tuple[int, int]]] = []

    def flood(self, ink: Ink) -> None:
        """Fills the whole sheet, bleed included."""
        x = y = -BLEED
        w, h = self.width + 2 * BLEED, self.height + 2 * BLEED
        self._ops.append(f"{self._colour(ink, 'fill')} {_n(x, y, w, h)} re f")

    def fill(self, outlines: Iterable[Outline], ink: Ink) -> None:
        """Fills outlines in one colour, non-zero winding."""
        self._ops.append(self._colour(ink, "fill"))
        self._ops.extend(f"{_path(outline)} f" for outline in outlines)

    def stroke(self, outlines: Iterable[Outline], ink: Ink, width_pt: float) -> None:
        """Strokes outlines in one colour with round caps and joins; width in points."""
        self._ops.append(f"{self._colour(ink, 'stroke')} {_n(width_pt / 72)} w 1 J 1 j")
        self._ops.extend(f"{_path(outline)} S" for outline in outlines)

    def clip(self, outline: Outline) -> None:
        """Keeps what follows inside outline, until unclip."""
        self._ops.append(f"q {_path(outline)} W n")

    def unclip(self) -> None:
        """Ends the clip set last."""
        self._ops.append("Q")

    def live(self, line: Line, x: float, y: float, ink: Ink) -> None:
        """Writes a line as live type, its origin at (x, y); every advance is kept exactly."""
        face = line.style.face
        name = f"F{list(self._faces).index(face.name)}" if face.name in self._faces else None
        _, used = self._faces.setdefault(face.name, (face, {}))
        name = name or f"F{len(self._faces) - 1}"
        parts: list[str] = []
        for glyph in line.glyphs:
            used.setdefault(glyph.number, glyph.text)
            natural = advance(face, glyph.number) / face.upem
            parts.append(f"<{glyph.number:04X}>{_n((natural - glyph.advance / line.em) * 1000)}")
        self._ops.append(
            f"BT {self._colour(ink, 'fill')} /{name} 1 Tf "
            f"{_n(line.em, 0, 0, -line.em, x, y)} Tm [{''.join(parts)}] TJ ET"
        )

    def place(self, jpeg: bytes, x: float, y: float, width: float, height: float) -> None:
        """Places a JPEG with its top left corner at (x, y), inches."""
        size = Image.open(io.BytesIO(jpeg)).size
        self._ops.append(
            f"q {_n(width, 0, 0, -height, x, y + height)} cm /I{len(self._images)} Do Q"
        )
        self._images.append((jpeg, size))

    def save(self, path: Path, title: str) -> None:
        """Writes the page as a one-page PDF at path."""
        pdf = pikepdf.new()
        resources = Dictionary()
        if self._faces:
            fonts = [embedded(pdf, face, used) for face, used in self._faces.values()]
            resources.Font = Dictionary({f"/F{i}": font for i, font in enumerate(fonts)})
        if self._images:
            images = [_image(pdf, *image) for image in self._images]
            resources.XObject = Dictionary({f"/I{i}": image for i, image in enumerate(images)})
        edge = BLEED * 72
        w, h = self.width * 72, self.height * 72
        media, trim = [0, 0, w + 2 * edge, h + 2 * edge], [edge, edge, w + edge, h + edge]
        matrix = f"72 0 0 -72 {edge:g} {h + edge:g} cm"
        drawing = "\n".join([matrix, *self._ops]).encode("ascii")
        page = Dictionary(
            Type=Name.Page,
            MediaBox=Array(media),
            BleedBox=Array(media),
            TrimBox=Array(trim),
            Resources=resources,
            Contents=stream(pdf, drawing),
        )
        pdf.pages.append(pikepdf.Page(pdf.make_indirect(page)))
        say_what_it_is(pdf, title, drawing)
        pdf.save(path, force_version=PDF, deterministic_id=True, compress_streams=False)

    def _colour(self, ink: Ink, use: str) -> str:
        operator = {"fill": "k", "stroke": "K"}[use]
        return f"{_n(*(v / 100 for v in ink.cmyk))} {operator}"


def _n(*values: float) -> str:
    return " ".join(f"{v:.4f}".rstrip("0").rstrip(".").replace("-0.", "-.") or "0" for v in values)


def _path(outline: Outline) -> str:
    return " ".join(f"{_n(*values)} {op}" if values else op for op, values in outline)


def _image(pdf: pikepdf.Pdf, jpeg: bytes, size: tuple[int, int]) -> pikepdf.Object:
    """Returns a JPEG of four inks; its Adobe form counts from full ink down."""
    picture = pikepdf.Stream(
        pdf,
        jpeg,
        Type=Name.XObject,
        Subtype=Name.Image,
        Width=size[0],
        Height=size[1],
        ColorSpace=Name.DeviceCMYK,
        BitsPerComponent=8,
        Decode=Array([1, 0] * 4),
        Filter=Name.DCTDecode,
    )
    return pdf.make_indirect(picture)
