"""What goes into an envelope: its papers, their weight with its tolerance, how thick they lie."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from mockup.envelopes.liner import liner_in_envelope
from mockup.envelopes.views import paper_area_in2
from mockup.geometry.measure import area
from mockup.suite.suite import Envelope, Piece, Suite
from mockup.trade.papers import GRAMMAGE_TOLERANCE, Stock, weight_g
from mockup.trade.tolerances import WALLS, WALLS_AT_FLAP
from mockup.units import MIL_PER_INCH

_BAND_PLIES = 3  # of a band round cards, at its thickest place


@dataclass(frozen=True)
class Paper:
    """One paper of a stack: what it is, its cut area in square inches, its stock, and how often its
    thickness counts at the thickest place."""

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

    papers: tuple[Paper, ...]

    @property
    def weight_g(self) -> float:
        """The usual weight, grams."""
        return sum(paper.weight_g for paper in self.papers)

    @property
    def most_g(self) -> float:
        """The weight when every paper is as heavy as its grammage tolerance lets it be."""
        return self.weight_g * (1 + GRAMMAGE_TOLERANCE)

    @property
    def thickness_in(self) -> float:
        """The usual thickness at the thickest place: every paper laid on every other."""
        mils = sum(paper.stock.caliper_mil * paper.layers for paper in self.papers)
        return mils / MIL_PER_INCH

    @property
    def most_thick_in(self) -> float:
        """The thickness when every stock is as thick as one may meet."""
        mils = sum(paper.stock.caliper_range_mil[1] * paper.layers for paper in self.papers)
        return mils / MIL_PER_INCH


def contents(suite: Suite, envelope: Envelope) -> Stack:
    """Returns what an envelope holds: its pieces, envelopes that go inside it, and its liner."""
    papers = [_card(suite.piece(name)) for name in envelope.holds]
    for inner in inside(suite, envelope):
        papers.append(_paper(inner, WALLS))
    if envelope.liner is not None:
        lined = area(liner_in_envelope(envelope.spec))
        papers.append(Paper("liner", lined, envelope.liner.stock, 1))
    return Stack(tuple(papers))


def posted(suite: Suite, envelope: Envelope) -> Stack:
    """Returns an envelope with its contents, as it is handed in at the post office."""
    return Stack((*contents(suite, envelope).papers, _paper(envelope, WALLS_AT_FLAP)))


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


def _card(piece: Piece) -> Paper:
    if piece.wraps is not None:  # one ply in front, two behind where its ends meet
        return Paper(piece.name, area(piece.die.shape), piece.stock, _BAND_PLIES)
    panels = 1 if piece.fold is None else 2
    return Paper(piece.name, area(piece.die.shape) * panels, piece.stock, panels)


def _paper(envelope: Envelope, layers: int) -> Paper:
    return Paper(envelope.name, paper_area_in2(envelope.spec), envelope.stock, layers)


def _face(envelope: Envelope) -> float:
    return envelope.size.width_in * envelope.size.height_in
