"""What is drawn on a page, as PDFium shows it."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pypdfium2 as pdfium

from mockup.geometry.outline import Outline, Shape, circle_arc, polygon_outline
from mockup.geometry.point import Box, Point
from mockup.output.pdf import whole_pdf

PPI = 50


def seen(path: Path) -> np.ndarray:
    page = pdfium.PdfDocument(path)[0]
    return np.asarray(page.render(scale=PPI / 72, rev_byteorder=True).to_pil().convert("RGB"))


def at(picture: np.ndarray, x_in: float, y_in: float) -> tuple[int, ...]:
    return tuple(int(v) for v in picture[round(y_in * PPI), round(x_in * PPI)])


def test_a_fill_and_a_clip_leave_holes_open(tmp_path: Path) -> None:
    """The hole winds as the outline does, so only the even-odd rule leaves it open."""
    for corners in (((1, 1), (3, 1), (3, 3), (1, 3)), ((1, 1), (1, 3), (3, 3), (3, 1))):
        hole = Outline((circle_arc(Point(2, 2), 0.5, 0, 360),))
        shape = Shape(polygon_outline(*corners), (hole,))
        with whole_pdf(tmp_path / "page.pdf", "t", "a", "s") as pdf:
            pdf.begin_page(4, 4, "page")
            pdf.fill(shape, (200, 30, 30))
            art = np.full((10, 10, 3), (30, 30, 200), np.uint8)
            pdf.picture(art, Box(0.5, 0.5, 1.5, 1.5), shape)
        picture = seen(tmp_path / "page.pdf")
        assert at(picture, 2, 2) == (255, 255, 255)
        assert at(picture, 2, 1.2) == (200, 30, 30)
        assert at(picture, 1.2, 1.2) == (30, 30, 200)  # art, within the clip
        assert at(picture, 0.7, 0.7) == (255, 255, 255)  # art, cut off


def test_a_picture_fills_its_box_the_right_way_up(tmp_path: Path) -> None:
    art = np.zeros((100, 100, 3), np.uint8)
    art[:50, :50] = (250, 10, 10)  # a red quarter at the upper left
    art[50:, 50:] = (10, 250, 10)
    with whole_pdf(tmp_path / "page.pdf", "t", "a", "s") as pdf:
        pdf.begin_page(4, 4, "page")
        pdf.picture(art, Box(1, 1, 3, 3))
    picture = seen(tmp_path / "page.pdf")
    assert at(picture, 1.06, 1.06) == (250, 10, 10)
    assert at(picture, 2.94, 2.94) == (10, 250, 10)
    assert at(picture, 0.94, 1.06) == at(picture, 1.06, 3.04) == (255, 255, 255)
