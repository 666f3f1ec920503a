"""A sheet that is seen through, laid on a card: where it lies, and how the two look together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from mockup.artwork.raster import RasterJob
from mockup.colour.appearance import appearance
from mockup.colour.plates import Plates
from mockup.colour.srgb import LINEAR, encode, parse_hex
from mockup.colour.translucent import film_of
from mockup.geometry.affine import IDENTITY, Affine, translation
from mockup.pixels import Bytes, View
from mockup.reading.page import placed
from mockup.suite.suite import Piece, Suite


@dataclass(frozen=True)
class Overlay:
    """A sheet and the card it lies on, both as the side that is up; it lies in the middle."""

    sheet: Piece
    card: Piece

    @property
    def to_card(self) -> Affine:
        """The map from the sheet's inches to the card's."""
        return middle_on_middle(self.sheet, self.card)

    def jobs(self, view: View) -> tuple[RasterJob, RasterJob]:
        """Returns what draws the sheet and the card in a view of the card's inches. Raises what
        reading their pages raises."""
        upper, its_place, _ = placed(self.sheet)
        lower, place, _ = placed(self.card)
        return (
            RasterJob(upper, its_place, self.to_card, view),
            RasterJob(lower, place, IDENTITY, view),
        )

    def picture(self, drawn: Sequence[Plates]) -> Bytes:
        """Returns the card seen through the sheet, (h, w, 3) uint8 sRGB, of what `jobs` drew."""
        sheet, card = (
            LINEAR[appearance(plates, parse_hex(piece.stock.colour_hex))]
            for plates, piece in zip(drawn, (self.sheet, self.card), strict=True)
        )
        film = film_of(self.sheet.stock.translucency, parse_hex(self.sheet.stock.colour_hex))
        assert film is not None  # only such paper is laid over a card
        return encode(np.clip(film.over(sheet, card), 0, 1))


def middle_on_middle(one: Piece, other: Piece) -> Affine:
    """Returns the map from a piece's inches to those of another whose middle it shares."""
    die, on = one.die, other.die
    return translation((on.width_in - die.width_in) / 2, (on.height_in - die.height_in) / 2)


def overlays(suite: Suite) -> list[Overlay]:
    """Returns the sheets of a suite that lie over its cards."""
    return [
        Overlay(each.sides[0], suite.piece(each.over).sides[0])
        for each in suite.pieces
        if each.over is not None
    ]
