"""Notes beside or below a drawing: a small label and what it says, from column to column."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from mockup.geometry.point import Box, Point
from mockup.output.pdf import Pdf
from mockup.output.proof.grid import ALERT, BODY, LABEL, TITLE
from mockup.output.typography import Style, wrapped
from mockup.units import pt_to_in

_TITLE_RISE = 0.7  # of its size: from the top of its capitals to its baseline
_AFTER_TITLE_IN = 0.06
_ABOVE_FIGURE_IN = 0.12  # from the baseline above it
_AFTER_NOTE_IN = 0.55 * BODY.leading_in
_ALERT_LABEL = Style("caps", LABEL.size_pt, LABEL.leading_pt, ALERT, LABEL.tracking_em)


@dataclass(frozen=True)
class Figure:
    """A small drawing: its height, inches, and how it is drawn from its top left."""

    height_in: float
    draw: Callable[[Pdf, Point], None]


@dataclass(frozen=True)
class Note:
    """A label and what it says, a paragraph each, and a drawing under them."""

    label: str
    told: tuple[str, ...]
    alert: bool = False
    figure: Figure | None = None


@dataclass(frozen=True)
class Notes:
    """A title and the notes under it."""

    title: str
    notes: tuple[Note, ...]


def have_room(columns: Sequence[Box], notes: Notes) -> bool:
    """Returns whether notes end within their columns."""
    (*_, (note, at, measure_in)) = _placed(columns, notes)
    return at.y + _height(note, measure_in) - LABEL.leading_in <= columns[-1].bottom


def draw_notes(pdf: Pdf, columns: Sequence[Box], notes: Notes) -> None:
    """Sets a title and notes below it, from column to column; labels small, a gap between notes."""
    first = columns[0]
    baseline = Point(first.left, first.top + pt_to_in(TITLE.size_pt) * _TITLE_RISE)
    pdf.paragraph(baseline, notes.title, TITLE, first.width)
    for note, at, measure_in in _placed(columns, notes):
        draw_note(pdf, at, note, measure_in)


def draw_note(pdf: Pdf, at: Point, note: Note, measure_in: float) -> None:
    """Sets one note, its label's baseline at `at`."""
    at = pdf.paragraph(at, note.label, _ALERT_LABEL if note.alert else LABEL, measure_in)
    for text in note.told:
        at = pdf.paragraph(at, text, BODY, measure_in)
    if note.figure is not None:
        note.figure.draw(pdf, Point(at.x, at.y - BODY.leading_in + _ABOVE_FIGURE_IN))


def _placed(columns: Sequence[Box], notes: Notes) -> list[tuple[Note, Point, float]]:
    """Returns every note with its label's baseline and the measure it is set to."""
    column, *later = columns
    title_in = len(wrapped(notes.title, TITLE, column.width)) * TITLE.leading_in
    y = column.top + pt_to_in(TITLE.size_pt) * _TITLE_RISE + title_in + _AFTER_TITLE_IN
    placed: list[tuple[Note, Point, float]] = []
    for note in notes.notes:
        height_in = _height(note, column.width)
        if later and y + height_in - LABEL.leading_in > column.bottom:
            column, *later = later
            y = column.top + LABEL.leading_in
            height_in = _height(note, column.width)
        placed.append((note, Point(column.left, y), column.width))
        y += height_in + _AFTER_NOTE_IN
    return placed


def _height(note: Note, measure_in: float) -> float:
    """Returns the height of a note's lines, label and text, and of its drawing."""
    labels = len(wrapped(note.label, LABEL, measure_in))
    lines = sum(len(wrapped(text, BODY, measure_in)) for text in note.told)
    drawn_in = note.figure.height_in + _ABOVE_FIGURE_IN if note.figure is not None else 0.0
    return labels * LABEL.leading_in + lines * BODY.leading_in + drawn_in
