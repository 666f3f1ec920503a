"""The proof's grid: paper, columns, where a piece goes at which scale, foot and styles.

A narrow column of notes on the left and a wide field to its right; where a piece is too wide for
that, the field takes the page's width and the notes stand below it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from mockup.colour.srgb import Rgb
from mockup.errors import LimitError
from mockup.geometry.point import Box, Point
from mockup.output.pdf import Pdf
from mockup.output.typography import QUIET, Style, line_width_in, shortened
from mockup.units import Unit, format_size, mm_to_in

PAPERS_IN = {
    "letter": (8.5, 11.0),  # ANSI/ASME Y14.1 size A
    "a4": (mm_to_in(210), mm_to_in(297)),  # ISO 216
}

ART_PPI = 200.0
"""Of pictures as placed on the page, at most: enough to read and judge, too little to print."""

RATIOS = (1.0, 2.0, 3.0, 4.0, 5.0, 10.0, 20.0)
"""The scales pieces are drawn at, 1 to each of these."""

LEFT_IN = 0.6
COLUMN_IN = 1.45
GUTTER_IN = 0.25
MAIN_IN = LEFT_IN + COLUMN_IN + GUTTER_IN
TOP_IN = 0.65
BESIDE_IN = 0.3  # room beside and below a piece for its measures
RIGHT_IN = 0.35
FOOT_IN = 0.5  # from the foot's baseline to the paper's edge
RULER_IN = 1.28  # from the ruler's line to the paper's edge
FIELD_END_IN = RULER_IN + 0.26 + BESIDE_IN
STRIP_IN = 1.5  # of notes below a field as wide as the page

ALERT: Rgb = (150, 52, 36)

DISPLAY = Style("light", 34, 38)
HEADLINE = Style("light", 26, 30)
TITLE = Style("light", 21, 23.5)
LABEL = Style("caps", 8.5, 11.5, QUIET, 0.05)
BODY = Style("text", 9.5, 12)
TEXT = Style("text", 11, 15)
REMARK = Style("italic", 9, 11.5, QUIET)
FOOT = Style("caps", 8, 10, QUIET, 0.05)


@dataclass(frozen=True)
class Frame:
    """A page's size, its field for a picture, and the columns its notes run through, inches."""

    width_in: float
    height_in: float
    field: Box
    columns: tuple[Box, ...]


@dataclass(frozen=True)
class Fitted:
    """A frame and the scale something goes in it at, 1 to `ratio`."""

    frame: Frame
    ratio: float


def portrait(paper: str) -> Frame:
    """Returns an upright page with notes beside its field."""
    return _beside(*PAPERS_IN[paper])


def landscape(paper: str) -> Frame:
    """Returns a page on its side with notes beside its field."""
    width_in, height_in = PAPERS_IN[paper]
    return _beside(height_in, width_in)


def fitted(
    paper: str,
    width_in: float,
    height_in: float,
    holds: Callable[[Frame, float], bool],
    units: Unit = "in",
) -> Fitted:
    """Returns where a piece goes: at true size if any page of the paper has room, else scaled.

    `holds` says whether a page, drawn at 1 to some ratio, has room for the notes too. Raises
    LimitError, told in `units`, for a piece that has no room at 1 : 20.
    """
    short, long = PAPERS_IN[paper]
    frames = (
        _beside(short, long),
        _beside(long, short),
        _across(short, long),
        _across(long, short),
    )
    roomy = [
        Fitted(frame, ratio)
        for ratio in RATIOS
        for frame in frames
        if _has_room(frame.field, width_in / ratio, height_in / ratio)
    ]
    if not roomy:
        size = format_size(width_in, height_in, units)
        raise LimitError(f"a piece of {size} is too large for a proof on {paper} paper")
    return next((place for place in roomy if holds(place.frame, place.ratio)), roomy[0])


def _has_room(field: Box, width_in: float, height_in: float) -> bool:
    return width_in <= field.width + 1e-6 and height_in <= field.height + 1e-6


def _beside(width_in: float, height_in: float) -> Frame:
    right, bottom = width_in - RIGHT_IN - BESIDE_IN, height_in - FIELD_END_IN
    column = Box(LEFT_IN, TOP_IN, LEFT_IN + COLUMN_IN, height_in - RULER_IN - 0.4)
    return Frame(width_in, height_in, Box(MAIN_IN, TOP_IN, right, bottom), (column,))


def _across(width_in: float, height_in: float) -> Frame:
    right, bottom = width_in - RIGHT_IN - BESIDE_IN, height_in - FIELD_END_IN - STRIP_IN
    strip_top, strip_end = bottom + BESIDE_IN + 0.14, height_in - RULER_IN - 0.36
    measure = (width_in - 2 * LEFT_IN - 3 * GUTTER_IN) / 4
    columns = tuple(
        Box(left, strip_top, left + measure, strip_end)
        for left in (LEFT_IN + k * (measure + GUTTER_IN) for k in range(4))
    )
    return Frame(width_in, height_in, Box(LEFT_IN, TOP_IN, right, bottom), columns)


def draw_foot(pdf: Pdf, suite: str, page: str, number: int, total: int) -> None:
    """Sets the running foot, the suite's name shortened where it must be, and `3 of 7`."""
    y = pdf.height_in - FOOT_IN
    page = shortened(f"  \u00b7  {page}", FOOT, 4.0)
    room = pdf.width_in - 2 * LEFT_IN - 0.8 - line_width_in(page, FOOT)
    pdf.text(Point(LEFT_IN, y), shortened(suite, FOOT, room) + page, FOOT)
    pdf.text(Point(pdf.width_in - LEFT_IN, y), f"{number} of {total}", FOOT, "right")
