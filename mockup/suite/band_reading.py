"""Bands round cards: what a suite file says of them, and what cannot be bound."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from mockup.suite.schema import PieceTable, WrapTable
from mockup.suite.suite import Envelope, Piece, Wrap
from mockup.tables.wording import told
from mockup.units import format_length

Noted = tuple[str, str, str]
"""A key of the file, what is wrong there, and the value."""

_STRIP = "rectangle"  # trimmed on the guillotine

Names = tuple[str, ...]


def read_wraps(
    given: Names | WrapTable | None, length: Callable[[str, str | float], float | None], key: str
) -> Wrap | None:
    """Returns what a band goes round, if the piece is one; `length` reads inches under a key."""
    if given is None:
        return None
    if not isinstance(given, WrapTable):
        return Wrap(given)
    place = None if given.at is None else length(f"{key}.at", given.at)
    overlap_in = None if given.overlap is None else length(f"{key}.overlap", given.overlap)
    return Wrap(given.cards, place, given.shown == "bound", given.along, overlap_in)


def goes_across(band: Piece) -> bool:
    """Returns whether a band goes from side to side of its cards, not from head to foot: as the
    file says, else by the strip's longer side."""
    along = band.wraps and band.wraps.along
    return along == "width" if along else band.die.width_in >= band.die.height_in


def band_mistakes(
    pieces: Sequence[Piece],
    envelopes: Sequence[Envelope],
    names: Sequence[str],
    tables: Mapping[str, PieceTable],
) -> Iterator[Noted]:
    """Yields what is wrong with the bands; `names` are all the pieces that the file has, also those
    whose own tables are mistaken; `tables` are those of the pieces that were read."""
    known = {piece.name: piece for piece in pieces}
    drawn = {each.drawn for each in envelopes}
    before: set[str] = set()
    for band in pieces:
        if band.wraps is None:
            continue
        key = f"pieces.{band.name}.wraps"
        why = _unfit(band)
        if why:
            yield key, why, band.name
        inner = ".cards" if isinstance(tables[band.name].wraps, WrapTable) else ""
        for number, name in enumerate(band.wraps.cards, 1):
            why = _refused(band, known.get(name), name, names)
            if not why and name in before:
                why = f'"{name}" has a band round it already; one card is bound once'
            if not why and name in drawn:
                why = f'"{name}" is drawn from an envelope by itself; leave out `drawn`'
            if why:
                yield f"{key}{inner}.{number}", why, name
            before.add(name)
        front = known.get(band.wraps.cards[0])
        yield from _measures(band, band.wraps, front, key)


def _measures(band: Piece, wrap: Wrap, front: Piece | None, key: str) -> Iterator[Noted]:
    """Yields what is wrong with a band's overlap, its width and its place on the front card."""
    units, at_in, overlap_in = band.units, wrap.at_in, wrap.overlap_in
    if overlap_in is not None and overlap_in <= 0:
        sentence = "the ends must lie over each other to be glued; write a length above nought"
        yield f"{key}.overlap", sentence, format_length(overlap_in, units)
    if front is None:
        return  # its own table is mistaken, and says so
    least, most = _room(band, front)
    if least > most:
        sentence = "the band is wider than the front card; make it narrower, or name another first"
        yield key, sentence, front.name
    elif at_in is not None and not least <= at_in <= most:
        room = f"{format_length(least, units)} to {format_length(most, units)}"
        sentence = f"the band would lie beside the front card; write {room}"
        yield f"{key}.at", sentence, format_length(at_in, units)


def _unfit(band: Piece) -> str:
    """Returns why a piece is no strip to be put round cards; nothing where it is one."""
    if band.fold is not None or band.over is not None or band.torn:
        return "a band is a plain strip: leave out fold, over and torn"
    if band.die.name != _STRIP or band.die.shape.holes:
        return 'a band is a strip with straight ends; write die = "rectangle"'
    return ""


def _refused(band: Piece, card: Piece | None, name: str, names: Sequence[str]) -> str:
    """Returns why a band cannot go round a card; nothing where it can."""
    if name == band.name:
        return "a band does not go round itself; name the cards it holds"
    if name not in names:
        return told(name, "piece", names)
    if card is None:
        return ""  # its own table is mistaken, and says so
    if card.wraps is not None:
        return f'"{name}" is a band itself; name cards'
    if card.over is not None:
        return f'"{name}" lies over "{card.over}"; bind cards, or take the sheet off'
    if card.fold is not None and card.shown != "closed":
        return f'only closed cards are bound; write shown = "closed" for "{name}"'
    return ""


def _room(band: Piece, front: Piece) -> tuple[float, float]:
    """Returns from where to where a band's middle may lie on its front card, inches."""
    across = goes_across(band)
    most = front.die.height_in if across else front.die.width_in
    half = (band.die.height_in if across else band.die.width_in) / 2
    return half, most - half
