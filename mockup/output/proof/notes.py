"""Notes beside or below a drawing: a small label and what it says, from column to column."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from mockup.geometry.point import Box, Point
from mockup.output.pdf import Pdf
from mockup.output.proof.grid import ALERT, BODY, GUTTER_IN, LABEL
from mockup.output.typography import Style, wrapped

_ABOVE_FIGURE_IN = 0.12  # from the baseline above it
_AFTER_NOTE_IN = 0.5 * BODY.leading_in
_STEP_IN = 0.05  # columns are levelled by steps of this
_ALERT_LABEL = Style("caps", LABEL.size_pt, LABEL.leading_pt, ALERT, LABEL.tracking_em)


@dataclass(frozen=True)
class Figure:
    """A small drawing: its height, inches, how it is drawn from its top left, and in words."""

    height_in: float
    draw: Callable[[Pdf, Point], None]
    alt: str


@dataclass(frozen=True)
class Note:
    """A label and what it says, a paragraph each, and a drawing under them."""

    label: str
    told: tuple[str, ...]
    alert: bool = False
    figure: Figure | None = None


def column_height(notes: Sequence[Note], measure_in: float) -> float:
    """Returns how high notes stand in one column, inches."""
    between = _AFTER_NOTE_IN * max(0, len(notes) - 1)
    return sum(_height(note, measure_in) for note in notes) + between


def levelled(notes: Sequence[Note], room: Box, count: int) -> tuple[Box, ...]:
    """Returns columns across a room from its top, as short as hold the notes; their foot may lie
    below the room's."""
    measure = (room.width - (count - 1) * GUTTER_IN) / count
    low = room.top + max((_height(note, measure) for note in notes), default=0.0)
    while True:
        columns = tuple(
            Box(left, room.top, left + measure, low)
            for left in (room.left + k * (measure + GUTTER_IN) for k in range(count))
        )
        if have_room(columns, notes):
            return columns
        low += _STEP_IN


def have_room(columns: Sequence[Box], notes: Sequence[Note]) -> bool:
    """Returns whether notes end within their columns."""
    placed = _placed(columns, notes)
    if not placed:
        return True
    note, at, measure_in = placed[-1]
    return at.y + _height(note, measure_in) - LABEL.leading_in <= columns[-1].bottom + 1e-6


def draw_notes(pdf: Pdf, columns: Sequence[Box], notes: Sequence[Note]) -> None:
    """Sets notes from column to column; labels small, a gap between notes."""
    for note, at, measure_in in _placed(columns, notes):
        draw_note(pdf, at, note, measure_in)


def draw_note(pdf: Pdf, at: Point, note: Note, measure_in: float) -> None:
    """Sets one note, its label's baseline at `at`."""
    with pdf.element("H2"):
        label = _ALERT_LABEL if note.alert else LABEL
        at = pdf.paragraph(at, note.label, label, measure_in)
    for text in note.told:
        at = pdf.paragraph(at, text, BODY, measure_in)
    if note.figure is not None:
        with pdf.element("Figure", note.figure.alt):
            note.figure.draw(pdf, Point(at.x, at.y - BODY.leading_in + _ABOVE_FIGURE_IN))


def _placed(columns: Sequence[Box], notes: Sequence[Note]) -> list[tuple[Note, Point, float]]:
    """Returns every note with its label's baseline and the measure it is set to."""
    column, *later = columns
    y = column.top + LABEL.leading_in
    placed: list[tuple[Note, Point, float]] = []
    for note in notes:
        height_in = _height(note, column.width)
        begun = y > column.top + LABEL.leading_in
        if later and begun and y + height_in - LABEL.leading_in > column.bottom + 1e-6:
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
