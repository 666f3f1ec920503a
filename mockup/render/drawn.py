"""A card half drawn out of its open envelope: on the liner, under the pocket, its head in sight."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from mockup.artwork.objects import ArtObject, keep_clear
from mockup.artwork.page import ArtPage, Placement
from mockup.envelopes.views import OpenBack
from mockup.geometry.affine import IDENTITY, Affine, rotation, translation
from mockup.geometry.flatten import Ring, polygon, ring
from mockup.geometry.offset import polygons_of
from mockup.geometry.point import Box, Point
from mockup.geometry.union import rim
from mockup.suite.drawn_reading import turn_in
from mockup.suite.suite import Envelope, Piece

SHARES = (0.35, 0.75)
"""How far a card may be drawn, of its length along the way; judgement: less looks forgotten, more
looks laid beside."""
_USUAL = 0.5
_STEP = 0.01
_BOTTOM_IN = 1 / 16  # of play under a card that is wholly in
_COARSE_IN = 0.01


@dataclass(frozen=True)
class Drawn:
    """A card in its envelope: its art, the map from its inches to those of the envelope's back, and
    how far the envelope is turned on the table so that the card stands upright."""

    piece: Piece
    page: ArtPage
    placement: Placement
    marks: tuple[Box, ...]
    to_back: Affine
    turn_deg: int

    @property
    def on_back(self) -> Ring:
        """The card's outline in the inches of the envelope's back."""
        return ring(self.piece.die.shape.outer.mapped(self.to_back), _COARSE_IN)

    @property
    def to_item(self) -> Affine:
        """The map from the envelope's inches to those it is arranged in: the card upright."""
        return rotation(self.turn_deg)


def drawn_card(
    envelope: Envelope,
    back: OpenBack,
    piece: Piece,
    found: tuple[ArtPage, Placement],
    marks: Sequence[ArtObject],
) -> Drawn:
    """Returns a card drawn so far that the pocket's edge cuts the least of its type.

    `found` is its page and its place on it, `marks` what is on it.
    """
    die = piece.die
    turn = turn_in(piece, envelope) or 0
    clear = tuple(keep_clear(marks, die.width_in, die.height_in))
    ways = {share: _placed(envelope, piece, turn, share) for share in _shares()}
    pocket = polygon(back.pocket)

    def cut(share: float) -> tuple[float, float]:
        halved = sum(_halved(_mapped(box, ways[share]), pocket) for box in clear)
        return round(halved, 3), abs(share - _USUAL)

    best = min(ways, key=cut)
    return Drawn(piece, *found, clear, ways[best], -turn)


def outline(back: OpenBack, drawn: Drawn) -> Ring:
    """Returns the outline of an envelope and the card drawn from it, in the envelope's inches."""
    envelope = Polygon(ring(back.back_sheet.outer, _COARSE_IN))
    return rim(envelope.union(Polygon(drawn.on_back)))


def in_sight(back: OpenBack, drawn: Drawn) -> list[Ring]:
    """Returns what of a card's type and drawings the pocket does not hide, envelope's inches."""
    pocket = polygon(back.pocket)
    shown = [_mapped(box, drawn.to_back).difference(pocket) for box in drawn.marks]
    return [
        np.array(part.exterior.coords[:-1], dtype=np.float64)
        for each in shown
        for part in polygons_of(each)
    ]


def _shares() -> list[float]:
    least, most = SHARES
    return [least + k * _STEP for k in range(round((most - least) / _STEP) + 1)]


def _placed(envelope: Envelope, piece: Piece, turn_deg: int, share: float) -> Affine:
    """Returns the map from a card's inches to the back's, drawn out by a share of its length."""
    die, size = piece.die, envelope.size
    middle = Point(die.width_in / 2, die.height_in / 2)
    long_in = die.width_in if turn_deg else die.height_in
    y = size.height_in - _BOTTOM_IN - long_in / 2 - share * long_in
    turned = IDENTITY if turn_deg == 0 else rotation(turn_deg)
    return translation(size.width_in / 2, y) @ turned @ translation(-middle.x, -middle.y)


def _mapped(box: Box, affine: Affine) -> Polygon:
    return Polygon([affine.point(corner) for corner in box.corners()])


def _halved(mark: Polygon, pocket: BaseGeometry) -> float:
    """Returns how much of a mark is hidden, or in sight, whichever is less, square inches."""
    hidden = mark.intersection(pocket).area
    return min(hidden, mark.area - hidden)
