"""What is arranged, and the answer: items, their places on the table, the frame, the score."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from mockup.geometry.affine import Affine, rotation, translation
from mockup.geometry.point import Box, Point

Ring = NDArray[np.float64]
"""(n, 2) float64, inches; closed without repeating its first point."""

Role = Literal["envelope", "main", "card"]


@dataclass(frozen=True)
class Item:
    """A piece to lay on the table, in its own coordinates: inches, y down.

    `keep_clear` are regions that no higher piece may hide (type, drawings). `show` are regions
    that should stay largely in sight (the lined flap of an open envelope): a wish, not a rule.
    `weight` is visual mass per square inch, 1 for common paper, more for a dark or busy piece.
    """

    name: str
    outline: Ring
    keep_clear: tuple[Ring | Box, ...] = ()
    role: Role = "card"
    show: tuple[Ring | Box, ...] = ()
    weight: float = 1.0

    @property
    def box(self) -> Box:
        """The upright box around the outline."""
        (left, top), (right, bottom) = self.outline.min(axis=0), self.outline.max(axis=0)
        return Box(float(left), float(top), float(right), float(bottom))


@dataclass(frozen=True)
class Frame:
    """The part of the table that the picture shows, inches; table origin at its top left."""

    width_in: float
    height_in: float
    margin_in: float


@dataclass(frozen=True)
class Placed:
    """Where an item lies: its box's centre on the table, its turn, its layer (0 lowest)."""

    name: str
    angle_deg: float
    centre: Point
    layer: int
    to_table: Affine


class Score(NamedTuple):
    """Faults of an arrangement, each 0 where there is none; `total` weighs them. Lower is better.

    Shares are 0 to 1. Weights and wishes are common practice of table-top styling, no source.
    """

    hidden: float
    """Area of `keep_clear` regions under higher pieces, square inches. A rule."""
    outside: float
    """How far pieces reach into the margin or past it, inches, summed. A rule."""
    touching: float
    """Number of pairs that neither lie clear of each other nor overlap in earnest. A rule."""
    fill: float
    """How far the share of the picture that pieces cover is from its range."""
    balance: float
    """Distance of the centre of visual mass from the frame's, in parts of the frame's size."""
    empty: float
    """Share of the frame far from any piece, counted again for each farther distance."""
    apart: float
    """Shortage of overlaps: pieces not joined to the group, main card hardly on an envelope."""
    heap: float
    """Share of all paper that lies under other paper, past what still reads as a layout."""
    liner: float
    """Share of `show` regions hidden, past a little that does no harm."""
    visible: float
    """How much of single cards is covered, past a fair share, summed."""
    main: float
    """Main card's distance from the optical centre, past what still reads as the middle."""
    heads: float
    """Share of the upper parts of main cards and envelopes hidden, where dies and flaps show."""
    angles: float
    """Turns that look like mistakes: nearly parallel neighbours, everything leaning one way."""
    alignment: float
    """For upright pieces: share of them with no edge or axis in line with another's."""

    @property
    def total(self) -> float:
        """The weighted sum, by which arrangements are compared."""
        return sum(weight * fault for weight, fault in zip(WEIGHTS, self, strict=True))


WEIGHTS = Score(
    hidden=20.0,
    outside=20.0,
    touching=1.5,
    fill=5.0,
    balance=6.0,
    empty=2.0,
    apart=1.0,
    heap=4.0,
    liner=4.0,
    visible=2.0,
    main=2.0,
    heads=8.0,
    angles=0.6,
    alignment=0.8,
)


@dataclass(frozen=True)
class Arrangement:
    """Pieces on the table, bottom to top, the frame around them and how they were judged."""

    placed: tuple[Placed, ...]
    frame: Frame
    score: Score


def place(item: Item, angle_deg: float, centre: Point, layer: int) -> Placed:
    """Returns an item placed with its box's centre at a point of the table, turned about it."""
    pivot = item.box.centre
    to_table = translation(*centre) @ rotation(angle_deg) @ translation(-pivot.x, -pivot.y)
    return Placed(item.name, angle_deg, centre, layer, to_table)


def ring_of(region: Ring | Box) -> Ring:
    """Returns a region as a ring, (n, 2) float64 inches."""
    if isinstance(region, Box):
        return np.array(region.corners(), dtype=np.float64)
    return region
