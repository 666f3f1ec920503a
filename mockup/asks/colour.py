"""By which press the colours of what was asked for are shown, told in lines."""

from __future__ import annotations

from mockup.artwork.press import press_words, presses_of
from mockup.colour.srgb import parse_hex
from mockup.suite.suite import Suite


def colour_told(suite: Suite) -> tuple[str, ...]:
    """Returns a line for every press by which pieces and liners are shown, and one for those that
    are shown by their own profiles.

    Raises InputError and LimitError for art that cannot be read.
    """
    shown = [(piece.title, piece.art, piece.stock) for piece in suite.pieces]
    shown += [
        (f"{each.title}, liner", each.liner.art, each.liner.stock)
        for each in suite.envelopes
        if each.liner is not None
    ]
    lines: dict[str, list[str]] = {}
    presses = presses_of([art for _, art, _ in shown])
    for (title, _, stock), press in zip(shown, presses, strict=True):
        words = press_words(press, parse_hex(stock.colour_hex))
        lines.setdefault(words, []).append(title)
    return tuple(f"colour of {'; '.join(titles)}: {words}" for words, titles in lines.items())
