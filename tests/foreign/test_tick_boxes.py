"""A box for a tick is found by its frame, and only what is inside it is ink."""

from __future__ import annotations

import numpy as np
import pytest
from PIL import Image, ImageDraw

from mockup.foreign.tick_boxes import ink_inside
from mockup.geometry.point import Box

PPI = 300.0
BOX = Box(1.0, 1.0, 1.2, 1.2)


def _page(tick: bool, right: int = 0, down: int = 0, framed: bool = True) -> np.ndarray:
    """A page by another drawing library: a frame of 3 px, moved by pixels, and a tick in it."""
    page = Image.new("L", (660, 660), 255)
    pen = ImageDraw.Draw(page)
    left, top = 300 + right, 300 + down
    if framed:
        pen.rectangle((left, top, left + 60, top + 60), outline=90, width=3)
    if tick:
        pen.line([(left + 14, top + 30), (left + 26, top + 46), (left + 50, top + 10)], 40, 6)
    return np.asarray(page)


@pytest.mark.parametrize(("right", "down"), [(0, 0), (9, -4), (-30, 20), (34, 34)])
def test_a_frame_beside_its_place_is_no_ink(right: int, down: int) -> None:
    assert ink_inside(_page(False, right, down), BOX, PPI) == 0
    there, moved = (ink_inside(_page(True, *by), BOX, PPI) for by in ((0, 0), (right, down)))
    assert there > 0.1 and moved == pytest.approx(there, abs=0.03)


def test_where_there_is_no_frame_nothing_is_read() -> None:
    assert ink_inside(_page(False, framed=False), BOX, PPI) == 0
    assert ink_inside(_page(False), Box(-0.1, 2.1, 0.1, 2.3), PPI) == 0  # beyond the page
