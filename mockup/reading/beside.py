"""Which colours of a suite lie side by side, envelope, liner and art, and how each pair looks."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from mockup.colour.beside import PRODUCTION_DE00, SPEAKING_SHARE, Beside, Lab, Verdict, compared
from mockup.colour.mending import Mended, mended_in_ink, mended_in_rgb
from mockup.colour.naming import colour_words
from mockup.colour.printed_lab import lab_of_rgb
from mockup.colour.srgb import Rgb, parse_hex
from mockup.reading.art_colours import (
    ArtColour,
    FaceColours,
    colours_of_liners,
    colours_of_pieces,
)
from mockup.reading.envelope_sides import side_seen
from mockup.suite.outside import EnvelopeSide
from mockup.suite.suite import Envelope, Piece, Suite

# Judgements.
COLOURED_CHROMA, COLOURED_LIGHTNESS = 8.0, 85.0  # a stock with more, or under it, is no white
SAME_NUMBERS = 3  # of 255: inks no further apart are the same in the art

Kind = Literal["art", "stock", "liner", "liner stock", "envelope", "envelope art"]
"""What a colour is of; of an envelope its paper, or what is printed on it."""


@dataclass(frozen=True, eq=False)
class Printed:
    """The printed side of an envelope that lies beside its cards: its colours, which side it is,
    whether all of what is seen there is that side."""

    side: EnvelopeSide
    whole: bool
    face: FaceColours


@dataclass(frozen=True, eq=False)
class SuiteColours:
    """The colours of a suite's faces: of pieces, of envelopes' liners, and of the printed side of
    an envelope that lies beside its cards, by name."""

    suite: Suite
    pieces: Mapping[str, FaceColours]
    liners: Mapping[str, FaceColours]
    outsides: Mapping[str, Printed]

    def told_of(self, envelope: Envelope) -> tuple[Piece, ...]:
        """The pieces seen with an envelope: those it holds; of one that says nothing, those that no
        other holds."""
        suite = self.suite
        held = {name for each in suite.envelopes for name in each.holds}
        names = envelope.holds or [p.name for p in suite.pieces if p.name not in held]
        return tuple(suite.piece(name) for name in dict.fromkeys(names))


@dataclass(frozen=True, eq=False)
class Seen:
    """A colour as something has it: of what, of which piece (None for what is of the envelope),
    CIELAB as printed, and what the art says of it (None for bare paper)."""

    kind: Kind
    piece: Piece | None
    lab: Lab
    face: FaceColours | None = None
    art: ArtColour | None = None

    @property
    def is_outside(self) -> bool:
        """Whether it is of an envelope's outside, paper or print."""
        return self.kind in ("envelope", "envelope art")

    @property
    def words(self) -> str:
        """What the colour is called."""
        return colour_words(self.lab)


@dataclass(frozen=True, eq=False)
class Pair:
    """A colour beside another of one envelope: `first` is what could be moved, `second` the
    envelope or its liner; how they look."""

    envelope: Envelope
    first: Seen
    second: Seen
    found: Beside


def suite_colours(suite: Suite) -> SuiteColours:
    """Returns the colours of a suite's art. Raises InputError and LimitError for art that cannot be
    read."""
    pieces = zip(suite.pieces, colours_of_pieces(suite.pieces), strict=True)
    liners = zip(suite.envelopes, colours_of_liners(suite.envelopes, suite.bleed_in), strict=True)
    return SuiteColours(
        suite,
        {piece.name: face for piece, face in pieces},
        {each.name: face for each, face in liners if face is not None},
        _outsides(suite),
    )


def _outsides(suite: Suite) -> dict[str, Printed]:
    sides = {each.name: side_seen(suite, each) for each in suite.envelopes}
    printed = {name: side for name, side in sides.items() if side is not None}
    faces = colours_of_pieces([side.piece for side in printed.values()])
    return {
        name: Printed(side.side, side.side == "face" or side.over_pocket, face)
        for (name, side), face in zip(printed.items(), faces, strict=True)
    }


def pairs_of(colours: SuiteColours, envelope: Envelope) -> tuple[Pair, ...]:
    """Returns every pair of one envelope: its liner beside it, then what goes in beside both."""
    paper = Seen("envelope", None, lab_of_paper(envelope.colour))
    printed = colours.outsides.get(envelope.name)
    if printed is None:
        return _pairs(colours, envelope, (paper,), (paper,))
    face = printed.face
    inked = tuple(Seen("envelope art", None, c.lab, face, c) for c in face.colours if c.speaks)
    bare = not printed.whole or face.bare >= SPEAKING_SHARE
    beside = (*((paper,) if bare else ()), *inked)
    # The liner lies on the paper's inside, and with that side up on which nobody writes.
    return _pairs(colours, envelope, beside, (paper, *(inked if printed.side == "flap" else ())))


