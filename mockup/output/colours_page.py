"""The page of colours: every face's colours by area, then each envelope with what lies on it.

Set in blocks that keep together, so that it goes on one long picture, on pages of a PDF, or into a
document that has margins and feet of its own.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from mockup.geometry.outline import Shape, polygon_outline
from mockup.geometry.point import Box, Point
from mockup.output.colours_told import Cell, ColoursSheet, Section, Strip
from mockup.output.envelope_drawing import toned
from mockup.output.pdf import Pdf, whole_pdf
from mockup.output.pdf_picture import write_page
from mockup.output.proof.grid import ALERT, PAPERS_IN
from mockup.output.typography import HAIR, QUIET, Style, line_width_in, shortened, wrapped

_TITLE = Style("light", 24, 28)
_ABOUT = Style("text", 9, 12, QUIET)
_LABEL = Style("caps", 8.5, 11, QUIET, 0.06)
_NAME = Style("text", 9.5, 12)
_VERDICT = Style("text", 8, 10)
_ALERT = Style("text", 8, 10, ALERT)
_FINE = Style("text", 7, 8.8, QUIET)
_FOOT = Style("text", 7.5, 10, QUIET)

_SIDE_IN = 0.65
_TOP_IN, _BOTTOM_IN = 0.5, 0.55
_HEAD_IN = 0.95  # of the title and the line under it, to the first block
_EDGE_PT = 0.35
_LESS_IN = 0.1  # by which pages are made shorter, until one more would be needed

_CELLS_ACROSS = 5
_GAP_IN = 0.3
_STRIP_IN, _STRIP_NAME_IN = 0.42, 0.2
_PART_IN = 0.05  # the narrowest part of a strip
_CHIP_SHARE, _CHIP_MOST_IN = 0.62, 0.9
_MARK_IN, _MARK_OFF_IN, _MARK_TONE = 0.05, 0.025, 0.3
_CELL_GAP_IN = 0.22

STUDIO = "For the studio, not for the client"


@dataclass(frozen=True)
class _Heights:
    """How high things are set, inches: the ground of a row of cells, a cell's colour in the middle
    of it, a colour instead beside that, and what is left free below a block."""

    ground: float
    chip: float
    instead: float
    gap: float


_ROOMY = _Heights(1.0, 0.6, 0.26, 0.3)
_CLOSE = _Heights(0.74, 0.48, 0.21, 0.2)  # where that saves a page


@dataclass(frozen=True)
class _Block:
    """Something that stays whole: its height, and how it is drawn below a height of the page;
    `keeps` has it stay with the next, `resumed` is what stands over it where it begins a page."""

    height_in: float
    draw: Callable[[Pdf, float], None]
    keeps: bool = False
    resumed: _Block | None = None


@dataclass(frozen=True)
class ColoursPage:
    """One page of colours: how much of its room it takes from the top, and what draws it."""

    height_in: float
    draw: Callable[[Pdf], None]


def write_colours(path: Path, sheet: ColoursSheet, width_px: int) -> int:
    """Writes a suite's colours to a PDF on the suite's paper, or as one picture `width_px` wide, as
    high as it needs to be; returns the number of pages. Raises OutputError."""
    wide, high = PAPERS_IN[sheet.suite.paper]
    if path.suffix.lower() != ".pdf":
        (page,) = colours_pages(sheet, Box(_SIDE_IN, _TOP_IN, wide - _SIDE_IN, 1e6))
        size = (wide, page.height_in + _TOP_IN + _BOTTOM_IN)
        write_page(path, lambda to: _write_pdf(to, sheet, [page], size), size, width_px)
        return 1
    pages = colours_pages(sheet, Box(_SIDE_IN, _TOP_IN, wide - _SIDE_IN, high - _BOTTOM_IN))
    _write_pdf(path, sheet, pages, (wide, high))
    return len(pages)


def colours_pages(sheet: ColoursSheet, room: Box) -> list[ColoursPage]:
    """Returns the pages that hold a suite's colours, each drawn within a room of its page, inches:
    the first with the title. As few as can be, and filled alike."""
    roomy, close = (_blocks(sheet, room, heights) for heights in (_ROOMY, _CLOSE))
    pages, fewer = _filled(roomy, room.height), _filled(close, room.height)
    blocks, most = (roomy, len(pages)) if len(pages) <= len(fewer) else (close, len(fewer))
    height = room.height
    while most > 1 and len(_filled(blocks, height - _LESS_IN)) == most:
        height -= _LESS_IN
    return [_page(page, room) for page in _filled(blocks, height)]


def _blocks(sheet: ColoursSheet, room: Box, heights: _Heights) -> list[_Block]:
    blocks = [_head(sheet, room), *_strip_blocks(sheet, room, heights)]
    for section in sheet.sections:
        blocks += _section_blocks(section, room, heights)
    return [*blocks, _notes_block(sheet, room)]


def _filled(blocks: Sequence[_Block], height_in: float) -> list[list[_Block]]:
    """Returns blocks on pages of a height, as many on each as go."""
    pages: list[list[_Block]] = [[]]
    left = height_in
    for chain in _chains(blocks):
        needed = sum(block.height_in for block in chain)
        if needed > left and pages[-1]:
            resumed = chain[0].resumed
            pages.append([] if resumed is None else [resumed])
            left = height_in - (0.0 if resumed is None else resumed.height_in)
        pages[-1] += chain
        left -= needed
    return pages


def _page(blocks: Sequence[_Block], room: Box) -> ColoursPage:
    def draw(pdf: Pdf) -> None:
        y = room.top
        for block in blocks:
            block.draw(pdf, y)
            y += block.height_in

    return ColoursPage(sum(block.height_in for block in blocks), draw)


def _chains(blocks: Sequence[_Block]) -> list[list[_Block]]:
    """Returns blocks with those that they must not be parted from."""
    chains: list[list[_Block]] = []
    held = False
    for block in blocks:
        if held:
            chains[-1].append(block)
        else:
            chains.append([block])
        held = block.keeps
    return chains


def _write_pdf(
    path: Path, sheet: ColoursSheet, pages: Sequence[ColoursPage], size: tuple[float, float]
) -> None:
    suite = sheet.suite
    title = f"{suite.title}: colours"
    with whole_pdf(path, title, suite.designer or "", "Colours") as pdf:
        for number, page in enumerate(pages, 1):
            pdf.begin_page(*size, "Colours" if len(pages) == 1 else f"Colours, page {number}")
            page.draw(pdf)
            if len(pages) > 1:
                at = Point(size[0] - _SIDE_IN, size[1] - 0.4)
                pdf.text(at, f"{number} of {len(pages)}", _LABEL, "right")


def _head(sheet: ColoursSheet, room: Box) -> _Block:
    def draw(pdf: Pdf, top: float) -> None:
        with pdf.element("H1"):
            pdf.text(Point(room.left, top + 0.32), "Colours", _TITLE)
        if sheet.studio:
            pdf.text(Point(room.right, top + 0.32), STUDIO, _LABEL, "right")
        told = "as they will be printed, each on its own paper"
        line = f"{shortened(sheet.suite.title, _ABOUT, room.width - 3.2)}  \u00b7  {told}"
        pdf.text(Point(room.left, top + 0.53), shortened(line, _ABOUT, room.width), _ABOUT)

    return _Block(_HEAD_IN, draw, keeps=True)


def _strip_blocks(sheet: ColoursSheet, room: Box, heights: _Heights) -> list[_Block]:
    """Returns the rows of strips: of three, of four where one strip would stand alone."""
    count = len(sheet.strips)
    across = 4 if count > 3 and count % 3 == 1 else 3
    wide = (room.width - (across - 1) * _GAP_IN) / across
    blocks: list[_Block] = []
    for start in range(0, count, across):
        row = sheet.strips[start : start + across]
        lines = max(sum(len(wrapped(t, _FINE, wide)) for t in strip.lines) for strip in row)
        height = _STRIP_IN + _STRIP_NAME_IN + lines * _FINE.leading_in + heights.gap
        blocks.append(_Block(height, _strips_drawn(row, wide, room.left)))
    return blocks


def _strips_drawn(row: Sequence[Strip], wide: float, left: float) -> Callable[[Pdf, float], None]:
    def draw(pdf: Pdf, top: float) -> None:
        for column, strip in enumerate(row):
            _draw_strip(pdf, strip, Point(left + column * (wide + _GAP_IN), top), wide)

    return draw


def _draw_strip(pdf: Pdf, strip: Strip, at: Point, wide: float) -> None:
    least = _PART_IN / wide  # so that the least colour is seen as well
    total = sum(max(share, least) for _, share in strip.parts) or 1.0
    x = at.x
    for colour, share in strip.parts:
        across = wide * max(share, least) / total
        pdf.fill(_rectangle(Box(x, at.y, x + across, at.y + _STRIP_IN)), colour)
        x += across
    pdf.stroke(_rectangle(Box(at.x, at.y, at.x + wide, at.y + _STRIP_IN)), HAIR, _EDGE_PT)
    y = at.y + _STRIP_IN + _STRIP_NAME_IN
    pdf.text(Point(at.x, y), shortened(strip.title, _NAME, wide), _NAME)
    _lines(pdf, Point(at.x, y), strip.lines, _FINE, wide)


def _section_blocks(section: Section, room: Box, heights: _Heights) -> list[_Block]:
    """Returns a section's label, and its rows of cells; the label stays with the first row."""

    def label(pdf: Pdf, top: float) -> None:
        about = shortened(section.about, _ABOUT, room.width * 0.55)
        title_in = room.width - line_width_in(about, _ABOUT) - 0.2
        with pdf.element("H2"):
            title = shortened(section.title, _LABEL, title_in)
            pdf.text(Point(room.left, top + 0.12), title, _LABEL)
        pdf.text(Point(room.right, top + 0.12), about, _ABOUT, "right")

    wide = (room.width - (_CELLS_ACROSS + 1) * _CELL_GAP_IN) / _CELLS_ACROSS
    head = _Block(0.22, label, keeps=True)
    blocks = [head]
    cells = section.cells
    for start in range(0, max(1, len(cells)), _CELLS_ACROSS):
        row = cells[start : start + _CELLS_ACROSS]
        tallest = max((_caption_in(cell, wide) for cell in row), default=_FINE.leading_in + 0.1)
        height = heights.ground + tallest + heights.gap
        drawn = _cells_drawn(section, row, wide, room, heights)
        blocks.append(_Block(height, drawn, resumed=head if start else None))
    return blocks


