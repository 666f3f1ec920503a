"""The proof's grid: papers, margins, styles, the running foot.

Type that matters is 12 points or more: on a telephone a page is some 400 points of the screen wide,
two thirds of its width on paper.
"""

from __future__ import annotations

from mockup.colour.srgb import Rgb
from mockup.geometry.point import Point
from mockup.output.pdf import Pdf
from mockup.output.ruler import draw_ruler
from mockup.output.typography import QUIET, Style, line_width_in, shortened, wrapped
from mockup.units import Unit, format_length, mm_to_in

PAPERS_IN = {
    "letter": (8.5, 11.0),  # ANSI/ASME Y14.1 size A
    "a4": (mm_to_in(210), mm_to_in(297)),  # ISO 216
}

LARGER_IN = {
    "letter": (
        ("tabloid paper", 11.0, 17.0),  # ANSI/ASME Y14.1 sizes B to E
        ("a sheet of 17 × 22 in", 17.0, 22.0),
        ("a sheet of 22 × 34 in", 22.0, 34.0),
        ("a sheet of 34 × 44 in", 34.0, 44.0),
    ),
    "a4": tuple(
        (f"A{number} paper", mm_to_in(short), mm_to_in(long))  # ISO 216
        for number, short, long in ((3, 297, 420), (2, 420, 594), (1, 594, 841), (0, 841, 1189))
    ),
}
"""The papers a page larger than the proof's own is printed on: name, short and long side."""

ART_PPI = 300.0
"""Of a piece's art as placed, at most: 6 pt type stays sharp at 200 % on a screen of 150 ppi."""

COVER_PPI = 200.0
"""Of the cover's photograph, at most: enough to judge, too little to print."""

LEFT_IN = 0.5
GUTTER_IN = 0.25
TOP_IN = 0.65
FOOT_IN = 0.5  # from the foot's baseline to the paper's edge
TAIL_IN = 0.82  # what a page keeps free below for its foot
RULER_IN = 1.22  # from the ruler's line to the paper's edge
RULER_TAIL_IN = 1.66  # what a page with a ruler keeps free below
RULER_LENGTH_IN = 5

ALERT: Rgb = (150, 52, 36)

DISPLAY = Style("light", 36, 40)
HEADLINE = Style("light", 28, 32)
TITLE = Style("light", 25, 29)
SMALL_TITLE = Style("light", 17, 20)  # of a title that would take more than two lines
LABEL = Style("caps", 10.5, 14, QUIET, 0.04)
BODY = Style("text", 12, 15)
CLOSE = Style("text", 9.5, 12)  # where there is much
TEXT = Style("text", 13, 17.5)
REMARK = Style("italic", 10.5, 13, QUIET)
FOOT = Style("caps", 8.5, 10, QUIET, 0.05)
STUDIO = Style("caps", 9.5, 11, ALERT, 0.05)

FOR_THE_STUDIO = "For the studio, not for the client"

_TITLE_RISE_IN = 0.25  # from the top margin to a title's first baseline
_AFTER_TITLE_IN = 0.22


def title_style(title: str, measure_in: float) -> Style:
    """Returns the style of a page's title: a smaller one where it would take three lines."""
    return TITLE if len(wrapped(title, TITLE, measure_in)) <= 2 else SMALL_TITLE


def title_end(title: str, measure_in: float) -> float:
    """Returns where what stands under a page's title begins, inches from the top."""
    style = title_style(title, measure_in)
    lines = len(wrapped(title, style, measure_in))
    return TOP_IN + _TITLE_RISE_IN + (lines - 1) * style.leading_in + _AFTER_TITLE_IN


def draw_title(pdf: Pdf, title: str) -> None:
    """Sets a page's title across its top."""
    measure = pdf.width_in - 2 * LEFT_IN
    with pdf.element("H1"):
        at = Point(LEFT_IN, TOP_IN + _TITLE_RISE_IN)
        pdf.paragraph(at, title, title_style(title, measure), measure)


def draw_foot(pdf: Pdf, suite: str, here: str, number: int, total: int) -> None:
    """Sets the running foot, the suite's name shortened where it must be, and `3 of 7`."""
    y = pdf.height_in - FOOT_IN
    told_here = shortened(f"  \u00b7  {here}", FOOT, 4.6)
    room = pdf.width_in - 2 * LEFT_IN - 0.8 - line_width_in(told_here, FOOT)
    with pdf.footer():
        pdf.text(Point(LEFT_IN, y), shortened(suite, FOOT, room) + told_here, FOOT)
        pdf.text(Point(pdf.width_in - LEFT_IN, y), f"{number} of {total}", FOOT, "right")


def draw_studio_mark(pdf: Pdf) -> None:
    """Says at the head of a page that it is not for the client."""
    pdf.text(Point(pdf.width_in - LEFT_IN, 0.42), FOR_THE_STUDIO, STUDIO, "right")


def draw_check(pdf: Pdf, units: Unit) -> None:
    """Draws the ruler, and beside it what to do with it."""
    y = pdf.height_in - RULER_IN
    left = pdf.width_in - LEFT_IN - RULER_LENGTH_IN
    other: Unit = "mm" if units == "in" else "in"
    length, otherwise = (format_length(RULER_LENGTH_IN, unit) for unit in (units, other))
    told = (
        f"Measure this ruler: where it is not {length} ({otherwise}), the page was printed scaled."
    )
    with pdf.element("Figure", f"A ruler. {told}"):
        pdf.paragraph(Point(LEFT_IN, y - 0.13), told, REMARK, left - LEFT_IN - 0.2)
        draw_ruler(pdf, Point(left, y), RULER_LENGTH_IN)
