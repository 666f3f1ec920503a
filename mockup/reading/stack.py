"""What goes into an envelope: the sheets, their weight with its tolerance, how thick they lie."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from mockup.envelopes.liner import liner_in_envelope
from mockup.envelopes.views import paper_area_in2
from mockup.geometry.measure import area
from mockup.suite.suite import Envelope, Piece, Suite
from mockup.trade.papers import GRAMMAGE_TOLERANCE, Stock, weight_g
from mockup.units import MIL_PER_INCH

WALLS = 2  # an envelope's face and back; seams and flap overlap are not under the cards
WALLS_AT_FLAP = 4  # face, back, and the flap over the bottom flap; common practice


@dataclass(frozen=True)
class Sheet:
    """One sheet of paper: what it is, its cut area in square inches, its stock, and how many times
    its thickness counts at the thickest place."""

    name: str
    area_in2: float
    stock: Stock
    layers: int

    @property
    def weight_g(self) -> float:
        """Its usual weight, grams."""
        return weight_g(self.area_in2, self.stock.gsm)


@dataclass(frozen=True)
class Stack:
    """Everything in and round one envelope, closed."""

    sheets: tuple[Sheet, ...]

    @property
    def weight_g(self) -> float:
        """The usual weight, grams."""
        return sum(sheet.weight_g for sheet in self.sheets)

    @property
    def most_g(self) -> float:
        """The weight when every paper is as heavy as its grammage tolerance lets it be."""
        return self.weight_g * (1 + GRAMMAGE_TOLERANCE)

    @property
    def thickness_in(self) -> float:
        """The usual thickness at the thickest place: every sheet laid on every other."""
        mils = sum(sheet.stock.caliper_mil * sheet.layers for sheet in self.sheets)
        return mils / MIL_PER_INCH

    @property
    def most_thick_in(self) -> float:
        """The thickness when every stock is as thick as one may meet."""
        mils = sum(sheet.stock.caliper_range_mil[1] * sheet.layers for sheet in self.sheets)
        return mils / MIL_PER_INCH


def contents(suite: Suite, envelope: Envelope) -> Stack:
    """Returns what an envelope holds: its pieces, envelopes that go inside it, and its liner."""
    sheets = [_card(suite.piece(name)) for name in envelope.holds]
    for inner in inside(suite, envelope):
        sheets.append(_paper(inner, WALLS))
    if envelope.liner is not None:
        lined = area(liner_in_envelope(envelope.spec))
        sheets.append(Sheet("liner", lined, envelope.liner.stock, 1))
    return Stack(tuple(sheets))


def posted(suite: Suite, envelope: Envelope) -> Stack:
    """Returns an envelope with its contents, as it is handed in at the post office."""
    return Stack((*contents(suite, envelope).sheets, _paper(envelope, WALLS_AT_FLAP)))


def inside(suite: Suite, envelope: Envelope) -> list[Envelope]:
    """Returns the envelopes that go inside another: smaller ones whose pieces it holds as well."""
    held = set(envelope.holds)
    return [
        other
        for other in suite.envelopes
        if other is not envelope
        and other.holds
        and set(other.holds) <= held
        and (set(other.holds) != held or _face(other) < _face(envelope))
    ]


def posted_envelopes(envelopes: Iterable[Envelope]) -> list[Envelope]:
    """Returns the envelopes that go by post: all of them, for inner ones are sent back."""
    return [envelope for envelope in envelopes if envelope.holds]


def owner(envelope: Envelope) -> str:
    """Returns what findings call an envelope: its place in the suite file."""
    return f"envelopes.{envelope.name}"


def _card(piece: Piece) -> Sheet:
    return Sheet(piece.name, area(piece.die.shape), piece.stock, 1)


def _paper(envelope: Envelope, layers: int) -> Sheet:
    return Sheet(envelope.name, paper_area_in2(envelope.spec), envelope.stock, layers)


def _face(envelope: Envelope) -> float:
    return envelope.size.width_in * envelope.size.height_in