def _cells_drawn(
    section: Section, row: Sequence[Cell], wide: float, room: Box, heights: _Heights
) -> Callable[[Pdf, float], None]:
    def draw(pdf: Pdf, top: float) -> None:
        ground = _rectangle(Box(room.left, top, room.right, top + heights.ground))
        pdf.fill(ground, section.ground)
        pdf.stroke(ground, HAIR, _EDGE_PT)
        for column, cell in enumerate(row):
            left = room.left + _CELL_GAP_IN + column * (wide + _CELL_GAP_IN)
            _draw_cell(pdf, cell, Point(left, top), wide, heights)
        if not row:
            told = "Nothing that goes with it has a large plain colour to hold against it."
            pdf.text(Point(room.left, top + heights.ground + 0.18), told, _FINE)

    return draw


def _draw_cell(pdf: Pdf, cell: Cell, at: Point, wide: float, heights: _Heights) -> None:
    chip = min(_CHIP_MOST_IN, wide * _CHIP_SHARE)
    upper = at.y + (heights.ground - heights.chip) / 2
    pdf.fill(_rectangle(Box(at.x, upper, at.x + chip, upper + heights.chip)), cell.colour)
    _draw_corners(pdf, Box(at.x, upper, at.x + chip, upper + heights.chip), cell)
    left = at.x + chip + 0.09
    for number, colour in enumerate(cell.instead):
        y = upper + number * (heights.chip - heights.instead)
        pdf.fill(_rectangle(Box(left, y, left + heights.instead, y + heights.instead)), colour)
    below = Point(at.x, at.y + heights.ground + 0.2)
    pdf.text(below, shortened(cell.name, _NAME, wide), _NAME)
    y = _lines(pdf, below, (cell.of,), _FINE, wide)
    style = _ALERT if cell.alert else _VERDICT
    y = _lines(pdf, Point(at.x, y + 0.03), (cell.label,), style, wide)
    _lines(pdf, Point(at.x, y), cell.lines, _FINE, wide)


