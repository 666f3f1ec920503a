"""Lines as printed: how wide they are, and whether they are lighter than what lies round them."""

from __future__ import annotations

import numpy as np

from mockup.artwork.inspection import Painted, Ring
from mockup.reading.sight import Sight
from mockup.units import PT_PER_INCH

LONG = 20  # judgement: a filled rectangle so many times longer than wide is a line
ASIDE_PX = 3  # judgement: past the soft edge that smoothing draws
MOST_POINTS = 8  # of a rectangle, its corners written again
LIGHTER = 20  # judgement: 255ths; less is not seen as a light line on a dark ground


def line_width_pt(painted: Painted) -> float | None:
    """Returns the width in points of a stroked line, or of a long thin filled rectangle."""
    if painted.kind != "path":
        return None
    if painted.pen is not None:
        return painted.pen.width_in * PT_PER_INCH
    if len(painted.rings) == 1 and _corners(painted.rings[0]) == 4:
        thin, long = sorted((painted.box.width, painted.box.height))
        if long > LONG * thin > 0:
            return thin * PT_PER_INCH
    return None


def _corners(ring: Ring) -> int:
    """Returns how many corners a filled outline has: programs write its first one up to thrice."""
    if len(ring) > MOST_POINTS:
        return len(ring)
    return len({(round(float(x), 5), round(float(y), 5)) for x, y in ring})


def is_reversed(painted: Painted, sight: Sight) -> bool:
    """Returns whether something is lighter than what lies round it on the page."""
    ring = painted.rings[0]
    middle = ring[len(ring) // 2 : len(ring) // 2 + 1]
    if len(ring) == 2:
        middle = ring.mean(axis=0, keepdims=True)
    reach = (painted.pen.width_in / 2 if painted.pen else 0.0) + ASIDE_PX / sight.view.ppi
    box = painted.box
    around = np.array(
        [
            (box.left - reach, box.centre.y), (box.right + reach, box.centre.y),
            (box.centre.x, box.top - reach), (box.centre.x, box.bottom + reach),
        ]
    )  # fmt: skip
    own = sight.colours_at(middle).mean()
    return bool(own > np.median(sight.colours_at(around).mean(axis=1)) + LIGHTER)
