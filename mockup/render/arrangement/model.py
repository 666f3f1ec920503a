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
    rough: Item | None = None
    """What its place is first sought for, in the same coordinates, where its own outline may change
    though the suite's sizes do not: with another flap an open envelope then stays where it was."""

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
    """What is wrong with an arrangement, each term weighed already; `total` adds them up, and
    lower is better. What the terms are made of, and the worth of each part, stands in the modules
    named; all of it is common practice of table-top styling, no source.
    """

    meetings: float
    """`meetings.py`: type, borders and holes hidden; lines that run or end too near another's;
    accidental overlaps; too much of a piece, of a lining or of the main piece's head hidden. Less
    what pieces gain that lie together in earnest, the main piece on an envelope above all."""
    even: float
    """`board.py`: how unevenly paper and bare table are spread, looked at with half-closed eyes;
    balance and rhythm are its other names. And how far the main piece is off the middle."""
    line: float
    """`board.py`: below nought for edges and axes of straight pieces in line with others'."""
    fill: float
    """`framing.py`: how far the share of the picture under paper is from its range."""
    margins: float
    """`framing.py`: how unlike the side margins are to those above and below."""
    leaning: float
    """`framing.py`: turned pieces, by how many, which want a reason."""

    @property
    def total(self) -> float:
        """The sum, by which arrangements are compared."""
        return sum(self)


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
