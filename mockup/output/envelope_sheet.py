"""The sheet of papers: one envelope in every paper it might have, side by side, at one scale.

Each is drawn open with its liner, and closed with the piece it holds laid on it, so that every
colour touches the paper it will be seen with.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from mockup.colour.srgb import Rgb
from mockup.envelopes.flap import open_flap
from mockup.geometry.affine import Affine, scaling, translation
from mockup.geometry.point import Box, Point, box_of
from mockup.output.envelope_drawing import Lining, draw_closed, draw_open, lining_of, toned
from mockup.output.pdf import Pdf, whole_pdf
from mockup.output.pdf_picture import write_page
from mockup.output.proof.grid import PAPERS_IN
from mockup.output.proof.words import size_name, size_told
from mockup.output.typography import QUIET, Style, line_width_in, shortened, wrapped
from mockup.pixels import Bytes, View
from mockup.render.options import piece_art
from mockup.suite.suite import Envelope, Piece, Suite

_TITLE = Style("light", 24, 28)
_ABOUT = Style("text", 9, 12, QUIET)
_LABEL = Style("caps", 8.5, 11, QUIET, 0.06)
_NAME = Style("text", 9.5, 12)
_FINE = Style("text", 7, 8.8, QUIET)
_FOOT = Style("text", 7.5, 10, QUIET)

_SIDE_IN = 0.65
_TOP_IN = 1.45  # to the first row
_FOOT_IN = 0.6
_NAME_IN = 0.24  # from a drawing to its name's baseline
_ROW_GAP_IN = 0.3
_SPREAD_MOST_IN = 0.25  # of what the page has left, between rows
_GAP_IN = 0.36
_ART_PPI = 400.0  # of the page, so that a picture of it can be taken without loss
_SCALE_MOST = 0.5  # judgement: two papers at half size are seen whole on one page
_EDGE_PT, _EDGE_TONE = 0.3, 0.28

# Of an envelope's width and height, and of what stands apart in one drawing.
_BETWEEN = 0.07
_OVERLAP = 0.58  # how much of the closed envelope's height the piece lies on

_ASKED = ": choose a paper"
STUDIO = "For the studio, not for the client"


@dataclass(frozen=True)
class Offered:
    """A paper on the sheet: its name, its colour on a screen, and what is said of it."""

    name: str
    colour: Rgb
    lines: tuple[str, ...]


@dataclass(frozen=True)
class EnvelopeSheet:
    """What is shown: an envelope, a piece it holds (None for none), the papers in their order, a
    closing line, and whether it is for the studio."""

    suite: Suite
    envelope: Envelope
    piece: Piece | None
    papers: Sequence[Offered]
    about: str
    studio: bool


@dataclass(frozen=True)
class _Drawing:
    """How one envelope and its piece stand together, in card inches: the size of the whole, the top
    left of the open envelope's back, of the closed one's, and of the piece."""

    width_in: float
    height_in: float
    opened: Point
    closed: Point
    piece: Point


@dataclass(frozen=True)
class _Grid:
    width_in: float
    height_in: float
    across: int
    scale: float
    row_gap_in: float = _ROW_GAP_IN

    @property
    def cell_in(self) -> float:
        return (self.width_in - 2 * _SIDE_IN - (self.across - 1) * _GAP_IN) / self.across


@dataclass(frozen=True)
class _Drawn:
    """The pictures that every paper is shown with, drawn once."""

    lining: Lining | None
    art: tuple[Bytes, View] | None


def write_envelope_sheet(path: Path, sheet: EnvelopeSheet, width_px: int) -> float:
    """Writes the sheet to a PDF, or a picture `width_px` wide, by the file's ending; returns its
    scale, 1 for true size.

    Raises OutputError where the file cannot be written, InputError and LimitError for art that
    cannot be drawn.
    """
    drawing = _drawing(sheet.envelope, sheet.piece)
    grid = _best_grid(sheet, drawing)
    size = (grid.width_in, grid.height_in)
    write_page(path, lambda to: _write_pdf(to, sheet, drawing, grid), size, width_px)
    return grid.scale


def _drawing(envelope: Envelope, piece: Piece | None) -> _Drawing:
    spec = envelope.spec
    flap = -open_flap(spec).box.top
    gap = _BETWEEN * spec.width_in
    wide, high = (piece.die.width_in, piece.die.height_in) if piece else (0.0, 0.0)
    above = max(flap, high - _OVERLAP * spec.height_in)  # of the envelopes' top folds
    beside = max(spec.width_in, wide)
    right = spec.width_in + gap
    return _Drawing(
        right + beside,
        above + spec.height_in,
        Point(0.0, above),
        Point(right + (beside - spec.width_in) / 2, above),
        Point(right + (beside - wide) / 2, above + _OVERLAP * spec.height_in - high),
    )


def _best_grid(sheet: EnvelopeSheet, drawing: _Drawing) -> _Grid:
    """Returns the page, upright or lying, and the number in a row that show the envelopes
    largest."""
    short, long = PAPERS_IN[sheet.suite.paper]
    grids = [
        _grid(sheet, drawing, width, height, across)
        for width, height in ((short, long), (long, short))
        for across in range(1, min(4, len(sheet.papers)) + 1)
    ]
    return max(grids, key=lambda grid: grid.scale)


def _grid(
    sheet: EnvelopeSheet, drawing: _Drawing, width_in: float, height_in: float, across: int
) -> _Grid:
    bare = _Grid(width_in, height_in, across, 0.0)
    rows = _rows(sheet, across)
    fixed = sum(_caption_in(row, bare.cell_in) + _ROW_GAP_IN for row in rows)
    room = height_in - _TOP_IN - _foot_in(sheet, width_in) - fixed
    by_height = room / len(rows) / drawing.height_in
    scale = min(bare.cell_in / drawing.width_in, by_height, _SCALE_MOST)
    spare = (room - len(rows) * drawing.height_in * scale) / len(rows)
    gap = _ROW_GAP_IN + min(max(spare, 0.0), _SPREAD_MOST_IN)
    return _Grid(width_in, height_in, across, max(0.0, scale), gap)


def _rows(sheet: EnvelopeSheet, across: int) -> list[Sequence[Offered]]:
    return [sheet.papers[k : k + across] for k in range(0, len(sheet.papers), across)]


def _caption_in(row: Sequence[Offered], cell_in: float) -> float:
    """Returns the height of the tallest caption in a row."""
    lines = max(sum(len(wrapped(line, _FINE, cell_in)) for line in paper.lines) for paper in row)
    return _NAME_IN + lines * _FINE.leading_in + 0.04


def _foot_in(sheet: EnvelopeSheet, width_in: float) -> float:
    lines = wrapped(sheet.about, _FOOT, width_in - 2 * _SIDE_IN)
    return _FOOT_IN + len(lines) * _FOOT.leading_in


def _write_pdf(path: Path, sheet: EnvelopeSheet, drawing: _Drawing, grid: _Grid) -> None:
    suite, envelope = sheet.suite, sheet.envelope
    ppi = _ART_PPI * grid.scale
    lining = lining_of(envelope, suite.bleed_in, ppi)
    drawn = _Drawn(lining, piece_art(sheet.piece, ppi) if sheet.piece is not None else None)
    title = f"{envelope.title}, papers"
    with whole_pdf(path, f"{suite.title}: {title}", suite.designer or "", title) as pdf:
        pdf.begin_page(grid.width_in, grid.height_in, title)
        _draw_head(pdf, sheet, grid)
        y, number = _TOP_IN, 0
        high = drawing.height_in * grid.scale
        for row in _rows(sheet, grid.across):
            for column, paper in enumerate(row):
                number += 1
                left = _SIDE_IN + column * (grid.cell_in + _GAP_IN)
                across = left + (grid.cell_in - drawing.width_in * grid.scale) / 2
                to_page = translation(across, y) @ scaling(grid.scale)
                with pdf.element("Figure", _alt(sheet, paper)):
                    _draw_paper(pdf, sheet, drawn, drawing, (paper.colour, to_page))
                below = Point(left + grid.cell_in / 2, y + high)
                _draw_caption(pdf, number, paper, below, grid.cell_in)
            y += high + _caption_in(row, grid.cell_in) + grid.row_gap_in


def _draw_head(pdf: Pdf, sheet: EnvelopeSheet, grid: _Grid) -> None:
    suite, envelope = sheet.suite, sheet.envelope
    measure = grid.width_in - 2 * _SIDE_IN
    right = grid.width_in - _SIDE_IN
    label = line_width_in(STUDIO, _LABEL) + 0.3 if sheet.studio else 0.0
    room = measure - label - line_width_in(_ASKED, _TITLE)
    with pdf.element("H1"):
        title = shortened(envelope.title, _TITLE, room) + _ASKED
        pdf.text(Point(_SIDE_IN, 0.82), title, _TITLE)
    if sheet.studio:
        pdf.text(Point(right, 0.82), STUDIO, _LABEL, "right")
    size = size_told(envelope.spec.width_in, envelope.spec.height_in, envelope.units)
    name = size_name(envelope.size.name)
    told = f"All at {grid.scale * 100:.0f} % of true size, open and closed"
    if sheet.piece is not None:
        told += f", with the {shortened(sheet.piece.title, _ABOUT, 1.6).lower()}"
    room = measure - line_width_in(told, _ABOUT) - 0.3
    shown = f"{suite.title}  \u00b7  {size}{f', {name}' if name else ''}"
    pdf.text(Point(_SIDE_IN, 1.03), shortened(shown, _ABOUT, room), _ABOUT)
    pdf.text(Point(right, 1.03), told, _ABOUT, "right")
    if sheet.about:
        y = grid.height_in - _foot_in(sheet, grid.width_in) + 0.2
        pdf.paragraph(Point(_SIDE_IN, y), sheet.about, _FOOT, measure)


def _alt(sheet: EnvelopeSheet, paper: Offered) -> str:
    """Returns a drawing in words, for who cannot see it."""
    held = f", and closed with the {sheet.piece.title} on it" if sheet.piece else ", and closed"
    return f"The {sheet.envelope.title} in {paper.name}, open{held}."


def _draw_paper(
    pdf: Pdf,
    sheet: EnvelopeSheet,
    drawn: _Drawn,
    drawing: _Drawing,
    placed: tuple[Rgb, Affine],
) -> None:
    colour, to_page = placed
    spec = sheet.envelope.spec
    draw_open(pdf, spec, colour, drawn.lining, to_page @ translation(*drawing.opened))
    draw_closed(pdf, spec, colour, to_page @ translation(*drawing.closed))
    if sheet.piece is None or drawn.art is None:
        return
    art, view = drawn.art
    on_page = to_page @ translation(*drawing.piece)
    corners = (
        Point(view.left_in, view.top_in),
        Point(view.left_in + view.width_in, view.top_in + view.height_in),
    )
    box: Box = box_of(on_page.point(corner) for corner in corners)
    cut = sheet.piece.die.shape.mapped(on_page)
    pdf.picture(art, box, cut)
    pdf.stroke(cut, toned(colour, _EDGE_TONE), _EDGE_PT)


def _draw_caption(pdf: Pdf, number: int, paper: Offered, at: Point, cell_in: float) -> None:
    y = at.y + _NAME_IN
    name = shortened(f"{number}  {paper.name}", _NAME, cell_in)
    pdf.text(Point(at.x, y), name, _NAME, "centre")
    for line in paper.lines:
        for part in wrapped(line, _FINE, cell_in):
            y += _FINE.leading_in
            pdf.text(Point(at.x, y), part, _FINE, "centre")
