"""A watermark across a page: pale enough that type and cut line stay as plain as without it."""

from __future__ import annotations

import math

from mockup.errors import Mistake, RequestError
from mockup.output.pdf import Pdf
from mockup.output.proof.grid import PAPERS_IN
from mockup.output.typography import Style, line_width_in

OPACITY = 0.16
"""Judgement: seen on white, on black and on a photograph; type over or under it loses little."""

_LARGEST_PT, _SMALLEST_PT = 110.0, 36.0
_SHARE = 0.8  # of the page's diagonal, at most
_TONE = (128, 128, 128)  # between the lightest paper and the darkest ink


def refuse_too_long(text: str, paper: str) -> None:
    """Raises RequestError for a watermark that would be too small to be one, on a paper's page."""
    width_in, height_in = PAPERS_IN[paper]
    if _size_pt(text, width_in, height_in) < _SMALLEST_PT:
        told = "is too long to go across a page; give some three words"
        raise RequestError(Mistake(f'"{text}" {told}', "", "watermark", text))


def draw_watermark(pdf: Pdf, text: str) -> None:
    """Sets a watermark from corner to corner, over all that is drawn, as no part of it."""
    size = _size_pt(text, pdf.width_in, pdf.height_in)
    style = Style("light", size, size, _TONE)
    angle = math.degrees(math.atan2(pdf.height_in, pdf.width_in))
    with pdf.artifact():
        pdf.text_over(text, style, angle, OPACITY)


def _size_pt(text: str, width_in: float, height_in: float) -> float:
    """Returns the size at which a text has its share of a page's diagonal, or the largest."""
    at_100 = line_width_in(text, Style("light", 100.0, 100.0))
    return min(_LARGEST_PT, 100.0 * _SHARE * math.hypot(width_in, height_in) / at_100)