def pairs_on(colours: SuiteColours, envelope: Envelope, paper: Lab) -> tuple[Pair, ...]:
    """Returns the pairs an envelope would have on bare paper of another colour."""
    bare = (Seen("envelope", None, paper),)
    return _pairs(colours, envelope, bare, bare)


def _pairs(
    colours: SuiteColours, envelope: Envelope, outside: tuple[Seen, ...], by_liner: tuple[Seen, ...]
) -> tuple[Pair, ...]:
    lined = colours.liners.get(envelope.name)
    liner = () if lined is None else _seen(lined, None, "liner", "liner stock")
    pairs = [_pair(envelope, each, other) for each in liner for other in by_liner]
    for piece in colours.told_of(envelope):
        for each in _seen(colours.pieces[piece.name], piece, "art", "stock"):
            pairs += [_pair(envelope, each, other) for other in (*outside, *liner)]
    return tuple(_planned(pair, pairs) for pair in pairs)


def lab_of_paper(colour: Rgb) -> Lab:
    """Returns CIELAB of a paper's colour."""
    lightness, a, b = (float(value) for value in lab_of_rgb(colour))
    return lightness, a, b


def is_coloured(lab: Lab) -> bool:
    """Returns whether a paper is of a colour, not one of the whites."""
    return math.hypot(lab[1], lab[2]) >= COLOURED_CHROMA or lab[0] < COLOURED_LIGHTNESS


def mended(pair: Pair) -> Mended | None:
    """Returns what makes a pair look meant; None where its first colour is no art's."""
    first = pair.first
    if first.art is None or first.face is None:
        return None
    if first.art.inks is not None and first.face.printing is not None:
        return mended_in_ink(first.lab, pair.second.lab, first.face.printing, first.art.inks)
    return mended_in_rgb(first.lab, pair.second.lab, parse_hex(first.face.stock.colour_hex))


def is_one_ink(pair: Pair) -> bool:
    """Returns whether both colours are printed from the same numbers: the suite's own colour,
    whatever their papers make of it."""
    return _same_numbers(pair.first.art, pair.second.art)


def worst(pairs: Sequence[Pair]) -> Verdict | None:
    """Returns the least welcome verdict among pairs, None where there is none."""
    return max((pair.found.verdict for pair in pairs), key=_UNWELCOME.index, default=None)


_UNWELCOME = (Verdict.DELIBERATE, Verdict.MATCH, Verdict.BORDERLINE, Verdict.NEAR_MISS)


def _seen(face: FaceColours, piece: Piece | None, art: Kind, stock: Kind) -> tuple[Seen, ...]:
    """Returns what of a face is held against other colours: large plain colours, coloured paper."""
    found = [Seen(art, piece, each.lab, face, each) for each in face.colours if each.speaks]
    if face.bare >= SPEAKING_SHARE and is_coloured(face.stock_lab):
        found.append(Seen(stock, piece, face.stock_lab, face))
    return tuple(found)


def _pair(envelope: Envelope, first: Seen, second: Seen) -> Pair:
    same = _same_numbers(first.art, second.art)
    return Pair(envelope, first, second, compared(first.lab, second.lab, same))


def _planned(pair: Pair, pairs: Sequence[Pair]) -> Pair:
    """Returns a pair as a match where the same ink is one on another face, and this paper moves it
    no further than a press run does: the match is planned there, and so it is here."""
    found = pair.found
    if not found.is_near_miss or found.difference > PRODUCTION_DE00:
        return pair
    alike = any(
        each.second is pair.second
        and each.found.verdict is Verdict.MATCH
        and _same_numbers(each.first.art, pair.first.art)
        for each in pairs
    )
    return replace(pair, found=replace(found, verdict=Verdict.MATCH)) if alike else pair


def _same_numbers(first: ArtColour | None, second: ArtColour | None) -> bool:
    if first is None or second is None or len(first.drawn) != len(second.drawn):
        return False
    pairs = zip(first.drawn, second.drawn, strict=True)
    return max(abs(one - other) for one, other in pairs) <= SAME_NUMBERS
