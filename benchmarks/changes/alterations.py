"""What is changed between two proofs of a made card, and where it must be found.

Each takes a chance and a card and returns the altered card with what is true of it, or None where
the card has nothing to alter so.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import cos, pi, sin
from random import Random

from benchmarks.changes.card import FACES, Card, Disc, Panel, Photograph, Rgb, Stroke, Thing, Words
from mockup.colour.difference import difference
from mockup.colour.lab import lab_of_xyz, xyz_of_rgb
from mockup.geometry.point import Box


@dataclass(frozen=True)
class Altered:
    """A card altered: each of `found` must be met by a place; no place may lie outside `within`.

    `throughout`: all of the card changed; any answer but "the same" that reaches it is right.
    """

    card: Card
    found: tuple[Box, ...] = ()
    within: tuple[Box, ...] = ()
    throughout: bool = False


Alteration = Callable[[Random, Card], Altered | None]


def _picked(
    chance: Random, card: Card, wanted: Callable[[Thing], bool]
) -> tuple[int, Thing] | None:
    having = [(k, thing) for k, thing in enumerate(card.things) if wanted(thing)]
    return chance.choice(having) if having else None


def _with_comma(thing: Thing) -> bool:
    return isinstance(thing, Words) and "," in thing.text


def comma_moved(chance: Random, card: Card) -> Altered | None:
    """A comma moved by 0.4 to 0.8 mm."""
    picked = _picked(chance, card, _with_comma)
    if picked is None or not isinstance(words := picked[1], Words):
        return None
    at = words.text.index(",")
    turn, far = chance.random() * 2 * pi, chance.uniform(0.4, 0.8) / 25.4
    moved = replace(words, nudged=(at, far * cos(turn), far * sin(turn)))
    near = words.letter_box(at).grown(0.04)
    return Altered(card.changed(picked[0], moved), (near,), (near,))


def _line(card: Card, k: int, new: Words, letters: tuple[int, ...]) -> Altered:
    old = card.things[k]
    assert isinstance(old, Words)
    hit = tuple(old.letter_box(each).grown(0.02) for each in letters)
    return Altered(card.changed(k, new), hit, (old.box, new.box))


def comma_to_period(chance: Random, card: Card) -> Altered | None:
    """A comma that became a full stop."""
    picked = _picked(chance, card, _with_comma)
    if picked is None or not isinstance(words := picked[1], Words):
        return None
    at = words.text.index(",")
    new = replace(words, text=words.text.replace(",", ".", 1))
    return _line(card, picked[0], new, (at,))


def letter(chance: Random, card: Card) -> Altered | None:
    """One letter changed for another of its kind."""
    pairs = {"e": "o", "o": "e", "a": "e", "n": "u", "s": "z", "i": "l", "h": "b"}
    picked = _picked(chance, card, lambda t: isinstance(t, Words))
    if picked is None or not isinstance(words := picked[1], Words):
        return None
    at = chance.choice([k for k, each in enumerate(words.text) if each in pairs])
    new = replace(words, text=words.text[:at] + pairs[words.text[at]] + words.text[at + 1 :])
    return _line(card, picked[0], new, (at,))


def word(chance: Random, card: Card) -> Altered | None:
    """One word changed for another."""
    pairs = {"seven": "eight", "six": "five", "ninth": "tenth", "May": "June", "Hard": "Quay"}

    def has(thing: Thing) -> bool:
        return isinstance(thing, Words) and any(each in thing.text for each in pairs)

    picked = _picked(chance, card, has)
    if picked is None or not isinstance(words := picked[1], Words):
        return None
    old = next(each for each in pairs if each in words.text)
    at = words.text.index(old)
    new = replace(words, text=words.text.replace(old, pairs[old], 1))
    return _line(card, picked[0], new, (at,))


def dot_deleted(chance: Random, card: Card) -> Altered | None:
    """A dot or a full stop taken away."""
    picked = _picked(
        chance,
        card,
        lambda t: isinstance(t, Disc) or (isinstance(t, Words) and t.text.endswith(".")),
    )
    if picked is None:
        return None
    k, thing = picked
    if isinstance(thing, Disc):
        return Altered(card.changed(k, None), (thing.box,), (thing.box.grown(0.02),))
    assert isinstance(thing, Words)
    hit = thing.letter_box(len(thing.text) - 1)
    gone = replace(thing, text=thing.text[:-1])
    gone = replace(gone, x=thing.left + gone.width_in / 2)
    return Altered(card.changed(k, gone), (hit,), (hit.grown(0.02),))


def _ink(card: Card) -> Rgb:
    return next(thing.colour for thing in reversed(card.things) if isinstance(thing, Words))


def hairline_added(chance: Random, card: Card) -> Altered | None:
    """A line of 0.25 pt where there was none."""
    y = chance.uniform(0.84, 0.88) * card.height_in
    x, length = card.width_in * 0.3, chance.uniform(0.2, 1.2)
    line = Stroke(((x, y), (x + length, y)), 0.25, _ink(card))
    return Altered(replace(card, things=(*card.things, line)), (line.box,), (line.box.grown(0.03),))


def line_deleted(chance: Random, card: Card) -> Altered | None:
    """A line of type taken away."""
    picked = _picked(chance, card, lambda t: isinstance(t, Words))
    if picked is None or not isinstance(words := picked[1], Words):
        return None
    return Altered(card.changed(picked[0], None), (words.box,), (words.box,))


def line_moved(chance: Random, card: Card) -> Altered | None:
    """A line of type moved by 0.5 to 1.5 mm."""
    picked = _picked(chance, card, lambda t: isinstance(t, Words))
    if picked is None or not isinstance(words := picked[1], Words):
        return None
    turn, far = chance.random() * 2 * pi, chance.uniform(0.5, 1.5) / 25.4
    new = replace(words, x=words.x + far * cos(turn), y=words.y + far * sin(turn))
    return Altered(card.changed(picked[0], new), (words.box,), (words.box, new.box))


def font_of_a_line(chance: Random, card: Card) -> Altered | None:
    """A line of type set in another face."""
    picked = _picked(chance, card, lambda t: isinstance(t, Words))
    if picked is None or not isinstance(words := picked[1], Words):
        return None
    new = replace(words, face=chance.choice([face for face in FACES if face != words.face]))
    return Altered(card.changed(picked[0], new), (words.box,), (words.box, new.box))


def font_throughout(chance: Random, card: Card) -> Altered | None:
    """All type set in another face."""
    old = next(thing.face for thing in card.things if isinstance(thing, Words))
    face = chance.choice([face for face in FACES if face != old])
    words = [thing for thing in card.things if isinstance(thing, Words)]
    things = tuple(replace(t, face=face) if isinstance(t, Words) else t for t in card.things)
    boxes = tuple(t.box for t in words)
    new = tuple(t.box for t in things if isinstance(t, Words))
    return Altered(replace(card, things=things), boxes, (*boxes, *new), throughout=True)


def scaled(chance: Random, card: Card) -> Altered | None:
    """All of it 1 % larger or smaller."""
    return Altered(replace(card, scale=chance.choice((0.99, 1.01))), throughout=True)


def moved(chance: Random, card: Card) -> Altered | None:
    """All of it moved by 0.3 to 0.8 mm."""
    turn, far = chance.random() * 2 * pi, chance.uniform(0.3, 0.8) / 25.4
    return Altered(replace(card, moved_in=(far * cos(turn), far * sin(turn))), throughout=True)


def _apart(chance: Random, colour: Rgb) -> Rgb:
    """Returns a colour of CIEDE2000 3 from another, near enough: 2.8 to 3.4."""
    lab = lab_of_xyz(xyz_of_rgb(colour))
    options: list[Rgb] = []
    for _ in range(4000):
        near = tuple(min(255, max(0, v + chance.randint(-14, 14))) for v in colour)
        other: Rgb = (near[0], near[1], near[2])
        away = float(difference(lab, lab_of_xyz(xyz_of_rgb(other)))[()])
        if 2.8 <= away <= 3.4:
            options.append(other)
            if len(options) == 5:
                break
    return chance.choice(options)


def recoloured(chance: Random, card: Card) -> Altered | None:
    """A line of type or a ground recoloured by CIEDE2000 3."""
    picked = _picked(chance, card, lambda t: isinstance(t, Words | Panel))
    if picked is None or not isinstance(thing := picked[1], Words | Panel):
        return None
    new = replace(thing, colour=_apart(chance, thing.colour))
    ground = isinstance(thing, Panel)
    return Altered(card.changed(picked[0], new), (thing.box,), (thing.box,), throughout=ground)


def recoloured_throughout(chance: Random, card: Card) -> Altered | None:
    """Everything but pictures recoloured by CIEDE2000 3."""
    new: dict[Rgb, Rgb] = {}

    def other(thing: Thing) -> Thing:
        if isinstance(thing, Photograph):
            return thing
        if thing.colour not in new:
            new[thing.colour] = _apart(chance, thing.colour)
        return replace(thing, colour=new[thing.colour])

    things = tuple(other(thing) for thing in card.things)
    boxes = tuple(thing.box for thing in card.things if isinstance(thing, Words))
    return Altered(replace(card, things=things), boxes, (), throughout=True)


def retouched(chance: Random, card: Card) -> Altered | None:
    """A dark spot in a picture."""
    picked = _picked(chance, card, lambda t: isinstance(t, Photograph))
    if picked is None or not isinstance(picture := picked[1], Photograph):
        return None
    x = chance.uniform(0.3, card.width_in - 0.3)
    y = chance.uniform(0.1, picture.box.bottom - 0.2)
    radius = chance.uniform(0.03, 0.1)
    spot = Box(x - radius, y - radius, x + radius, y + radius)
    new = replace(picture, retouched=(x, y, radius))
    return Altered(card.changed(picked[0], new), (spot,), (spot.grown(0.03),))


def nothing(chance: Random, card: Card) -> Altered | None:
    """The same card."""
    return Altered(card)


ALTERATIONS: dict[str, Alteration] = {
    "comma-moved": comma_moved,
    "comma-to-period": comma_to_period,
    "letter": letter,
    "word": word,
    "dot-deleted": dot_deleted,
    "hairline-added": hairline_added,
    "line-deleted": line_deleted,
    "line-moved": line_moved,
    "font-of-a-line": font_of_a_line,
    "font-throughout": font_throughout,
    "scaled": scaled,
    "moved": moved,
    "recoloured": recoloured,
    "recoloured-throughout": recoloured_throughout,
    "retouched": retouched,
}
