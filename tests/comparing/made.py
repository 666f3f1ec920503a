"""A small card drawn with Pillow at four times its size and averaged, as a page's edges are."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw, ImageFont
from PIL.Image import Resampling

from mockup.pixels import Bytes

PPI = 300
WIDE, HIGH = 900, 600  # 3 x 2 in
TIMES = 4
FONTS = Path(__file__).resolve().parents[2] / "mockup/output/fonts"
INK, PAPER = (30, 36, 60), (246, 242, 232)

Draw = Callable[[ImageDraw.ImageDraw], None]


def words(
    draw: ImageDraw.ImageDraw,
    text: str,
    y: float,
    size_pt: float = 9,
    ink: tuple[int, int, int] = INK,
    face: str = "Regular",
    x: float = 120,
) -> None:
    size = round(size_pt / 72 * PPI * TIMES)
    font = ImageFont.truetype(str(FONTS / f"AlegreyaSans-{face}.ttf"), size)
    draw.text((x * TIMES, y * TIMES), text, fill=ink, font=font)


def plain(draw: ImageDraw.ImageDraw) -> None:
    words(draw, "The Tide Mill Supper", 80, 18)
    words(draw, "Oysters, bread, butter; and a song.", 220)
    words(draw, "Boats leave at six, and again at ten.", 320)
    draw.line((TIMES * 120, TIMES * 440, TIMES * 700, TIMES * 440), fill=INK, width=2 * TIMES)
    draw.ellipse((TIMES * 420, TIMES * 500, TIMES * 436, TIMES * 516), fill=INK)


def card(
    *drawn: Draw,
    paper: tuple[int, int, int] = PAPER,
    shift: tuple[int, int] = (0, 0),
    scale: float = 1.0,
) -> Bytes:
    """Returns a card, all of it shifted by quarters of a pixel and scaled about its middle."""
    large = Image.new("RGB", (WIDE * TIMES, HIGH * TIMES), paper)
    canvas = ImageDraw.Draw(large)
    for each in drawn:
        each(canvas)
    middle = (WIDE * TIMES / 2, HIGH * TIMES / 2)
    offset = [m - (m + s) / scale for m, s in zip(middle, shift, strict=True)]
    matrix = (1 / scale, 0, offset[0], 0, 1 / scale, offset[1])
    moved = large.transform(large.size, Image.Transform.AFFINE, matrix, fillcolor=paper)
    return np.asarray(moved.resize((WIDE, HIGH), Resampling.BOX))
