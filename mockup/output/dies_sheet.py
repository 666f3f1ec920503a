"""A sheet of dies at true size: outlines with their names, to print and lay a card on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from mockup.dies.family import Die
from mockup.dies.wording import parameters_told
from mockup.geometry.affine import translation
from mockup.geometry.point import Point
from mockup.output.pdf import Pdf, whole_pdf
from mockup.output.proof.grid import PAPERS_IN
from mockup.output.ruler import draw_ruler
from mockup.output.typography import INK, QUIET, Style, shortened
from mockup.printers.choosing import same_size
from mockup.printers.listing import Listed
from mockup.printers.prices import money
from mockup.units import Unit, format_size

_TITLE = Style("light", 20, 24)
_NAME = Style("text", 9, 11)
_FINE = Style("text", 7.5, 9.5, QUIET)
_LABEL = Style("caps", 7.5, 9, QUIET, 0.08)

_SIDE_IN = 0.6
_TOP_IN = 1.25  # to the first outlines
_FOOT_IN = 1.0  # ruler and page number
_GAP_IN = 0.4
_CAPTION_IN = 0.62  # name and two lines under an outline, and the air to the next row
_LINE_PT = 0.5
_RULER_IN = 4


@dataclass(frozen=True)
class _Cell:
    row: Listed
    width_in: float
    height_in: float
    captions: tuple[str, ...]


@dataclass(frozen=True)
class _Page:
    width_in: float
    height_in: float
    rows: tuple[tuple[_Cell, ...], ...]


def write_dies_sheet(
    path: Path, rows: Sequence[Listed], about: str, paper: str = "letter", units: Unit = "in"
) -> int:
    """Writes the dies that could be drawn to a PDF at true size; returns the number of pages.

    `about` is the line under the title; lengths are told in `units`. Dies larger than the paper get
    a larger page. Raises OutputError where the file cannot be written.
    """
    drawn = [(row, row.die) for row in rows if row.die is not None]
    cells = [_Cell(r, die.width_in, die.height_in, _captions(r, die, units)) for r, die in drawn]
    pages = _pages(cells, PAPERS_IN[paper])
    with whole_pdf(path, "Dies at true size", "", about) as pdf:
        for number, page in enumerate(pages, 1):
            pdf.begin_page(page.width_in, page.height_in, f"Page {number}")
            _draw_page(pdf, page, about, f"{number} of {len(pages)}")
    return len(pages)


def _pages(cells: Sequence[_Cell], paper_in: tuple[float, float]) -> list[_Page]:
    """Returns the pages, standing or lying, whichever takes fewer."""
    standing = _paged(cells, *paper_in)
    lying = _paged(cells, paper_in[1], paper_in[0])
    return lying if len(lying) < len(standing) else standing


def _paged(cells: Sequence[_Cell], width_in: float, height_in: float) -> list[_Page]:
    widest = max((cell.width_in for cell in cells), default=0)
    highest = max((cell.height_in for cell in cells), default=0)
    width = max(width_in, widest + 2 * _SIDE_IN)
    height = max(height_in, highest + _TOP_IN + _CAPTION_IN + _FOOT_IN)
    pages: list[_Page] = []
    lines: list[tuple[_Cell, ...]] = []
    left = height - _TOP_IN - _FOOT_IN
    for line in _lines(cells, width - 2 * _SIDE_IN):
        needed = max(cell.height_in for cell in line) + _CAPTION_IN
        if lines and needed > left + 1e-9:
            pages.append(_Page(width, height, tuple(lines)))
            lines, left = [], height - _TOP_IN - _FOOT_IN
        lines.append(line)
        left -= needed
    return [*pages, _Page(width, height, tuple(lines))] if lines else pages


def _lines(cells: Sequence[_Cell], measure_in: float) -> list[tuple[_Cell, ...]]:
    lines: list[tuple[_Cell, ...]] = []
    line: list[_Cell] = []
    for cell in cells:
        taken = sum(each.width_in + _GAP_IN for each in line)
        if line and taken + cell.width_in > measure_in + 1e-9:
            lines.append(tuple(line))
            line = []
        line.append(cell)
    return [*lines, tuple(line)] if line else lines


def _draw_page(pdf: Pdf, page: _Page, about: str, folio: str) -> None:
    pdf.text(Point(_SIDE_IN, 0.72), "Dies at true size", _TITLE)
    pdf.text(Point(_SIDE_IN, 0.93), about, _FINE)
    most = max(len(line) for line in page.rows)
    inside = page.width_in - 2 * _SIDE_IN
    y = _TOP_IN
    for line in page.rows:
        tallest = max(cell.height_in for cell in line)
        widths = sum(cell.width_in for cell in line)
        # Full lines are spread over the measure; a short one keeps the distance of the others.
        gap = _GAP_IN if len(line) < most or len(line) == 1 else (inside - widths) / (len(line) - 1)
        gap = min(gap, 2 * _GAP_IN)
        x = _SIDE_IN
        for cell in line:
            _draw_cell(pdf, cell, Point(x, y + tallest - cell.height_in), gap)
            x += cell.width_in + gap
        y += tallest + _CAPTION_IN
    foot = page.height_in - 0.55
    draw_ruler(pdf, Point(_SIDE_IN, foot), _RULER_IN)
    told = "Print at 100 % and measure the ruler."
    pdf.text(Point(_SIDE_IN + _RULER_IN + 0.25, foot + 0.03), told, _FINE)
    pdf.text(Point(page.width_in - _SIDE_IN, foot + 0.03), folio, _LABEL, "right")


def _draw_cell(pdf: Pdf, cell: _Cell, at: Point, gap: float) -> None:
    assert cell.row.die is not None
    pdf.stroke(cell.row.die.shape.mapped(translation(*at)), INK, _LINE_PT)
    measure = cell.width_in + gap - 0.12
    y = at.y + cell.height_in + 0.19
    pdf.text(Point(at.x, y), cell.row.name, _NAME)
    for text in cell.captions:
        y += _FINE.leading_in
        pdf.text(Point(at.x, y), shortened(text, _FINE, measure), _FINE)


def _captions(row: Listed, die: Die, units: Unit) -> tuple[str, ...]:
    size = format_size(die.width_in, die.height_in, units)
    words = ", ".join(parameters_told(die.name, row.parameters, units))
    first = f"{size}, {words}" if words else size
    if not row.offers:
        return (first,)
    here = [offer for offer in row.offers if same_size(offer.die, die.width_in, die.height_in)]
    if not here:  # drawn at a size that nobody sells: no price is one of this die
        sizes = dict.fromkeys(offer.card.name for offer in row.offers)
        return first, f"sold at {', '.join(sizes)}"
    cheapest = min(here, key=lambda offer: offer.terms.each)
    others = {offer.printer for offer in here} - {cheapest.printer}
    more = f" and {len(others)} more" if others else ""
    price = money(cheapest.terms.each, cheapest.currency)
    return first, f"{cheapest.card.name} {price}, {cheapest.printer}{more}"
