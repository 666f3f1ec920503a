"""A page of samples with their names: papers, envelopes, scenes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from mockup.geometry.affine import scaling, translation
from mockup.geometry.outline import Shape
from mockup.geometry.point import Box, Point
from mockup.output.pdf import Pdf, whole_pdf
from mockup.output.pdf_picture import write_page
from mockup.output.typography import INK, QUIET, Style, wrapped
from mockup.pixels import Bytes

WIDTH_IN = 8.5
_SIDE_IN = 0.6
_TOP_IN = 1.3
_FOOT_IN = 0.6
_GAP_IN = 0.3
_UNDER_IN = 0.2  # from a sample to its name's baseline
_LINE_PT = 0.5
_DASH_IN = (0.04, 0.03)

_TITLE = Style("light", 24, 28)
_ABOUT = Style("text", 9, 12, QUIET)
_NAME = Style("text", 9, 11)
_FINE = Style("text", 7, 8.8, QUIET)


@dataclass(frozen=True)
class Sample:
    """One thing of a kind: its name, what is said of it, and its picture or its outlines.

    Outlines are inches with their origin at the top left of the first, drawn at the gallery's
    scale; what is `inside` is dashed.
    """

    name: str
    lines: tuple[str, ...]
    picture: Bytes | None = None
    outlines: tuple[Shape, ...] = ()
    inside: tuple[Shape, ...] = ()


@dataclass(frozen=True)
class Gallery:
    """A page of samples: `across` in a row, pictures as high as `high_in`, outlines at a scale."""

    title: str
    about: str
    samples: Sequence[Sample]
    across: int
    high_in: float = 1.0
    scale: float = 1.0

    @property
    def cell_in(self) -> float:
        """The width of a sample."""
        return (WIDTH_IN - 2 * _SIDE_IN - (self.across - 1) * _GAP_IN) / self.across


def write_gallery(path: Path, gallery: Gallery, width_px: int) -> None:
    """Writes a gallery as a .pdf, or as a picture `width_px` wide. Raises OutputError."""
    rows = [
        gallery.samples[start : start + gallery.across]
        for start in range(0, len(gallery.samples), gallery.across)
    ]
    heights = [_row_in(gallery, row) for row in rows]
    size = (WIDTH_IN, _TOP_IN + sum(heights) + _FOOT_IN)

    def draw(to: Path) -> None:
        with whole_pdf(to, gallery.title, "", gallery.about) as pdf:
            pdf.begin_page(*size, gallery.title)
            pdf.text(Point(_SIDE_IN, 0.75), gallery.title, _TITLE)
            pdf.paragraph(Point(_SIDE_IN, 0.98), gallery.about, _ABOUT, WIDTH_IN - 2 * _SIDE_IN)
            top = _TOP_IN
            for row, height in zip(rows, heights, strict=True):
                for column, sample in enumerate(row):
                    left = _SIDE_IN + column * (gallery.cell_in + _GAP_IN)
                    _draw(pdf, gallery, sample, Point(left, top + _high_in(gallery, row)))
                top += height

    write_page(path, draw, size, width_px)


def _row_in(gallery: Gallery, row: Sequence[Sample]) -> float:
    lines = max(
        sum(len(wrapped(line, _FINE, gallery.cell_in)) for line in sample.lines) for sample in row
    )
    return _high_in(gallery, row) + _UNDER_IN + lines * _FINE.leading_in + 0.25


def _high_in(gallery: Gallery, row: Sequence[Sample]) -> float:
    """Returns how high a row's tallest sample is."""
    outlines = [sample.outlines[0].box.height for sample in row if sample.outlines]
    return max(outlines) * gallery.scale if outlines else gallery.high_in


def _draw(pdf: Pdf, gallery: Gallery, sample: Sample, at: Point) -> None:
    """Draws a sample standing on a point, its name below."""
    bottom = at.y
    if sample.picture is not None:
        high, wide = sample.picture.shape[:2]
        scale = min(gallery.cell_in / wide, gallery.high_in / high)
        box = Box(at.x, bottom - high * scale, at.x + wide * scale, bottom)
        pdf.picture(sample.picture, box)
    if sample.outlines:
        high = sample.outlines[0].box.height * gallery.scale
        to_page = translation(at.x, bottom - high) @ scaling(gallery.scale)
        for shape in sample.inside:
            pdf.stroke(shape.mapped(to_page), QUIET, _LINE_PT, _DASH_IN)
        for shape in sample.outlines:
            pdf.stroke(shape.mapped(to_page), INK, _LINE_PT)
    pdf.text(Point(at.x, bottom + _UNDER_IN), sample.name, _NAME)
    y = bottom + _UNDER_IN
    for line in sample.lines:
        for part in wrapped(line, _FINE, gallery.cell_in):
            y += _FINE.leading_in
            pdf.text(Point(at.x, y), part, _FINE)
