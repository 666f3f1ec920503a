"""What lies together in a picture, cards drawn, laid over, bound: all that is wrong with it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from mockup.suite.band_reading import band_mistakes
from mockup.suite.drawn_reading import drawn_mistakes
from mockup.suite.over_reading import Noted, over_mistakes
from mockup.suite.schema import PieceTable
from mockup.suite.suite import Envelope, Piece


def together_mistakes(
    pieces: Sequence[Piece],
    envelopes: Sequence[Envelope],
    names: Sequence[str],
    tables: Mapping[str, PieceTable],
) -> Iterator[Noted]:
    """Yields what is wrong with cards half drawn, sheets over cards and bands round them, by key,
    sentence and value; `names` are all the pieces of the file, also those that are mistaken,
    `tables` those of the pieces that were read."""
    yield from drawn_mistakes(pieces, envelopes)
    yield from over_mistakes(pieces, envelopes, names)
    yield from band_mistakes(pieces, envelopes, names, tables)
