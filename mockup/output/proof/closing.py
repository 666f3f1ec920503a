"""The proof's last page: what the line means, what a screen cannot show, what the client is asked.

Where a suite has more files than the page has room for, they are listed on a page before it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from mockup.artwork.art import Art
from mockup.geometry.outline import Shape, polygon_outline
from mockup.geometry.point import Point
from mockup.output.pdf import Pdf
from mockup.output.proof.grid import BODY, COLUMN_IN, HEADLINE, LABEL, LEFT_IN, MAIN_IN, TEXT
from mockup.output.proof.words import NO_BREAK, art_words, fingerprint, length_in_mm, unbroken
from mockup.output.typography import QUIET, shortened
from mockup.suite.suite import Suite
from mockup.trade.tolerances import CUT_SHIFT, SAFE, SAFE_MM
from mockup.units import Unit

FILES_WITH_TEXT = 9
"""How many files the closing page lists; more have a page of their own."""

_HEADLINE_IN = 1.0  # its baseline
_FIRST_IN = 1.6  # baseline of the first section
_MEASURE_IN = 5.3
_AFTER_SECTION_IN = 0.23
_BOX_IN = 0.105
_ROW_IN = 0.215
_FILE_COLUMNS_IN = (0.0, 2.35, 4.55)

_CHECKS = (
    ("Names, and how each is spelled", "The shape and size of each piece"),
    ("Dates, weekdays and hours", "Colours, as far as a screen goes"),
    ("Places, and the way to reply", "Papers, envelopes, liners"),
    ("Every other word, read aloud once", "Quantities, with a few to spare"),
)
_ANSWERS = (
    "Yes. Print these files and cut them as shown.",
    "Yes, once the changes I have marked are made.",
    "Not yet. Please show me another proof.",
)


@dataclass(frozen=True)
class FileRow:
    """A file of art the client says yes to: what it is for, its name and page, its fingerprint."""

    title: str
    art: str
    fingerprint: str


def file_rows(suite: Suite) -> list[FileRow]:
    """Returns every page of art in the suite."""

    def row(title: str, art: Art) -> FileRow:
        return FileRow(title, art_words(art), fingerprint(art))

    rows = [row(piece.title, piece.art) for piece in suite.pieces]
    for envelope in suite.envelopes:
        if envelope.liner is not None:
            title = f"{envelope.title}, liner"
            rows.append(row(title, envelope.liner.art))
    return rows


def draw_files(pdf: Pdf, rows: Sequence[FileRow]) -> None:
    """Draws a page of files alone."""
    pdf.text(Point(LEFT_IN, _HEADLINE_IN), "The files", HEADLINE)
    _draw_rows(pdf, rows, Point(MAIN_IN, _FIRST_IN))


def draw_closing(pdf: Pdf, suite: Suite, rows: Sequence[FileRow]) -> None:
    """Draws the closing page on a page begun."""
    pdf.text(Point(LEFT_IN, _HEADLINE_IN), "Before you say yes", HEADLINE)
    y = _FIRST_IN
    for label, told in _sections(suite.units):
        y = _label(pdf, label, y)
        y = pdf.paragraph(Point(MAIN_IN, y), told, TEXT, _MEASURE_IN).y + _AFTER_SECTION_IN
    y = _draw_checks(pdf, _label(pdf, "Please check", y)) + _AFTER_SECTION_IN
    y = _label(pdf, "These files", y)
    if len(rows) <= FILES_WITH_TEXT:
        y = _draw_rows(pdf, rows, Point(MAIN_IN, y)) + _AFTER_SECTION_IN
    else:
        told = "All of those listed on the page before, by their fingerprints."
        y = pdf.paragraph(Point(MAIN_IN, y), told, TEXT, _MEASURE_IN).y + _AFTER_SECTION_IN
    y = _draw_answers(pdf, suite, _label(pdf, "Your answer", y))
    _draw_signature(pdf, y + 0.45)


def _sections(units: Unit) -> tuple[tuple[str, str], ...]:
    shift = _margin(CUT_SHIFT.value, units)
    safe = unbroken(f"{SAFE_MM:g} mm") if units == "mm" else _margin(SAFE.value, units)
    return (
        (
            "The thin line",
            "It shows where the blade cuts and is not printed. Die and sheet never meet exactly: "
            f"common practice allows {shift}, to any side. Nothing that matters should come within "
            f"{safe} of the line, and a border close to it will not look even.",
        ),
        (
            "Your screen",
            "It shows the design, not the ink. Colour was converted for a screen we cannot see, by "
            "rules we had to assume; paper, finish, foil and the light in your room change it "
            "again. This is no contract proof: where a colour must be right, ask for one on the "
            "paper itself.",
        ),
        (
            "On paper",
            "Print at 100 %, measure the ruler, then cut a piece out along its line and hold it. "
            "A shaped or bulky piece can cost more to post, or travel only in an envelope: ask "
            "your post office.",
        ),
    )


def _margin(length_in: float, units: Unit) -> str:
    if units == "mm":
        return unbroken(length_in_mm(length_in))
    return f"{Fraction(length_in).limit_denominator(64)}{NO_BREAK}in"


def _label(pdf: Pdf, text: str, y: float) -> float:
    pdf.paragraph(Point(LEFT_IN, y), text, LABEL, COLUMN_IN)
    return y


def _draw_checks(pdf: Pdf, y: float) -> float:
    for row in _CHECKS:
        for column, text in enumerate(row):
            _box_and_text(pdf, Point(MAIN_IN + column * _MEASURE_IN / 2, y), text)
        y += _ROW_IN
    return y


def _draw_rows(pdf: Pdf, rows: Sequence[FileRow], at: Point) -> float:
    y = at.y
    for row in rows:
        cells = (row.title, row.art, row.fingerprint)
        ends = (*_FILE_COLUMNS_IN[1:], _MEASURE_IN)
        for cell, start, end in zip(cells, _FILE_COLUMNS_IN, ends, strict=True):
            pdf.text(Point(at.x + start, y), shortened(cell, BODY, end - start - 0.12), BODY)
        y += _ROW_IN
    return y


def _draw_answers(pdf: Pdf, suite: Suite, y: float) -> float:
    for text in _ANSWERS:
        _box_and_text(pdf, Point(MAIN_IN, y), text)
        y += _ROW_IN
    told = (
        f"Sign below, or write \u201cyes to {suite.title}, revision {suite.revision}\u201d. A yes "
        "is to the files listed here: one that changes has another fingerprint, and asks for "
        "another yes. Your printer and die maker have the last word on what can be made."
    )
    return pdf.paragraph(Point(MAIN_IN, y + 0.08), told, TEXT, _MEASURE_IN).y


def _draw_signature(pdf: Pdf, y: float) -> None:
    for label, start, end in (("Name", 0.0, 3.4), ("Date", 3.6, _MEASURE_IN)):
        pdf.rule(Point(MAIN_IN + start, y), Point(MAIN_IN + end, y), 0.5, QUIET)
        pdf.text(Point(MAIN_IN + start, y + 0.15), label, LABEL)


def _box_and_text(pdf: Pdf, at: Point, text: str) -> None:
    left, bottom = at.x, at.y + 0.006
    right, top = left + _BOX_IN, bottom - _BOX_IN
    box = Shape(polygon_outline((left, top), (right, top), (right, bottom), (left, bottom)))
    pdf.stroke(box, QUIET, 0.6)
    pdf.text(Point(at.x + 0.2, at.y), text, TEXT)
