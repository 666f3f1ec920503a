"""By which press the colours of what was asked for are shown, told in lines."""

from __future__ import annotations

from collections.abc import Callable

from mockup.artwork.art import Art
from mockup.artwork.finishes import PlatesNamed, finishes_told, plates_named
from mockup.artwork.press import press_words, presses_of
from mockup.colour.srgb import parse_hex
from mockup.suite.suite import Suite, all_sides


def colour_told(
    suite: Suite, finished: Callable[[Art, PlatesNamed], tuple[str, ...]] = finishes_told
) -> tuple[str, ...]:
    """Returns a line for every press by which pieces, liners and envelopes are shown, one for those
    that are shown by their own profiles, and how white ink and other finishes are shown: by
    `finished`, in words of a flat picture or a lit one.

    Raises InputError and LimitError for art that cannot be read.
    """
    shown = [(each.side_title, each.art, each.stock) for each in all_sides(suite.pieces)]
    shown += [
        (f"{each.title}, liner", each.liner.art, each.liner.stock)
        for each in suite.envelopes
        if each.liner is not None
    ]
    shown += [
        (f"{each.title}, {side}", art, each.paper)
        for each in suite.envelopes
        for side, art in each.outside.arts
    ]
    arts = [art for _, art, _ in shown]
    lines: dict[str, list[str]] = {}
    finishes: list[str] = []
    for (title, art, stock), press, named in zip(
        shown, presses_of(arts), plates_named(arts), strict=True
    ):
        words = press_words(press, parse_hex(stock.colour_hex), art.swatch)
        lines.setdefault(words, []).append(title)
        finishes += [f"finish of {title}: {told}" for told in finished(art, named)]
    told = [f"colour of {'; '.join(titles)}: {words}" for words, titles in lines.items()]
    return *told, *finishes
