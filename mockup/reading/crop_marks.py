"""Crop marks that reach into the bleed, where a cut that wanders lays them open."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from mockup.artwork.inspection import Painted
from mockup.reading.courses import from_trim
from mockup.reading.die_zones import DieZones
from mockup.trade.tolerances import CROP_MARK_LENGTHS

MARK_WITHIN_IN = 0.012  # judgement: crop marks are in line with the trim but for rounding
LEVEL_WITHIN_IN = 0.004  # judgement: a third of a point; what is drawn level is nearer
TOUCHES_IN = 0.003  # judgement: a mark that ends at bleed or trim is neither in it nor on the card


def is_crop_mark(painted: Painted, zones: DieZones) -> bool:
    """Returns whether a line is a crop mark: short, upright or level, in line with a trim edge,
    and inside the bleed."""
    ends = _ends(painted)
    if ends is None:
        return False
    (x0, y0), (x1, y1) = ends
    card = zones.card
    level, upright = abs(y1 - y0) < LEVEL_WITHIN_IN, abs(x1 - x0) < LEVEL_WITHIN_IN
    length = float(np.hypot(x1 - x0, y1 - y0))
    shortest, longest = (limit.value for limit in CROP_MARK_LENGTHS)
    if not (level or upright) or not shortest <= length <= longest:
        return False
    edges = (card.top, card.bottom) if level else (card.left, card.right)
    in_line = min(abs((y0 if level else x0) - edge) for edge in edges) < MARK_WITHIN_IN
    reach = from_trim(ends, card).max()
    return bool(in_line and -zones.bleed_in + TOUCHES_IN < reach <= TOUCHES_IN)


def _ends(painted: Painted) -> NDArray[np.float64] | None:
    """Returns where a straight stroke, or a thin filled rectangle, begins and ends."""
    if len(painted.rings) != 1:
        return None
    (ring,) = painted.rings
    if painted.pen is not None:
        return ring if len(ring) == 2 else None
    left, top, right, bottom = (*ring.min(axis=0), *ring.max(axis=0))
    x, y = (left + right) / 2, (top + bottom) / 2
    if right - left > bottom - top:
        return np.array([(left, y), (right, y)])
    return np.array([(x, top), (x, bottom)])
