"""What a proof cannot promise: how far a cut may move, drawn to scale; what a screen hides."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from mockup.artwork.raster import RasterJob
from mockup.colour.appearance import appearance
from mockup.colour.plates import Plates
from mockup.colour.srgb import Rgb, parse_hex
from mockup.geometry.affine import IDENTITY, translation
from mockup.geometry.flatten import rings
from mockup.geometry.outline import Shape, polygon_outline
from mockup.geometry.point import Box, Point
from mockup.output.pdf import HAIRLINE_PT, Pdf
from mockup.output.proof.card import draw_art, draw_cut_line
from mockup.output.proof.grid import (
    ALERT,
    ART_PPI,
    BODY,
    GUTTER_IN,
    LABEL,
    LEFT_IN,
    PAPERS_IN,
    TAIL_IN,
    TEXT,
    draw_title,
    title_end,
)
from mockup.output.proof.plan import Page, Telling
from mockup.output.proof.screen import screen_told
from mockup.output.proof.words import NO_BREAK, length_in_mm, unbroken
from mockup.output.typography import HAIR, wrapped
from mockup.pixels import Bytes, View, view_around
from mockup.render.piece import PAPER_WHITE, line_for, located
from mockup.suite.suite import Piece
from mockup.trade.tolerances import CUT_SHIFT, SAFE, SAFE_MM
from mockup.units import Unit

TITLE = "What this proof cannot promise"

_WINDOW_LEAST_IN, _WINDOW_MOST_IN = 1.6, 3.4
_INTO_CARD = 0.86  # share of the window that lies on the card's side of its corner
_AFTER_TEXT_IN = 0.1
_AFTER_LABEL_IN = 0.03
_AFTER_SECTION_IN = 0.34
_OUTLINE_IN = 0.002  # how near the corner of the die is found
_NOMINAL_PT = 0.8


def promise_page(telling: Telling) -> Page:
    """Returns the page. Raises what reading the art of the first piece raises."""
    width, height = PAPERS_IN[telling.suite.paper]
    piece = telling.suite.pieces[0]
    wide = (width - 2 * LEFT_IN - 2 * GUTTER_IN) / 3
    window = corner_window(piece, wide, _window_high(telling, width, height))
    ppi = 200.0 if telling.watermark else ART_PPI
    view = view_around(window, ppi)
    art, placement = located(piece)

    def draw(pdf: Pdf, drawn: Sequence[Plates]) -> None:
        picture = appearance(drawn[0], parse_hex(piece.stock.colour_hex))
        draw_title(pdf, TITLE)
        y = title_end(TITLE, width - 2 * LEFT_IN) + 0.2
        (label, told), *others = _sections(telling)
        y = _section(pdf, label, told, y)
        y = _draw_corners(pdf, telling, piece, (picture, view, window), y) + _AFTER_SECTION_IN
        for label, told in others:
            y = _section(pdf, label, told, y) + _AFTER_SECTION_IN

    return Page(TITLE, width, height, draw, (RasterJob(art, placement, IDENTITY, view),))


def _window_high(telling: Telling, width: float, height: float) -> float:
    """Returns how high the corners are drawn, so that the page is full."""
    measure = width - 2 * LEFT_IN
    sections = _sections(telling)
    lines = sum(len(wrapped(told, TEXT, measure)) for _, told in sections)
    words = lines * TEXT.leading_in + len(sections) * (
        LABEL.leading_in + _AFTER_LABEL_IN + _AFTER_SECTION_IN
    )
    under = 4 * BODY.leading_in + 0.4
    room = height - TAIL_IN - title_end(TITLE, measure) - words - under
    return min(max(room, _WINDOW_LEAST_IN), _WINDOW_MOST_IN)


def corner_window(piece: Piece, wide_in: float, high_in: float) -> Box:
    """Returns a window on a card about the lowest left point of its die, at most as large as asked
    for; most of it lies on the card."""
    points = [(float(x), float(y)) for ring in rings(piece.die.shape, _OUTLINE_IN) for x, y in ring]
    x, y = min(points, key=lambda point: point[0] - point[1])
    left = x - wide_in * (1 - _INTO_CARD)
    bottom = y + high_in * (1 - _INTO_CARD)
    return Box(left, bottom - high_in, left + wide_in, bottom)


def shifts(units: Unit) -> tuple[tuple[str, Point], ...]:
    """Returns the cuts that are drawn: what each is called, and how far it lies from the art."""
    far = CUT_SHIFT.value
    told = margin_words(far, units)
    return (
        ("As drawn", Point(0.0, 0.0)),
        (f"Cut {told} to the right", Point(far, 0.0)),
        (f"Cut {told} to the left and down", Point(-far, far)),
    )


def margin_words(length_in: float, units: Unit) -> str:
    """Returns `1/16 in` or `1.6 mm`, unbroken."""
    if units == "mm":
        return unbroken(length_in_mm(length_in))
    return f"{Fraction(length_in).limit_denominator(64)}{NO_BREAK}in"


def _sections(telling: Telling) -> tuple[tuple[str, str], ...]:
    units = telling.suite.units
    shift = margin_words(CUT_SHIFT.value, units)
    safe = unbroken(f"{SAFE_MM:g} mm") if units == "mm" else margin_words(SAFE.value, units)
    return (
        (
            "Where the blade falls",
            "The thin line shows where the blade cuts and is not printed. Die and sheet never meet "
            f"exactly: common practice allows {shift}, to any side. Nothing that matters should "
            f"come within {safe} of the line, and a border close to it will not look even. This is "
            "a corner of your own card, at true size, as it may come.",
        ),
        ("Your screen", screen_told(telling.suite, telling.audience)),
        (
            "On paper",
            "Print at 100 %, measure the ruler, then cut a piece out along its line and hold it. "
            "A shaped or bulky piece can cost more to post, or travel only in an envelope: ask "
            "your post office.",
        ),
        (
            "What can be made",
            "Your printer and die maker have the last word on what can be printed and cut, on "
            "which paper, and how even it comes from the first sheet to the last.",
        ),
    )


def _section(pdf: Pdf, label: str, told: str, y: float) -> float:
    """Sets a label and a paragraph; returns where what follows begins."""
    measure = pdf.width_in - 2 * LEFT_IN
    with pdf.element("H2"):
        y = pdf.paragraph(Point(LEFT_IN, y), label, LABEL, measure).y + _AFTER_LABEL_IN
    return pdf.paragraph(Point(LEFT_IN, y), told, TEXT, measure).y


def _draw_corners(
    pdf: Pdf, telling: Telling, piece: Piece, art: tuple[Bytes, View, Box], y: float
) -> float:
    """Draws the corner as it may be cut, three times; returns where they end."""
    picture, view, window = art
    line = line_for(piece.die.shape, picture, view, [PAPER_WHITE], telling.suite.cut_line)
    top, end = y - TEXT.leading_in + _AFTER_TEXT_IN, y
    for number, (told, by) in enumerate(shifts(telling.suite.units)):
        left = LEFT_IN + number * (window.width + GUTTER_IN)
        to_page = translation(left - window.left, top - window.top)
        cut = piece.die.shape.mapped(to_page @ translation(*by))
        frame = Box(left, top, left + window.width, top + window.height)
        alt = f"A corner of {piece.title}. {told}."
        with pdf.element("Figure", alt), pdf.clipped(_rectangle(frame)):
            draw_art(pdf, picture, view, to_page, cut)
            draw_cut_line(pdf, cut, line)
            if number:
                _draw_nominal(pdf, piece.die.shape.mapped(to_page), ALERT)
        pdf.rectangle(frame, HAIR, HAIRLINE_PT)
        with pdf.element("Caption"):
            end = pdf.paragraph(Point(left, frame.bottom + 0.2), told, BODY, window.width).y
    lines = len(wrapped(_DASHED, BODY, pdf.width_in - 2 * LEFT_IN))
    pdf.paragraph(Point(LEFT_IN, end + 0.04), _DASHED, BODY, pdf.width_in - 2 * LEFT_IN)
    return end + 0.04 + lines * BODY.leading_in


_DASHED = (
    "Dashed: where the cut was meant. What is printed stays where it is; the edge moves over it."
)


def _draw_nominal(pdf: Pdf, shape: Shape, colour: Rgb) -> None:
    pdf.stroke(shape, colour, _NOMINAL_PT, (0.06, 0.045))


def _rectangle(box: Box) -> Shape:
    return Shape(polygon_outline(*[(corner.x, corner.y) for corner in box.corners()]))
