"""The straight parts of a die along its four sides: where its paper can be torn against a rule."""

from __future__ import annotations

from typing import Literal, get_args

from mockup.geometry.outline import Line, Shape
from mockup.geometry.point import Point

Side = Literal["left", "top", "right", "bottom"]
SIDES: tuple[Side, ...] = get_args(Side)

STRAIGHT_LEAST_IN = 0.3
"""A shorter straight part is not torn; judgement: a rule is not laid against less."""

_OFF_IN = 0.004  # how far a straight part may lie off its side
_APART_IN = 0.002  # lines of a template that end so near one another are one

Span = tuple[float, float]
"""Where a straight part begins and ends, inches from its side's left or upper end."""


def straight_spans(shape: Shape, side: Side) -> tuple[Span, ...]:
    """Returns the straight parts of an outline that run along a side of its box, in order; none
    where the side is round, pointed or wavy. Holes are not looked at."""
    box = shape.box
    edge = {"left": box.left, "top": box.top, "right": box.right, "bottom": box.bottom}[side]
    upright = side in ("left", "right")
    start = box.top if upright else box.left

    def placed(point: Point) -> tuple[float, float]:
        return (point.y, point.x) if upright else (point.x, point.y)

    found: list[Span] = []
    for part in shape.outer.segments:
        if isinstance(part, Line):
            (a, off_a), (b, off_b) = placed(part.start), placed(part.end)
            if max(abs(off_a - edge), abs(off_b - edge)) <= _OFF_IN:
                found.append((min(a, b) - start, max(a, b) - start))
    return tuple(s for s in _joined(sorted(found)) if s[1] - s[0] >= STRAIGHT_LEAST_IN)


def straight_sides(shape: Shape) -> tuple[Side, ...]:
    """Returns the sides of an outline that are straight somewhere, from the left round."""
    return tuple(side for side in SIDES if straight_spans(shape, side))


def _joined(spans: list[Span]) -> list[Span]:
    joined: list[Span] = []
    for low, high in spans:
        if joined and low - joined[-1][1] <= _APART_IN:
            joined[-1] = (joined[-1][0], max(joined[-1][1], high))
        else:
            joined.append((low, high))
    return joined
