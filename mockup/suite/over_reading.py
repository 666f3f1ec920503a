"""Sheets one sees through that lie over a card: which can, as a suite file asks it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mockup.suite.suite import Envelope, Piece
from mockup.tables.wording import told
from mockup.units import format_size

Noted = tuple[str, str, str]
"""A key of the file, what is wrong there, and the value."""

_SLACK_IN = 1 / 128  # judgement: sizes so near are one size, written in two units


def over_mistakes(
    pieces: Sequence[Piece], envelopes: Sequence[Envelope], names: Sequence[str]
) -> Iterator[Noted]:
    """Yields what is wrong with the sheets that are laid over cards; `names` are all that the file
    has, also those whose own tables are mistaken."""
    known = {piece.name: piece for piece in pieces}
    drawn = {each.drawn for each in envelopes}
    covered: set[str] = set()
    for piece in pieces:
        if piece.over is None:
            continue
        why = _refused(piece, known.get(piece.over), names, piece.over in covered)
        if not why and drawn & {piece.name, piece.over}:
            why = "one of the two is drawn from an envelope by itself; leave out `drawn`"
        if why:
            yield f"pieces.{piece.name}.over", why, piece.over
        covered.add(piece.over)


def _refused(piece: Piece, card: Piece | None, names: Sequence[str], is_covered: bool) -> str:
    """Returns why a sheet cannot lie over a card; nothing where it can."""
    name = str(piece.over)
    if name == piece.name:
        return "it cannot lie over itself; name the card it is laid on"
    if name not in names:
        return told(name, "piece", names)
    if piece.stock.translucency == 0:
        return (
            f"{piece.stock.name} is not seen through, and would hide the card; take "
            '"translucent-30-white", or say the opacity of your paper: stock = { gsm = 90, '
            "opacity = 55 }"
        )
    if card is None:
        return ""  # its own table is mistaken, and says so
    if is_covered:
        return f'"{name}" has a sheet over it already; lay one sheet on a card'
    if card.over is not None:
        return f'"{name}" lies over "{card.over}" itself; lay this on "{card.over}"'
    if piece.fold is not None or card.fold is not None:
        return "only flat sheets are laid over flat cards; leave out fold, or over"
    return _too_large(piece, card)


def _too_large(piece: Piece, card: Piece) -> str:
    die, on, units = piece.die, card.die, card.units
    if die.width_in <= on.width_in + _SLACK_IN and die.height_in <= on.height_in + _SLACK_IN:
        return ""
    return (
        f"the sheet, {format_size(die.width_in, die.height_in, units)}, is larger than the card "
        f"under it, {format_size(on.width_in, on.height_in, units)}; cut it to the card's size or "
        "smaller"
    )
