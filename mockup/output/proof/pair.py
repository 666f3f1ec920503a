"""Before and now of one thing: side by side, or one above the other, whichever is larger."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from PIL import Image
from PIL.Image import Resampling

from mockup.geometry.point import Box, Point
from mockup.output.pdf import Pdf
from mockup.output.proof.grid import GUTTER_IN, LABEL
from mockup.output.proof.ground import Ground
from mockup.output.proof.rings import draw_rings
from mockup.output.typography import HAIR
from mockup.pixels import Bytes

_SHOWN_PPI = 220.0  # of the page; what is small is shown larger beside it
_LARGEST = 1.0  # never larger than true size
_CAPTION_IN = 0.22
_BETWEEN_IN = 0.16  # from the upper picture to the lower one's caption
_ROOM_RIGHT_IN = 0.2  # what a number may stand beyond a picture
_LEAST_PICTURE_IN = 1.0
_WORTH = 1.05  # judgement: less larger is not seen

Size = tuple[float, float]
"""Width and height, inches."""


@dataclass(frozen=True)
class Seen:
    """How one proof shows a piece: (h, w, 4) uint8 sRGB, straight alpha, clear outside the cut."""

    picture: Bytes
    ppi: float

    @property
    def size_in(self) -> Size:
        """Its width and height at true size."""
        high, wide = self.picture.shape[:2]
        return wide / self.ppi, high / self.ppi


@dataclass(frozen=True)
class Pair:
    """How two pictures stand: where the second begins from the first's top left, captions taken
    in, inches; how large both are drawn, 1 for true size; and how wide and high all of it is."""

    second: Point
    scale: float
    wide_in: float
    high_in: float


def beside(sizes: Sequence[Size], wide_in: float, high_in: float) -> Pair:
    """Returns two pictures side by side, each in half of a room, as large as it allows."""
    half = (wide_in - GUTTER_IN) / 2
    widest, highest = (max(size[k] for size in sizes) for k in (0, 1))
    most = max(high_in - _CAPTION_IN, _LEAST_PICTURE_IN)
    scale = min(_LARGEST, (half - _ROOM_RIGHT_IN) / widest, most / highest)
    return Pair(Point(half + GUTTER_IN, 0.0), scale, wide_in, _CAPTION_IN + highest * scale)


def stacked(sizes: Sequence[Size], wide_in: float, high_in: float) -> Pair:
    """Returns two pictures one above the other in a room, as large as it allows."""
    widest, highs = max(size[0] for size in sizes), sum(size[1] for size in sizes)
    most = max(high_in - 2 * _CAPTION_IN - _BETWEEN_IN, _LEAST_PICTURE_IN)
    scale = min(_LARGEST, (wide_in - _ROOM_RIGHT_IN) / widest, most / highs)
    down = _CAPTION_IN + sizes[0][1] * scale + _BETWEEN_IN
    wide, high = widest * scale + _ROOM_RIGHT_IN, down + _CAPTION_IN + sizes[1][1] * scale
    return Pair(Point(0.0, down), scale, wide, high)


def larger_pair(sizes: Sequence[Size], wide_in: float, high_in: float) -> Pair:
    """Returns of both ways the one that shows two pictures larger; side by side where they are
    about alike, for there they are more easily compared. One picture alone stands as if beside
    another."""
    row = beside(sizes, wide_in, high_in)
    if len(sizes) < 2:
        return row
    column = stacked(sizes, wide_in, high_in)
    return column if column.scale > _WORTH * row.scale else row


def draw_seen(
    pdf: Pdf, seen: Seen, told: tuple[str, str], at: Point, scale: float, rings: Sequence[Box]
) -> None:
    """Draws one picture of a thing from the top left of its caption; `told` is the thing's title
    and the caption, `rings` lie round places in inches of the thing."""
    title, when = told
    with pdf.element("Caption"):
        pdf.text(Point(at.x, at.y + 0.1), when, LABEL)
    wide, high = (side * scale for side in seen.size_in)
    top = at.y + _CAPTION_IN
    box = Box(at.x, top, at.x + wide, top + high)
    size = tuple(round(side * _SHOWN_PPI) for side in (wide, high))
    small = Image.fromarray(edged(seen.picture)).resize((size[0], size[1]), Resampling.BOX)
    with pdf.element("Figure", f"{title}, {when.lower()}."):
        pdf.photograph(np.asarray(small), box)
    placed = [_placed(each, Point(at.x, top), scale) for each in rings]
    with pdf.artifact():
        ground = Ground(np.asarray(small), Point(at.x, top), _SHOWN_PPI)
        draw_rings(pdf, placed, box.grown(_ROOM_RIGHT_IN), ground)


def _placed(box: Box, at: Point, scale: float) -> Box:
    return Box(*(at[k % 2] + side * scale for k, side in enumerate(box)))


def on_white(picture: Bytes) -> Bytes:
    """Returns a picture of straight alpha laid on white, (h, w, 3)."""
    share = picture[:, :, 3:].astype(np.uint16)
    laid = picture[:, :, :3] * share + 255 * (255 - share) + 127
    return (laid // 255).astype(np.uint8)


def edged(picture: Bytes) -> Bytes:
    """Returns a picture on white with a fine grey line where it is cut, so that white is seen."""
    inside = picture[:, :, 3] > 127
    near = np.pad(inside, 2)
    core = near[:-4, 2:-2] & near[4:, 2:-2] & near[2:-2, :-4] & near[2:-2, 4:]
    laid = on_white(picture)
    laid[inside & ~core] = HAIR
    return laid
