"""The options sheet: one piece in every die she might choose, side by side, at one scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from mockup.geometry.affine import Affine
from mockup.geometry.point import Box, Point
from mockup.output.options_words import Caption
from mockup.output.pdf import Pdf, whole_pdf
from mockup.output.pdf_picture import write_page
from mockup.output.proof.grid import PAPERS_IN
from mockup.output.proof.words import size_name, size_told
from mockup.output.typography import HAIR, QUIET, Style, wrapped
from mockup.printers.options import Option
from mockup.render.options import Shown, piece_art, shown_in
from mockup.render.piece import strokes
from mockup.suite.suite import Piece, Suite

_TITLE = Style("light", 24, 28)
_ABOUT = Style("text", 9, 12, QUIET)
_GROUP = Style("caps", 8.5, 11, QUIET, 0.06)
_NAME = Style("text", 9.5, 12)
_FINE = Style("text", 7, 8.8, QUIET)
_FOOT = Style("text", 7.5, 10, QUIET)

_SIDE_IN = 0.65
_TOP_IN = 1.35  # to the first group's label
_FOOT_IN = 0.6
_GROUP_IN = 0.34  # from a group's label to its pieces
_NAME_IN = 0.24  # from a piece to its name's baseline
_ROW_GAP_IN = 0.24
_GAP_IN = 0.28
_ART_PPI = 400.0  # of the page, so that a picture of it can be taken without loss
_LINE_SHARE = 0.6  # the cut line is drawn finer on small pictures

IN_STOCK, MADE, IN_NO_STOCK = "In stock", "Made to order", "In no printer's stock"

STUDIO = "For the studio, not for the client"

Pair = tuple[Option, Caption]


@dataclass(frozen=True)
class Sheet:
    """What is shown: the suite and piece, its options, their captions, a closing line, whether it
    is for the studio, and whether a catalogue says what is in stock; `tail_in` is what its page
    keeps free below."""

    suite: Suite
    piece: Piece
    options: Sequence[Option]
    captions: Sequence[Caption]
    about: str = ""
    studio: bool = False
    stocked: bool = True
    tail_in: float = _FOOT_IN


@dataclass(frozen=True)
class Grid:
    """A page and how the options stand on it: so many in a row, card inches times `scale`."""

    width_in: float
    height_in: float
    across: int
    scale: float


def write_options(path: Path, sheet: Sheet, width_px: int = 3300) -> Grid:
    """Writes the options to a PDF, or a picture `width_px` wide, by the file's ending.

    Returns how they were set. Raises OutputError where the file cannot be written, InputError and
    LimitError for art that cannot be drawn.
    """
    short, long = PAPERS_IN[sheet.suite.paper]
    grid = best_grid(sheet, [(long, short), (short, long)])
    size = (grid.width_in, grid.height_in)
    write_page(path, lambda to: _write_pdf(to, sheet, grid), size, width_px)
    return grid


def best_grid(sheet: Sheet, papers: Sequence[tuple[float, float]]) -> Grid:
    """Returns the paper and the number in a row that show the pieces largest."""
    most = max(len(group) for group in _groups(sheet))
    grids = [
        _grid(sheet, width, height, across)
        for width, height in papers
        for across in range(min(2, most), most + 1)
    ]
    return max(grids, key=lambda grid: grid.scale)


def _grid(sheet: Sheet, width_in: float, height_in: float, across: int) -> Grid:
    wide, high = sheet.piece.die.width_in, sheet.piece.die.height_in
    cell = (width_in - 2 * _SIDE_IN - (across - 1) * _GAP_IN) / across
    fixed, rows = 0.0, 0
    for group in _groups(sheet):
        fixed += _GROUP_IN if sheet.stocked else 0.0
        for row in _rows(group, across):
            fixed += _caption_in(row, cell) + _ROW_GAP_IN
            rows += 1
    room = height_in - _TOP_IN - _foot_in(sheet, width_in) - fixed
    return Grid(width_in, height_in, across, max(0.0, min(cell / wide, room / rows / high, 1.0)))


def _rows(group: Sequence[Pair], across: int) -> list[Sequence[Pair]]:
    return [group[start : start + across] for start in range(0, len(group), across)]


def _caption_in(row: Sequence[Pair], cell_in: float) -> float:
    """Returns the height of the tallest caption in a row."""
    lines = max(
        sum(len(wrapped(line, _FINE, cell_in)) for line in caption.lines) for _, caption in row
    )
    return _NAME_IN + lines * _FINE.leading_in + 0.04


def _foot_in(sheet: Sheet, width_in: float) -> float:
    lines = wrapped(sheet.about, _FOOT, width_in - 2 * _SIDE_IN)
    return sheet.tail_in + len(lines) * _FOOT.leading_in


def _groups(sheet: Sheet) -> list[list[Pair]]:
    pairs = list(zip(sheet.options, sheet.captions, strict=True))
    if not sheet.stocked:
        return [pairs]
    groups = [[pair for pair in pairs if pair[0].in_stock is stock] for stock in (True, False)]
    return [group for group in groups if group]


def _write_pdf(path: Path, sheet: Sheet, grid: Grid) -> None:
    suite = sheet.suite
    title = f"{sheet.piece.title}, options"
    with whole_pdf(path, f"{suite.title}: {title}", suite.designer or "", title) as pdf:
        pdf.begin_page(grid.width_in, grid.height_in, title)
        draw_options(pdf, sheet, grid)


def draw_options(pdf: Pdf, sheet: Sheet, grid: Grid) -> None:
    """Draws the options on a page. Raises InputError and LimitError for art that cannot be
    drawn."""
    piece = sheet.piece
    art, view = piece_art(piece, _ART_PPI * grid.scale)
    _draw_head(pdf, sheet, grid)
    cell = (grid.width_in - 2 * _SIDE_IN - (grid.across - 1) * _GAP_IN) / grid.across
    high = piece.die.height_in * grid.scale
    y, number = _TOP_IN, 0
    for group in _groups(sheet):
        if sheet.stocked:
            _draw_group_label(pdf, group, y)
            y += _GROUP_IN
        for row in _rows(group, grid.across):
            for column, (option, words) in enumerate(row):
                number += 1
                shown = shown_in(option.die.shape, art, view, sheet.suite.cut_line)
                left = _SIDE_IN + column * (cell + _GAP_IN)
                with pdf.element("Figure", f"{piece.title} cut to {words.name}"):
                    place = Box(left, y, left + cell, y + high)
                    _draw_option(pdf, option, shown, place, grid.scale)
                _draw_caption(pdf, number, words, Point(left + cell / 2, y + high), cell)
            y += high + _caption_in(row, cell) + _ROW_GAP_IN


def _draw_head(pdf: Pdf, sheet: Sheet, grid: Grid) -> None:
    suite, piece = sheet.suite, sheet.piece
    with pdf.element("H1"):
        pdf.text(Point(_SIDE_IN, 0.82), f"{piece.title}: choose a shape", _TITLE)
    if sheet.studio:
        pdf.text(Point(pdf.width_in - _SIDE_IN, 0.82), STUDIO, _GROUP, "right")
    size = size_told(piece.die.width_in, piece.die.height_in, piece.units)
    name = size_name(piece.card.name)
    shown = f"{suite.title}  \u00b7  {size}{f', {name}' if name else ''}"
    pdf.text(Point(_SIDE_IN, 1.03), shown, _ABOUT)
    told = f"All at {grid.scale * 100:.0f} % of true size; the thin line is the cut, not printed"
    pdf.text(Point(pdf.width_in - _SIDE_IN, 1.03), told, _ABOUT, "right")
    if sheet.about:
        y = pdf.height_in - _foot_in(sheet, grid.width_in) + 0.2
        pdf.paragraph(Point(_SIDE_IN, y), sheet.about, _FOOT, grid.width_in - 2 * _SIDE_IN)


def _draw_group_label(pdf: Pdf, group: Sequence[Pair], y: float) -> None:
    made = any(option.custom is not None for option, _ in group)
    label = IN_STOCK if group[0][0].in_stock else MADE if made else IN_NO_STOCK
    pdf.text(Point(_SIDE_IN, y), label, _GROUP)
    pdf.rule(Point(_SIDE_IN, y + 0.07), Point(pdf.width_in - _SIDE_IN, y + 0.07), 0.35, HAIR)


def _draw_option(pdf: Pdf, option: Option, shown: Shown, cell: Box, scale: float) -> None:
    left = cell.centre.x - option.die.width_in * scale / 2
    to_page = Affine(scale, 0, 0, scale, left, cell.top)
    view = shown.view
    first = to_page.point(Point(view.left_in, view.top_in))
    last = to_page.point(Point(view.left_in + view.width_in, view.top_in + view.height_in))
    pdf.picture(shown.picture, Box(*first, *last))
    for colour, width_pt in strokes(shown.line):
        pdf.stroke(option.die.shape.mapped(to_page), colour, width_pt * _LINE_SHARE)


def _draw_caption(pdf: Pdf, number: int, words: Caption, under: Point, measure_in: float) -> None:
    y = under.y + _NAME_IN
    pdf.text(Point(under.x, y), f"{number}  {words.name}", _NAME, "centre")
    for line in words.lines:
        for part in wrapped(line, _FINE, measure_in):
            y += _FINE.leading_in
            pdf.text(Point(under.x, y), part, _FINE, "centre")
