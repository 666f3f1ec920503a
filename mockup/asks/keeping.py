"""Small pictures of what a proof shows, for its record: each piece cut, each liner as it is cut."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from mockup.artwork.raster import RasterJob, rasterise
from mockup.colour.appearance import appearance
from mockup.colour.srgb import parse_hex
from mockup.comparing.wording import Word
from mockup.envelopes.views import liner_in_envelope
from mockup.geometry.affine import IDENTITY
from mockup.geometry.outline import Shape
from mockup.pixels import View
from mockup.reading.words import words_of_each
from mockup.record.fingerprint import Named, envelope_name
from mockup.record.pictures import Kept, keep_picture, kept_ppi, of_back, picture_file
from mockup.record.reading import Record
from mockup.render.envelope import liner_art
from mockup.render.piece import all_located, cut_out, piece_view
from mockup.sources import is_there
from mockup.suite.suite import Envelope, Piece, Suite, all_sides


@dataclass(frozen=True)
class _Shown:
    """A picture to be kept: whose, how its art is drawn, on which paper, what it is cut to, and
    what its live type says, in inches of the card."""

    item: Named
    job: RasterJob
    colour_hex: str
    cut: Shape
    view: View
    words: tuple[Word, ...] = ()


def keep_pictures(suite: Suite, record: Record, items: Sequence[Named]) -> None:
    """Keeps a picture of every piece and liner of a suite that its record has none of.

    Envelopes without a liner have none: what changes of them is said in words. Raises OutputError,
    and InputError and LimitError for art that cannot be drawn.
    """
    backed = {piece.name for piece in suite.pieces if piece.back is not None}
    every = [*items, *(of_back(each) for each in items if each.name in backed)]
    missing = [each for each in every if not is_there(picture_file(record, each))]
    for item, kept in pictures_shown(suite, missing):
        keep_picture(record, item, kept)


def pictures_shown(suite: Suite, items: Sequence[Named]) -> Iterator[tuple[Named, Kept]]:
    """Yields those of some pieces and envelopes of a suite that have a picture, each as it would be
    kept; backs by `of_back`. Raises InputError and LimitError for art that cannot be drawn."""
    wanted = {each.name: each for each in items}
    sides = [each for each in all_sides(suite.pieces) if _kept_name(each) in wanted]
    shown = _pieces_shown(sides, wanted)
    shown += [
        _liner_shown(each, wanted[envelope_name(each)], suite.bleed_in)
        for each in suite.envelopes
        if each.liner is not None and envelope_name(each) in wanted
    ]
    drawn = rasterise([each.job for each in shown])
    for each, plates in zip(shown, drawn, strict=True):
        picture = appearance(plates, parse_hex(each.colour_hex))
        cut = cut_out(picture, each.cut, None, each.view)
        yield each.item, Kept(cut, each.view.ppi, _in_picture(each.words, each.view))


def _pieces_shown(pieces: Sequence[Piece], items: dict[str, Named]) -> list[_Shown]:
    shown: list[_Shown] = []
    found = zip(pieces, all_located(pieces), words_of_each(pieces), strict=True)
    for piece, (art, placement), words in found:
        shape = piece.die.shape
        view = piece_view(shape, kept_ppi(shape.box.width, shape.box.height), 0.0)
        job = RasterJob(art, placement, IDENTITY, view)
        own = (items[_kept_name(piece)], job, piece.stock.colour_hex, shape, view, words)
        shown.append(_Shown(*own))
    return shown


def _in_picture(words: Sequence[Word], view: View) -> tuple[Word, ...]:
    """Returns words with their boxes in inches from a picture's top left."""
    return tuple(replace(word, box=word.box.moved(-view.left_in, -view.top_in)) for word in words)


def _kept_name(side: Piece) -> str:
    """Returns the name a side's picture is kept by: the inside of a fold is kept as a back is."""
    return f"{side.name}-back" if side.is_second else side.name


def _liner_shown(envelope: Envelope, item: Named, bleed_in: float) -> _Shown:
    liner = envelope.liner
    assert liner is not None
    art, placement, to_envelope = liner_art(envelope, liner, bleed_in)
    shape = liner_in_envelope(envelope.spec)
    view = piece_view(shape, kept_ppi(shape.box.width, shape.box.height), 0.0)
    job = RasterJob(art, placement, to_envelope, view)
    return _Shown(item, job, liner.stock.colour_hex, shape, view)