def _draw_corners(pdf: Pdf, chip: Box, cell: Cell) -> None:
    """Draws small marks off a chip's corners: of a match nothing else would be seen."""
    tone = toned(cell.ground, _MARK_TONE)
    for x, away in ((chip.left, -1), (chip.right, 1)):
        for y, below in ((chip.top, -1), (chip.bottom, 1)):
            near, far = _MARK_OFF_IN, _MARK_OFF_IN + _MARK_IN
            pdf.rule(Point(x + away * near, y), Point(x + away * far, y), _EDGE_PT, tone)
            pdf.rule(Point(x, y + below * near), Point(x, y + below * far), _EDGE_PT, tone)


def _caption_in(cell: Cell, wide: float) -> float:
    fine = sum(len(wrapped(line, _FINE, wide)) for line in (cell.of, *cell.lines))
    label = len(wrapped(cell.label, _VERDICT, wide)) * _VERDICT.leading_in
    return 0.23 + fine * _FINE.leading_in + label


def _notes_block(sheet: ColoursSheet, room: Box) -> _Block:
    lines = sum(len(wrapped(note, _FOOT, room.width)) for note in sheet.notes)

    def draw(pdf: Pdf, top: float) -> None:
        at = Point(room.left, top + 0.1)
        for note in sheet.notes:
            at = pdf.paragraph(at, note, _FOOT, room.width)

    return _Block(0.1 + lines * _FOOT.leading_in, draw)


def _lines(pdf: Pdf, above: Point, lines: Sequence[str], style: Style, wide: float) -> float:
    """Sets lines below a baseline; returns the last baseline."""
    y = above.y
    for line in lines:
        for part in wrapped(line, style, wide):
            y += style.leading_in
            pdf.text(Point(above.x, y), part, style)
    return y


def _rectangle(box: Box) -> Shape:
    left, top, right, bottom = box
    return Shape(polygon_outline((left, top), (right, top), (right, bottom), (left, bottom)))
