"""A changed place seen larger, before and now side by side: a comma at true size is not seen."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from PIL import Image
from PIL.Image import Resampling

from mockup.geometry.point import Box, Point
from mockup.output.pdf import HAIRLINE_PT, Pdf
from mockup.output.proof.grid import ART_PPI, BODY
from mockup.output.proof.rings import NUMBER_IN, draw_number
from mockup.output.typography import HAIR
from mockup.pixels import Bytes

_ROUND_IN = 0.09  # of the piece, shown round what changed
_LEAST_HIGH_IN, _MOST_HIGH_IN = 0.55, 1.0
_LARGEST = 4.0  # judgement: pictures are kept at 300 pixels an inch; more shows their pixels
_WORTH = 1.25  # judgement: less than so much larger than on the picture is no lens
_CAPTION_IN = 0.24
_UNDER_IN = 0.16
_BETWEEN_IN = 0.08


@dataclass(frozen=True)
class Lens:
    """Where a place is shown larger: its number and words, which part of the piece is shown, and
    how large, inches; `wide` takes a row of the page by itself."""

    number: int
    words: str
    shown: Box
    width_in: float
    high_in: float
    wide: bool

    @property
    def whole_in(self) -> float:
        """Its height with its caption and the space below."""
        return _CAPTION_IN + self.high_in + _UNDER_IN


def plan_lens(
    number: int, words: str, place: Box, cell_in: float, row_in: float, shown_at: float
) -> Lens | None:
    """Returns a lens half a row wide, else a whole one; None where neither is larger than the
    picture, which shows the piece at `shown_at` of its size."""
    box = place.grown(_ROUND_IN)
    for across, wide in ((cell_in, False), (row_in, True)):
        each = (across - _BETWEEN_IN) / 2
        scale = min(_LARGEST, each / box.width, _MOST_HIGH_IN / box.height)
        if scale < _WORTH * shown_at:
            continue
        high = min(max(box.height * scale, _LEAST_HIGH_IN), _MOST_HIGH_IN)
        half = (each / scale / 2, high / scale / 2)
        middle = box.centre
        shown = Box(middle.x - half[0], middle.y - half[1], middle.x + half[0], middle.y + half[1])
        return Lens(number, words, shown, each, high, wide)
    return None


def draw_lens(pdf: Pdf, lens: Lens, at: Point, pictures: tuple[Bytes, Bytes], ppi: float) -> None:
    """Draws a lens from its top left: number and words, then before and now, (h, w, 3) sRGB."""
    middle = Point(at.x + NUMBER_IN, at.y + _CAPTION_IN - 0.12)
    draw_number(pdf, middle, lens.number)
    with pdf.element("P"):
        pdf.text(Point(at.x + 2 * NUMBER_IN + 0.08, middle.y + 0.055), lens.words, BODY)
    top = at.y + _CAPTION_IN
    for turn, picture in enumerate(pictures):
        left = at.x + turn * (lens.width_in + _BETWEEN_IN)
        box = Box(left, top, left + lens.width_in, top + lens.high_in)
        when = ("before", "now")[turn]
        with pdf.element("Figure", f"Place {lens.number}, larger, {when}. {lens.words}."):
            pdf.picture(_enlarged(picture, lens, ppi), box)
        with pdf.artifact():
            pdf.rectangle(box, HAIR, HAIRLINE_PT)


def _enlarged(picture: Bytes, lens: Lens, ppi: float) -> Bytes:
    """Returns the part a lens shows, white beyond the picture, at a page's resolution."""
    left, top = (round(each * ppi) for each in lens.shown[:2])
    wide, high = (max(1, round(each * ppi)) for each in (lens.shown.width, lens.shown.height))
    part = np.full((high, wide, 3), 255, np.uint8)
    rows = slice(max(top, 0), min(top + high, picture.shape[0]))
    columns = slice(max(left, 0), min(left + wide, picture.shape[1]))
    if rows.start < rows.stop and columns.start < columns.stop:
        part[rows.start - top : rows.stop - top, columns.start - left : columns.stop - left] = (
            picture[rows, columns]
        )
    size = (round(lens.width_in * ART_PPI), round(lens.high_in * ART_PPI))
    return np.asarray(Image.fromarray(part).resize(size, Resampling.LANCZOS))
