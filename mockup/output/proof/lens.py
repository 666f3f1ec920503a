"""A changed place seen larger, before and now side by side: a comma at true size is not seen."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from PIL import Image
from PIL.Image import Resampling

from mockup.geometry.point import Box, Point
from mockup.output.pdf import HAIRLINE_PT, Pdf
from mockup.output.proof.grid import ART_PPI, BODY
from mockup.output.proof.pair import Seen, on_white
from mockup.output.proof.rings import NUMBER_IN, draw_number
from mockup.output.typography import HAIR, wrapped
from mockup.pixels import Bytes

_ROUND_IN = 0.09  # of the piece, shown round what changed
_LEAST_HIGH_IN, _MOST_HIGH_IN = 0.55, 1.0
_LARGEST = 4.0  # judgement: pictures are kept at 300 pixels an inch; more shows their pixels
_WORTH = 1.25  # judgement: less than so much larger than on the picture is no lens
_WORDS_LEFT_IN = 2 * NUMBER_IN + 0.08
_CAPTION_IN = 0.24  # with one line of words
_UNDER_IN = 0.16
_BETWEEN_IN = 0.08


@dataclass(frozen=True)
class Lens:
    """Where a place is shown larger: its number and words, which part of the piece is shown, how
    large, and where `now` begins from `before`; inches."""

    number: int
    lines: tuple[str, ...]
    shown: Box
    width_in: float
    high_in: float
    second: Point
    across_in: float
    """What it takes of a row or a column."""

    @property
    def caption_in(self) -> float:
        """From its top to its pictures."""
        return told_high_in(len(self.lines))

    @property
    def whole_in(self) -> float:
        """Its height with its caption and the space below."""
        return self.caption_in + self.second.y + self.high_in + _UNDER_IN


def plan_lens(
    number: int, words: str, place: Box, cell_in: float, row_in: float, shown_at: float
) -> Lens | None:
    """Returns a lens half a row wide, else a whole one, before and now side by side; None where
    neither is larger than the picture, which shows the piece at `shown_at` of its size."""
    for across in (cell_in, row_in):
        each = (across - _BETWEEN_IN) / 2
        lens = _planned(number, words, place, each, Point(each + _BETWEEN_IN, 0.0), shown_at)
        if lens is not None:
            return lens
    return None


def plan_upright_lens(
    number: int, words: str, place: Box, column_in: float, shown_at: float
) -> Lens | None:
    """Returns a lens as wide as a column, now below before; None where it is no larger than the
    picture, which shows the piece at `shown_at` of its size."""
    return _planned(number, words, place, column_in, None, shown_at)


def _planned(
    number: int, words: str, place: Box, wide: float, second: Point | None, shown_at: float
) -> Lens | None:
    box = place.grown(_ROUND_IN)
    scale = min(_LARGEST, wide / box.width, _MOST_HIGH_IN / box.height)
    if scale < _WORTH * shown_at:
        return None
    high = min(max(box.height * scale, _LEAST_HIGH_IN), _MOST_HIGH_IN)
    half = (wide / scale / 2, high / scale / 2)
    middle = box.centre
    shown = Box(middle.x - half[0], middle.y - half[1], middle.x + half[0], middle.y + half[1])
    second = second or Point(0.0, high + _BETWEEN_IN)
    across = second.x + wide
    lines = told_lines(words, across)
    return Lens(number, lines, shown, wide, high, second, across)


def told_lines(words: str, wide_in: float) -> tuple[str, ...]:
    """Returns the lines of what is told of a place, its number before them, in a width."""
    return tuple(wrapped(words, BODY, wide_in - _WORDS_LEFT_IN))


def told_high_in(lines: int) -> float:
    """Returns how high so many lines of it stand, to what follows."""
    return _CAPTION_IN + (lines - 1) * BODY.leading_in


def draw_told(pdf: Pdf, at: Point, number: int, lines: Sequence[str]) -> None:
    """Draws a place's number and what is told of it, from their top left."""
    middle = Point(at.x + NUMBER_IN, at.y + _CAPTION_IN - 0.12)
    draw_number(pdf, middle, number)
    with pdf.element("P"):
        for k, line in enumerate(lines):
            down = 0.055 + k * BODY.leading_in
            pdf.text(Point(at.x + _WORDS_LEFT_IN, middle.y + down), line, BODY)


def draw_lens(pdf: Pdf, lens: Lens, at: Point, pictures: tuple[Seen, Seen]) -> None:
    """Draws a lens from its top left: number and words, then before and now."""
    draw_told(pdf, at, lens.number, lens.lines)
    words = " ".join(lens.lines)
    for turn, seen in enumerate(pictures):
        left = at.x + turn * lens.second.x
        top = at.y + lens.caption_in + turn * lens.second.y
        box = Box(left, top, left + lens.width_in, top + lens.high_in)
        when = ("before", "now")[turn]
        with pdf.element("Figure", f"Place {lens.number}, larger, {when}. {words}."):
            pdf.picture(_enlarged(seen, lens), box)
        with pdf.artifact():
            pdf.rectangle(box, HAIR, HAIRLINE_PT)


def _enlarged(seen: Seen, lens: Lens) -> Bytes:
    """Returns the part a lens shows, white beyond the picture, at a page's resolution."""
    picture, ppi = seen.picture, seen.ppi
    left, top = (round(each * ppi) for each in lens.shown[:2])
    wide, high = (max(1, round(each * ppi)) for each in (lens.shown.width, lens.shown.height))
    part = np.full((high, wide, 3), 255, np.uint8)
    rows = slice(max(top, 0), min(top + high, picture.shape[0]))
    columns = slice(max(left, 0), min(left + wide, picture.shape[1]))
    if rows.start < rows.stop and columns.start < columns.stop:
        part[rows.start - top : rows.stop - top, columns.start - left : columns.stop - left] = (
            on_white(picture[rows, columns])
        )
    size = (round(lens.width_in * ART_PPI), round(lens.high_in * ART_PPI))
    return np.asarray(Image.fromarray(part).resize(size, Resampling.LANCZOS))
