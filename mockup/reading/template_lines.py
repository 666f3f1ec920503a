"""A template's lines and marks in the art: by layer or ink, by the course of a line, by its place.

Some are sure, and a client's picture may leave them out; others are only likely, and are told.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from mockup.artwork.inspection import Ink, Inspection, Painted
from mockup.geometry.point import Box
from mockup.reading.die_zones import DieZones
from mockup.reading.part import densified
from mockup.trade.tolerances import CROP_MARK_LENGTHS, SAFE_MARGINS, TEMPLATE_LINE
from mockup.trade.vocabulary import is_template
from mockup.units import PT_PER_INCH

FOLLOWS_WITHIN_IN = 0.012  # judgement: a line redrawn by hand wanders less; a drawn edge more
FOLLOWS_SHARE = 0.8  # judgement: a line broken by tabs or a corner of its own still follows
STEP_IN = 0.03  # judgement: a line's sides are asked so often; scallops are wider
HAIR_PT = 0.8  # judgement: what is drawn as a border is commonly thicker
CUT_WITHIN_IN = 0.015  # judgement: a pixel at 72 to the inch; no border is set so near the cut
BLEED_BEYOND_IN = 0.05  # judgement: a bleed line drawn for a larger bleed (3 mm, 4 mm) counts
MARGIN_WITHIN_IN = 0.006  # judgement: tells 1/8 in from 3 mm (0.007 in apart) and no less
SPAN = 0.7  # judgement: share of the card's sides that a line round it spans, arches included
PURE = 0.02  # judgement: rounding of a full or an absent ink through a profile
COLOURED = 0.9  # judgement: how far the largest and least channel of a pure primary lie apart
MARK_WITHIN_IN = 0.012  # judgement: crop marks are in line with the trim but for rounding
LEVEL_WITHIN_IN = 0.004  # judgement: a third of a point; what is drawn level is nearer
TOUCHES_IN = 0.003  # judgement: a mark that ends at bleed or trim is neither in it nor on the card


@dataclass(frozen=True)
class FollowingLine:
    """A thin line round the card that follows the die, or the trim's rectangle, or an offset of it.

    `usual_in` is how far inside that it runs, inches, negative outside.
    """

    painted: Painted
    line: Literal["cut", "bleed", "safe"]
    along: Literal["die", "trim"]
    usual_in: float

    @property
    def on_the_die(self) -> bool:
        """Whether it is the die's own outline."""
        return self.line == "cut" and self.along == "die"


@dataclass(frozen=True)
class TemplateLines:
    """All that looks like a template's on a page, in three groups that may share objects.

    `named` lie on a template's layer, in a template's ink, or are a processing step; `crop_marks`
    are short lines in line with the trim's edges that reach into the bleed.
    """

    named: tuple[Painted, ...]
    following: tuple[FollowingLine, ...]
    crop_marks: tuple[Painted, ...]

    @property
    def painted(self) -> list[Painted]:
        """Every object of the three groups."""
        return [*self.named, *(line.painted for line in self.following), *self.crop_marks]

    def without_place(self) -> TemplateLines:
        """Returns what is known without knowing where the card lies: the named."""
        return TemplateLines(self.named, (), ())


def find_template_lines(inspection: Inspection, zones: DieZones) -> TemplateLines:
    """Returns a template's lines and marks among what a page paints."""
    lines = [painted for painted in inspection.painted if is_thin_line(painted)]
    following = [line for p in lines if (line := _following(p, zones)) is not None]
    marks = [painted for painted in lines if _is_crop_mark(painted, zones)]
    return TemplateLines(tuple(_named(inspection)), tuple(following), tuple(marks))


def is_thin_line(painted: Painted) -> bool:
    """Returns whether something is a stroke as thin as a template's lines are drawn."""
    pen = painted.pen
    return (
        painted.kind == "path"
        and pen is not None
        and pen.width_in * PT_PER_INCH <= TEMPLATE_LINE.value
    )


