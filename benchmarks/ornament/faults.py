"""Faults among ornament: type near the cut and over it, emblems and codes cut, white on bare paper.

Every drawing answers what must be told: the check, the place, and the measure in inches or None.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import shapely

from benchmarks.ornament.bleeding import (
    BLUSH,
    CREAM,
    GOLD,
    INK,
    LEAF,
    NAVY,
    ROSE,
    WHITE,
    corner_flowers,
    photo,
    title,
)
from benchmarks.ornament.drawing import Curve, Drawing
from tests.checks.bench.codes import modules


@dataclass(frozen=True)
class Planted:
    """What must be told of a page."""

    check: str
    at: shapely.Geometry
    value: float | None = None
    within: float = 0.01


def type_cut_among_flowers(d: Drawing) -> Planted:
    """A line set from the left edge: its first letters are over the cut."""
    corner_flowers(d)
    d.words(-0.05, 5.0, "Wool and stout shoes", 14, INK)
    return Planted("safe", shapely.box(-0.1, 4.8, 0.1, 5.1), -0.04, 0.02)


def type_near_foot(d: Drawing) -> Planted:
    d.flood(CREAM)
    for x in np.linspace(0.2, 4.8, 8):
        d.flower(x, -0.02, 0.3, BLUSH, turn=x)
    title(d)
    d.words(1.5, 6.97, "carriages at midnight", 12, INK)
    return Planted("safe", shapely.box(1.4, 6.85, 3.9, 7.05))


def emblem_cut(d: Drawing) -> Planted:
    """A ring with a letter and a wave in it, over the right edge by 0.06 in."""
    title(d)
    d.circle(4.66, 1.0, 0.4, NAVY)
    d.circle(4.66, 1.0, 0.35, CREAM)
    d.items.append(
        Curve([(4.4, 1.05), (4.5, 0.9), (4.75, 1.2), (4.9, 1.0)], False, None, NAVY, 2.0)
    )
    return Planted("safe", shapely.box(5.0, 0.5, 5.1, 1.5), -0.06)


def frame_over_cut(d: Drawing) -> Planted:
    corner_flowers(d)
    d.path([(0.3, 0.3), (5.03, 0.3), (5.03, 6.7), (0.3, 6.7)], None, stroke=GOLD, width_pt=1.0)
    return Planted("safe", shapely.box(5.0, 0.2, 5.06, 6.8), -0.037)


def rule_near_cut(d: Drawing) -> Planted:
    d.flood(CREAM)
    title(d)
    d.path([(1.0, 6.94), (4.0, 6.94)], None, closed=False, stroke=NAVY, width_pt=1.0)
    return Planted("safe", shapely.box(0.9, 6.9, 4.1, 6.97), 0.053)


def code(d: Drawing, x: float, y: float, side: float, colour: tuple[float, float, float]) -> None:
    """Draws a code of 25 modules."""
    step = side / 25
    for row, column in np.argwhere(modules(25)):
        d.rect(x + step * column, y + step * row, step, step, colour)


def code_small(d: Drawing) -> Planted:
    title(d)
    code(d, 2.3, 5.0, 0.4, INK)
    return Planted("code", shapely.box(2.3, 5.0, 2.7, 5.4), 0.4, 0.02)


def code_pale(d: Drawing) -> Planted:
    title(d)
    code(d, 2.0, 5.0, 0.9, (0.85, 0.84, 0.8))
    return Planted("code", shapely.box(2.0, 5.0, 2.9, 5.9))


def code_cut(d: Drawing) -> Planted:
    corner_flowers(d)
    code(d, 4.1, 3.6, 0.95, INK)
    return Planted("safe", shapely.box(5.0, 3.5, 5.1, 4.6), -0.05)


def code_in_picture_near(d: Drawing) -> Planted:
    title(d)
    pixels = np.where(modules(25), 20, 255).astype(np.uint8).repeat(12, 0).repeat(12, 1)
    d.picture(np.dstack([pixels] * 3), 0.05, 5.0, 0.9, 0.9)
    return Planted("safe", shapely.box(0.0, 4.9, 0.1, 6.0), 0.05)


def white_on_bare_paper(d: Drawing) -> Planted:
    corner_flowers_without_ground(d)
    d.words(1.4, 5.0, "fiddles in the loft", 14, WHITE)
    return Planted("bare-white", shapely.box(1.35, 4.7, 1.6, 5.05))


def corner_flowers_without_ground(d: Drawing) -> None:
    """Draws flowers in two corners, on bare paper."""
    for x, y in ((0.3, 0.3), (4.7, 6.6)):
        d.flower(x, y, 0.5, ROSE)
        d.leaf(x, y, 0.8, 0.7, 0.1, LEAF)
    title(d)


def ground_without_bleed(d: Drawing) -> Planted:
    d.flood(BLUSH, 0.0)
    title(d)
    return Planted("bleed", shapely.box(0, 0, 5, 7).exterior, 0.0)


def photo_short(d: Drawing) -> Planted:
    """A picture that ends 0.06 in beyond the right edge."""
    d.picture(photo((975, 1560), 5), -0.125, -0.125, 5.185, 3.25)
    title(d)
    return Planted("bleed", shapely.box(4.98, -0.1, 5.02, 3.2), 0.06)


def line_near_both_sides(d: Drawing) -> Planted:
    d.words(0.04, 5.0, "Come in on the flood at half past five, and stay to supper", 11.6, INK)
    title(d)
    return Planted("safe", shapely.box(0, 4.7, 5, 5.2))


FAULTS: dict[str, Callable[[Drawing], Planted]] = {
    each.__name__: each
    for each in (
        type_cut_among_flowers, type_near_foot, emblem_cut, frame_over_cut, rule_near_cut,
        code_small, code_pale, code_cut, code_in_picture_near, white_on_bare_paper,
        ground_without_bleed, photo_short, line_near_both_sides,
    )
}  # fmt: skip
