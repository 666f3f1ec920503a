"""Rings round what changed, numbered, over a picture drawn to scale: none hides what it rings."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from mockup.colour.contrast import contrast, luminance
from mockup.colour.srgb import Rgb
from mockup.geometry.outline import Shape, circle_arc, joined
from mockup.geometry.point import Box, Point
from mockup.output.pdf import Pdf
from mockup.output.proof.grid import ALERT
from mockup.output.proof.ground import Ground
from mockup.output.typography import Style
from mockup.render.piece import PAPER_WHITE

AROUND_IN = 0.04  # of the page, from what changed to its ring
NUMBER_IN = 0.085  # radius
_RING_PT, _CASING_PT = 0.9, 2.4  # the casing shows a ring on dark grounds
_ROUND_IN = 0.08
_NUMBER = Style("text", 8.5, 10, ALERT)
_HIDES_NOTHING = 0.02  # judgement: share of what is drawn under a number; the tip of a letter
_SEEN = 3.0  # of a line to its ground (WCAG 2.2, 1.4.11, of graphical objects)
_DROP_IN = 0.041  # from a number's middle to its baseline

Drawn = Callable[[Box], float]
"""What says which share of a box on the page something is drawn in, 0 to 1."""


def ring(box: Box) -> Shape:
    """Returns a ring round a box: upright, its corners round."""
    far = box.grown(AROUND_IN)
    radius = min(_ROUND_IN, far.width / 2, far.height / 2)
    corners = (
        (Point(far.right - radius, far.top + radius), -90),
        (Point(far.right - radius, far.bottom - radius), 0),
        (Point(far.left + radius, far.bottom - radius), 90),
        (Point(far.left + radius, far.top + radius), 180),
    )
    return Shape(joined(*(circle_arc(centre, radius, start, 90) for centre, start in corners)))


def draw_rings(pdf: Pdf, boxes: Sequence[Box], room: Box, ground: Ground) -> None:
    """Draws rings round boxes on the page, and the number of each beside it, within a room, where
    little or nothing is drawn: a number hides what lies under it. A ring has its casing only on
    dark ground: on pale paper that would hide the letters beside what changed."""
    rings = [ring(box) for box in boxes]
    for each, box in zip(rings, boxes, strict=True):
        if not _is_seen_on(ground.colour(box.grown(AROUND_IN))):
            pdf.stroke(each, PAPER_WHITE, _CASING_PT)
    for each in rings:
        pdf.stroke(each, ALERT, _RING_PT)
    taken = [box.grown(AROUND_IN) for box in boxes]
    for number, box in enumerate(boxes, start=1):
        at = number_place(box.grown(AROUND_IN), taken, room, ground.drawn_share)
        taken.append(Box(*at, *at).grown(NUMBER_IN))
        draw_number(pdf, at, number)


def _is_seen_on(colour: Rgb) -> bool:
    """Returns whether a ring is seen on a colour without a casing."""
    line, ground = luminance(np.array((ALERT, colour), np.uint8))
    return bool(contrast(line, ground) >= _SEEN)


def draw_number(pdf: Pdf, at: Point, number: int) -> None:
    """Draws a number in a small circle about a point."""
    disc = Shape(joined(circle_arc(at, NUMBER_IN, 0, 180), circle_arc(at, NUMBER_IN, 180, 180)))
    pdf.fill(disc, PAPER_WHITE)
    pdf.stroke(disc, ALERT, 0.6)
    pdf.text(Point(at.x, at.y + _DROP_IN), str(number), _NUMBER, "centre")


def number_place(box: Box, taken: Sequence[Box], room: Box, drawn: Drawn) -> Point:
    """Returns where a number stands clear of all rings and numbers, near its own ring, where least
    is drawn; of places that hide nothing the first."""
    far = NUMBER_IN + 0.01
    middle = (box.top + box.bottom) / 2
    tried = (
        Point(box.right + far, middle),
        Point(box.left - far, middle),
        Point(box.right + far, box.top - far),
        Point(box.left - far, box.top - far),
        Point(box.right + far, box.bottom + far),
        Point(box.left - far, box.bottom + far),
        Point(box.centre.x, box.top - far),
        Point(box.centre.x, box.bottom + far),
    )
    inside = [each for each in tried if _within(each, room)]
    clear = [each for each in inside if not any(_near(each, other) for other in taken)]

    def hides(at: Point) -> float:
        share = drawn(Box(*at, *at).grown(NUMBER_IN))
        return share if share > _HIDES_NOTHING else 0.0

    return min(clear, key=hides) if clear else (inside or tried)[0]


def _within(at: Point, room: Box) -> bool:
    return room.left <= at.x <= room.right and room.top <= at.y <= room.bottom


def _near(at: Point, box: Box) -> bool:
    x = min(max(at.x, box.left), box.right) - at.x
    y = min(max(at.y, box.top), box.bottom) - at.y
    return x * x + y * y < NUMBER_IN**2
