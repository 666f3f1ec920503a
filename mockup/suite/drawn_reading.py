"""What envelopes hold, and cards half drawn out of them: which can be, as a suite file asks it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from mockup.errors import quoted
from mockup.suite.suite import Envelope, Piece
from mockup.tables.wording import told
from mockup.trade.sizes import TIGHT_CLEARANCE_IN
from mockup.units import format_size

Noted = tuple[str, str, str]
"""A key of the file, what is wrong there, and the value."""


def not_held(name: str, pieces: Iterable[str], envelopes: Iterable[str]) -> str:
    """Returns why an envelope cannot hold what is named; nothing where it is a piece."""
    if name in pieces:
        return ""
    if name in envelopes:
        return (
            f"{quoted(name)} is an envelope; it goes inside by itself where all the cards it holds "
            "are held here as well: name those"
        )
    return told(name, "piece", pieces)


def drawn_mistakes(pieces: Iterable[Piece], envelopes: Sequence[Envelope]) -> Iterator[Noted]:
    """Yields what is wrong with the cards that envelopes are asked to be shown with."""
    known = {piece.name: piece for piece in pieces}
    before: set[str] = set()
    for envelope in envelopes:
        name = envelope.drawn
        if name is None:
            continue
        why = _refused(envelope, known.get(name), name in before)
        if why:
            yield f"envelopes.{envelope.name}.drawn", why, name
        before.add(name)


def _refused(envelope: Envelope, piece: Piece | None, is_taken: bool) -> str:
    """Returns why a card cannot be shown half drawn out of an envelope; nothing where it can."""
    name = str(envelope.drawn)
    if name not in envelope.holds:
        held = f"{told(name, 'card held', envelope.holds)}; " if envelope.holds else ""
        return f"{held}only a card that the envelope holds is drawn from it: name it in `holds`"
    if piece is None:
        return ""  # its own table is mistaken, and says so
    if is_taken:
        return f'"{name}" is drawn from another envelope already; it is one card'
    if piece.shown != "closed":
        return f'a card is drawn closed; write shown = "closed" for "{name}"'
    if turn_in(piece, envelope) is None:
        size, units = envelope.size, envelope.units
        return (
            f"{name}, {format_size(piece.die.width_in, piece.die.height_in, units)}, does not go "
            f"into {format_size(size.width_in, size.height_in, units)} either way round"
        )
    return ""


def turn_in(piece: Piece, envelope: Envelope) -> int | None:
    """Returns how a card lies in its envelope, seen from the back: 0 upright, -90 on its side, its
    head to the left; None where it goes in neither way."""
    wide, high = piece.die.width_in, piece.die.height_in
    room_wide = envelope.size.width_in - TIGHT_CLEARANCE_IN / 2
    room_high = envelope.size.height_in - TIGHT_CLEARANCE_IN / 2
    if wide <= room_wide and high <= room_high:
        return 0
    return -90 if high <= room_wide and wide <= room_high else None