def from_trim(points: NDArray[np.float64], card: Box) -> NDArray[np.float64]:
    """Returns distances of (n, 2) points from the trim's rectangle, positive inside, inches."""
    x, y = points.T
    return np.min([x - card.left, card.right - x, y - card.top, card.bottom - y], axis=0)


def _named(inspection: Inspection) -> list[Painted]:
    guides = {
        layer.name
        for layer in inspection.layers
        if is_template(layer.name) or layer.processing_step is not None
    }
    return [
        painted
        for painted in inspection.painted
        if painted.layer in guides
        or (painted.ink is not None and any(map(is_template, painted.ink.names)))
    ]


def _following(painted: Painted, zones: DieZones) -> FollowingLine | None:
    """Returns a line as one that follows the die, its trim or an offset of either; None for art."""
    card = zones.shape.box
    if painted.box.width <= SPAN * card.width or painted.box.height <= SPAN * card.height:
        return None
    points = np.concatenate([densified(ring, STEP_IN) for ring in painted.rings])
    courses: Sequence[tuple[Literal["die", "trim"], NDArray[np.float64]]] = (
        ("die", zones.signed(points)),
        ("trim", from_trim(points, card)),
    )
    for along, signed in courses:
        usual = float(np.median(signed))
        if (np.abs(signed - usual) < FOLLOWS_WITHIN_IN).mean() < FOLLOWS_SHARE:
            continue
        line = _which_line(usual, painted, zones)
        if line is not None:
            return FollowingLine(painted, line, along, usual)
    return None


def _which_line(
    usual_in: float, painted: Painted, zones: DieZones
) -> Literal["cut", "bleed", "safe"] | None:
    """Returns which line of a template this is, by how far inside the cut it runs; None for art.

    Inside the card a border may run anywhere; only one that is dashed, or a hairline in a pure
    primary, at a usual margin, is a template's.
    """
    assert painted.pen is not None
    if abs(usual_in) < CUT_WITHIN_IN:
        return "cut"
    if usual_in < 0:
        outside = -usual_in - painted.pen.width_in / 2 > 0
        return "bleed" if outside and -usual_in < zones.bleed_in + BLEED_BEYOND_IN else None
    margins = (*(margin.value for margin in SAFE_MARGINS), zones.safe_in)
    at_margin = any(abs(usual_in - margin) < MARGIN_WITHIN_IN for margin in margins)
    hair = painted.pen.width_in * PT_PER_INCH <= HAIR_PT
    drawn_so = bool(painted.pen.dashes) or (hair and _is_primary(painted.ink))
    return "safe" if at_margin and drawn_so else None


def _is_primary(ink: Ink | None) -> bool:
    if ink is None or ink.space not in ("rgb", "cmyk"):
        return False
    values = ink.values[:3]
    pure = all(value < PURE or value > 1 - PURE for value in values)
    coloured = max(values) - min(values) > COLOURED
    return pure and coloured and (ink.space == "rgb" or ink.values[3] < PURE)


def _is_crop_mark(painted: Painted, zones: DieZones) -> bool:
    """Returns whether a line is a crop mark: short, upright or level, in line with a trim edge,
    and inside the bleed."""
    if len(painted.rings) != 1 or len(painted.rings[0]) != 2:
        return False
    (x0, y0), (x1, y1) = painted.rings[0]
    card = zones.shape.box
    level, upright = abs(y1 - y0) < LEVEL_WITHIN_IN, abs(x1 - x0) < LEVEL_WITHIN_IN
    length = float(np.hypot(x1 - x0, y1 - y0))
    shortest, longest = (limit.value for limit in CROP_MARK_LENGTHS)
    if not (level or upright) or not shortest <= length <= longest:
        return False
    edges = (card.top, card.bottom) if level else (card.left, card.right)
    in_line = min(abs((y0 if level else x0) - edge) for edge in edges) < MARK_WITHIN_IN
    reach = from_trim(painted.rings[0], card).max()
    return in_line and -zones.bleed_in + TOUCHES_IN < reach <= TOUCHES_IN
