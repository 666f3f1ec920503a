"""Cards with a band round them: how long it must be, where it turns, what of it is seen in front.

The middle of the strip's art lies on the middle of the front card, so that its ends meet in the
middle of the back: there the right end, or the lower one, lies over the other. A strip wider than
high goes along the cards' width, a higher one along their height, where the file says no other.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import shapely
from shapely.geometry import Polygon

from mockup.geometry.affine import Affine, translation
from mockup.geometry.flatten import ring
from mockup.geometry.point import Box
from mockup.reading.overlaid import middle_on_middle
from mockup.suite.band_reading import goes_across
from mockup.suite.suite import Piece, Suite
from mockup.units import MIL_PER_INCH

_FINE_IN = 0.0002


@dataclass(frozen=True)
class Bound:
    """A band and the cards it goes round, the front one first; all as they lie, closed."""

    band: Piece
    cards: tuple[Piece, ...]
    at_in: float | None = None
    """Where the band's middle lies, from the front card's top, or its left; None for its middle."""
    sheets: tuple[Piece, ...] = ()
    """Sheets that are seen through, on any of the cards: the band goes round them too."""

    @property
    def names(self) -> tuple[str, ...]:
        """The names of the cards, the front one first."""
        return tuple(card.name for card in self.cards)

    @property
    def goes_across(self) -> bool:
        """Whether it goes from side to side, not from head to foot."""
        return goes_across(self.band)

    @property
    def length_in(self) -> float:
        """How long the strip is cut."""
        return self.band.die.width_in if self.goes_across else self.band.die.height_in

    @property
    def width_in(self) -> float:
        """How wide it is, across its way."""
        return self.band.die.height_in if self.goes_across else self.band.die.width_in

    @property
    def side_in(self) -> float:
        """How far the widest card reaches along the band."""
        return max(self.reach_in(card) for card in self.cards)

    def reach_in(self, card: Piece) -> float:
        """Returns how far a card reaches along the band."""
        return card.die.width_in if self.goes_across else card.die.height_in

    def held_in(self, card: Piece) -> float:
        """Returns how far a card reaches along the band at the place where the band lies: less than
        elsewhere, where it is cut to a narrower shape there."""
        outline = Polygon(ring(card.die.shape.outer.mapped(self.under_front(card)), _FINE_IN))
        first, _, last, _ = self.band.die.shape.box.corners()
        low, high = self.to_card.point(first), self.to_card.point(last)
        under = outline.intersection(shapely.box(*low, *high))
        if under.is_empty:
            return 0.0
        left, top, right, bottom = under.bounds
        return right - left if self.goes_across else bottom - top

    @property
    def caliper_in(self) -> float:
        """The thickness of the band's paper."""
        return self.band.stock.caliper_mil / MIL_PER_INCH

    @property
    def thickness_in(self) -> float:
        """How thick the cards and the sheets on them lie together; a folded one counts twice."""
        mils = sum(
            each.stock.caliper_mil * (1 if each.fold is None else 2)
            for each in (*self.cards, *self.sheets)
        )
        return mils / MIL_PER_INCH

    @property
    def girth_in(self) -> float:
        """What the band's paper goes round, along its own middle: two sides, two thicknesses, and
        four rounded corners, a circle of half its caliper (plane geometry)."""
        return 2 * (self.side_in + self.thickness_in) + math.pi * self.caliper_in

    @property
    def overlap_in(self) -> float:
        """By how much the strip's ends lie over each other; below nought they do not meet."""
        return self.length_in - self.girth_in

    @property
    def meant_in(self) -> float | None:
        """The overlap that the file asks for."""
        return self.band.wraps and self.band.wraps.overlap_in

    @property
    def turns_in(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """From where to where along the strip it goes round the cards' sides, the first side and
        the other: each between a turn at the front and one at the back."""
        middle, half = self.length_in / 2, self.side_in / 2 + self.caliper_in
        first, last, down = middle - half, middle + half, self.thickness_in
        return (first - down, first), (last, last + down)

    @cached_property
    def panel(self) -> Box:
        """What of the strip is seen in front, in the strip's inches: between its turns."""
        die, half = self.band.die, self.side_in / 2 + self.caliper_in
        if self.goes_across:
            middle = die.width_in / 2
            return Box(middle - half, 0.0, middle + half, die.height_in)
        middle = die.height_in / 2
        return Box(0.0, middle - half, die.width_in, middle + half)

    @property
    def to_card(self) -> Affine:
        """The map from the strip's inches to the front card's."""
        die, front = self.band.die, self.cards[0].die
        if self.goes_across:
            at_in = front.height_in / 2 if self.at_in is None else self.at_in
            return translation((front.width_in - die.width_in) / 2, at_in - die.height_in / 2)
        at_in = front.width_in / 2 if self.at_in is None else self.at_in
        return translation(at_in - die.width_in / 2, (front.height_in - die.height_in) / 2)

    def under_front(self, card: Piece) -> Affine:
        """Returns the map from a bound card's inches to the front one's: middle under middle."""
        return middle_on_middle(card, self.cards[0])


def bound(suite: Suite) -> list[Bound]:
    """Returns the bands of a suite with the cards they go round."""
    found: list[Bound] = []
    for each in suite.pieces:
        if each.wraps is None:
            continue
        names = each.wraps.cards
        sheets = tuple(sheet for sheet in suite.pieces if sheet.over in names)
        cards = tuple(suite.piece(name) for name in names)
        found.append(Bound(each, cards, each.wraps.at_in, sheets))
    return found


def lying_bound(suite: Suite) -> list[Bound]:
    """Returns those that lie bound in a picture, not card by card."""
    return [each for each in bound(suite) if each.band.wraps and each.band.wraps.is_bound]


def stand_in(suite: Suite, name: str) -> str:
    """Returns the piece that another is seen with in a picture: of a sheet, the card it lies over;
    of a bound card or its band, the front card."""
    for each in lying_bound(suite):
        names = [each.band.name, *(card.name for card in each.cards)]
        if name in names:
            return each.cards[0].name
    over = next((each.over for each in suite.pieces if each.name == name), None)
    return name if over is None else stand_in(suite, over)
