"""The ink inside a box for a tick, on a page that was drawn, flattened, printed or scanned.

Where a page lies is known by its code, and a scan's code only to a pixel of the scanner: at the far
end of the page that is more than the frame of a box, which would be read as a tick. So each box is
looked for by its frame, near where it should be.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from mockup.geometry.point import Box
from mockup.pixels import Bytes

_DARK = 150  # of 255: darker is ink, whether of a pen or of a tick
_INSIDE = 0.2  # of a box's side: its own frame, blurred, and what the printing moved
_ABOUT_IN = 0.12  # judgement: twice what a scan of 100 dpi was seen to be off, and less than a row
_FRAME = 0.08  # of a box's side, to either side of its edge: a frame, blurred by a scanner
_FRAMED = 0.06  # of full black, the least of a frame's mean; seen: 0.11 at 75 dpi, 0.03 of no frame
_NEARER = 5e-4  # of full black, a pixel: of places as good, the nearest


def ink_inside(grey: Bytes, box: Box, scale: float) -> float:
    """Returns the share of a box that is dark inside its frame, 0 where no frame is near.

    `grey` is the page, (h, w) uint8; `box` is in inches of it; `scale` its pixels an inch.
    """
    found = _framed(grey, box, scale)
    if found is None:
        return 0.0
    inner = found.grown(-_INSIDE * min(box.width, box.height))
    rows = slice(max(0, round(inner.top * scale)), max(0, round(inner.bottom * scale)))
    columns = slice(max(0, round(inner.left * scale)), max(0, round(inner.right * scale)))
    seen = grey[rows, columns]
    return float((seen < _DARK).mean()) if seen.size else 0.0


def _framed(grey: Bytes, box: Box, scale: float) -> Box | None:
    """Returns a box moved to where its frame is drawn; None where it is nowhere near."""
    about = max(1, round(_ABOUT_IN * scale))
    wide, tall = (max(4, round(side * scale)) for side in (box.width, box.height))
    edge = max(1, round(_FRAME * min(wide, tall)))
    left, top = round(box.left * scale) - about - edge, round(box.top * scale) - about - edge
    window = _window(grey, left, top, wide + 2 * (about + edge), tall + 2 * (about + edge))
    ink = np.pad(np.cumsum(np.cumsum(1 - window / 255.0, 0), 1), ((1, 0), (1, 0)))
    outer = _sums(ink, wide + 2 * edge, tall + 2 * edge)
    inner = _sums(ink, wide - 2 * edge, tall - 2 * edge)
    inner = inner[2 * edge : 2 * edge + outer.shape[0], 2 * edge : 2 * edge + outer.shape[1]]
    area = (wide + 2 * edge) * (tall + 2 * edge) - (wide - 2 * edge) * (tall - 2 * edge)
    mean = (outer - inner) / area
    away = np.hypot(*np.mgrid[-about : about + 1, -about : about + 1])
    row, column = np.unravel_index(np.argmax(mean - _NEARER * away), mean.shape)
    if mean[row, column] < _FRAMED:
        return None
    right, down = (int(column) - about) / scale, (int(row) - about) / scale
    return Box(box.left + right, box.top + down, box.right + right, box.bottom + down)


def _window(grey: Bytes, left: int, top: int, wide: int, tall: int) -> NDArray[np.uint8]:
    """Returns a part of a page, white where it reaches beyond it."""
    part = np.full((tall, wide), 255, np.uint8)
    seen = grey[max(0, top) : max(0, top + tall), max(0, left) : max(0, left + wide)]
    rows, columns = max(0, -top), max(0, -left)
    part[rows : rows + seen.shape[0], columns : columns + seen.shape[1]] = seen
    return part


def _sums(summed: NDArray[np.float64], wide: int, tall: int) -> NDArray[np.float64]:
    """Returns the sum of every part of a size, of a table of sums from the top left (Crow 1984)."""
    below, above = summed[tall:], summed[:-tall]
    return below[:, wide:] - below[:, :-wide] - above[:, wide:] + above[:, :-wide]
