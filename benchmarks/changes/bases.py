"""The kinds of card the bench is made from: each drawn by chance from its own numbers."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, pi, sin
from random import Random

from benchmarks.changes.card import BLEED_IN, Card, Disc, Panel, Photograph, Rgb, Stroke, Words
from mockup.geometry.point import Box

SIZES = ((5.0, 7.0), (4.25, 5.5), (4.875, 3.5), (5.83, 4.13))
_LINES = (
    "The Tide Mill Supper",
    "Saturday, the ninth of May",
    "at seven o'clock, by the old sluice",
    "Samphire Hard, below the mill",
    "Boats leave at six, and again at ten.",
    "Please reply by the first of April,",
    "with the number of guests: 2, 4, 6.",
    "Warm coats, stout shoes; no dogs.",
    "Oysters, bread, butter, and a song.",
    "If it rains, we dine in the granary.",
)


def _ground(wide: float, high: float, colour: Rgb) -> Panel:
    return Panel(Box(-BLEED_IN, -BLEED_IN, wide + BLEED_IN, high + BLEED_IN), colour)


def _type(
    chance: Random, wide: float, high: float, ink: Rgb, small: float = 8
) -> tuple[Words, ...]:
    """Returns centred lines, the first large, all shorter than the card is wide."""
    count = 9 if high > 5 else 6
    face = chance.choice(("garamond", "sans", "italic"))
    top, step = high * 0.2, high * 0.62 / count
    lines: list[Words] = []
    for k, text in enumerate((_LINES[0], *chance.sample(_LINES[1:], count - 1))):
        size = 20 if k == 0 else chance.choice((small, small + 1, small + 3))
        words = Words(text, wide / 2, top + k * step, size, face, ink)
        lines.append(words)
    return tuple(lines)


def plain(chance: Random, wide: float, high: float) -> Card:
    """Type on white paper, a rule and a dot."""
    ink = chance.choice(((30, 28, 40), (20, 40, 80), (0, 0, 0)))
    rule = Stroke(((wide * 0.35, high * 0.26), (wide * 0.65, high * 0.26)), 0.5, ink)
    dot = Disc(wide / 2, high * 0.9, 0.03, ink)
    return Card(wide, high, (*_type(chance, wide, high, ink), rule, dot))


def patterned(chance: Random, wide: float, high: float) -> Card:
    """Type over a pattern of leaves that covers the card."""
    tint, leaf = (246, 240, 226), chance.choice(((225, 214, 190), (206, 220, 205)))
    sprigs: list[Stroke | Disc] = []
    y = -BLEED_IN
    while y < high + BLEED_IN:
        x = -BLEED_IN + chance.random() * 0.1
        while x < wide + BLEED_IN:
            turn = chance.random() * pi
            reach = (0.07 * cos(turn), 0.07 * sin(turn))
            sprigs.append(Stroke(((x, y), (x + reach[0], y + reach[1])), 1.2, leaf))
            sprigs.append(Disc(x + reach[0], y + reach[1], 0.016, leaf))
            x += 0.17
        y += 0.15
    ground = _ground(wide, high, tint)
    return Card(wide, high, (ground, *sprigs, *_type(chance, wide, high, (60, 45, 40), 9)))


def photographed(chance: Random, wide: float, high: float) -> Card:
    """A picture over the card's upper part, type on it and below it."""
    box = Box(-BLEED_IN, -BLEED_IN, wide + BLEED_IN, high * 0.55)
    picture = Photograph(box, chance.randrange(10**6))
    return Card(wide, high, (picture, *_type(chance, wide, high, (25, 22, 20))))


def ornamented(chance: Random, wide: float, high: float) -> Card:
    """A border of fine scrolls and a rosette, type within."""
    ink = chance.choice(((120, 90, 40), (60, 80, 70)))
    border: list[Stroke | Disc] = []
    for inset, width in ((0.25, 0.75), (0.3, 0.25)):
        right, end = wide - inset, high - inset
        corners = ((inset, inset), (right, inset), (right, end), (inset, end), (inset, inset))
        border.append(Stroke(corners, width, ink))
    petals = chance.choice((7, 9, 11))
    for k in range(petals):
        turn = 2 * pi * k / petals
        scroll = tuple(
            (wide / 2 + 0.3 * s * cos(turn + 2 * s), 0.62 + 0.3 * s * sin(turn + 2 * s))
            for s in (i / 24 for i in range(25))
        )
        border.append(Stroke(scroll, 0.3, ink))
        border.append(Disc(*scroll[-1], 0.012, ink))
    for k in range(round(wide * 6)):
        x = 0.45 + k * (wide - 0.9) / (round(wide * 6) - 1)
        border.append(Disc(x, high - 0.42, 0.011, ink))
    return Card(wide, high, (*border, *_type(chance, wide, high, ink)))


def pale(chance: Random, wide: float, high: float) -> Card:
    """Pale type on a tint: little contrast."""
    tint, ink = chance.choice(
        (((232, 222, 205), (203, 188, 160)), ((205, 216, 222), (168, 184, 196)))
    )
    return Card(wide, high, (_ground(wide, high, tint), *_type(chance, wide, high, ink, 9)))


def reversed_out(chance: Random, wide: float, high: float) -> Card:
    """White type on a dark ground, a thin frame and a dot."""
    dark = chance.choice(((28, 38, 66), (50, 28, 34), (22, 46, 40)))
    frame = Stroke(
        ((0.3, 0.3), (wide - 0.3, 0.3), (wide - 0.3, high - 0.3), (0.3, high - 0.3), (0.3, 0.3)),
        0.5,
        (214, 190, 130),
    )
    dot = Disc(wide / 2, high * 0.9, 0.025, (214, 190, 130))
    words = _type(chance, wide, high, (255, 255, 255))
    return Card(wide, high, (_ground(wide, high, dark), frame, *words, dot))


BASES: dict[str, Callable[[Random, float, float], Card]] = {
    "plain": plain,
    "patterned": patterned,
    "photographed": photographed,
    "ornamented": ornamented,
    "pale": pale,
    "reversed": reversed_out,
}
