"""What type says at a place that changed: which words became which, which are new, which are gone.

Words are read from live type; where a drawing of letters changed and no words were read, nothing is
said. Both pages are held together as a whole, so that words that flow on to another line are known.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from itertools import compress

from mockup.comparing.comparison import Comparison
from mockup.comparing.kinds import Kind
from mockup.comparing.places import Place
from mockup.geometry.point import Box, Point

WORDS_MOST = 500  # judgement: a card says some hundred; where there are more none are compared
_SHORT = 3  # judgement: letters; shorter words are told with a neighbour that says where they stand
_INTO_IN = 0.01  # a box has to reach so far into a place: cells of a place are twice as wide
_TOLD: dict[Kind, tuple[bool, bool]] = {
    Kind.APPEARED: (True, False),
    Kind.VANISHED: (False, True),
}
"""Whether words may be told as new, and as gone, by what is seen: blank paper had none."""

_TURNS = frozenset(("R", "AL", "AN", "RLE", "RLO", "LRE", "LRO", "PDF", "RLI", "LRI", "FSI", "PDI"))
"""Directions of letters (Unicode Standard Annex 9, table 4) that we set no line with."""
_UNSAID = frozenset(("Cc", "Cf", "Cs", "Co", "Cn"))
_JOINERS = dict.fromkeys(map(ord, "\u00ad\u200b\u200c\u200d\u2060\ufeff"))
_LIGATURES = {each: unicodedata.normalize("NFKC", chr(each)) for each in range(0xFB00, 0xFB07)}


@dataclass(frozen=True)
class Word:
    """A word of live type, its box in inches from the top left of its picture, and its line's
    number, counted from the top of the page."""

    text: str
    box: Box
    line: int


@dataclass(frozen=True)
class Reworded:
    """Words that became others; `old` is empty for new ones, `new` for those that are gone."""

    old: str
    new: str


@dataclass(frozen=True)
class _Change:
    """Where two pages part: words that were and words that are, with those beside them that stayed;
    `read` where more of the same line was read on both pages."""

    old: tuple[Word, ...]
    new: tuple[Word, ...]
    before: str
    after: str
    read: bool


def plain_text(text: str) -> str | None:
    """Returns what a run of letters says: ligatures as their letters, joiners left out; None where
    that cannot be told or set: control characters, letters of no meaning, type from right to left.
    """
    said = unicodedata.normalize("NFC", text.translate(_JOINERS).translate(_LIGATURES))
    for letter in said:
        if letter == "\ufffd" or unicodedata.category(letter) in _UNSAID:
            return None
        if unicodedata.bidirectional(letter) in _TURNS:
            return None
    return said


def reworded(
    how: Comparison, before: Sequence[Word], now: Sequence[Word], middles: tuple[Point, Point]
) -> tuple[tuple[Reworded, ...], ...]:
    """Returns for each place of a comparison what its words became; nothing where no words were
    read, or they are the same. `middles` are those of both pictures, inches."""
    nothing: tuple[tuple[Reworded, ...], ...] = ((),) * len(how.places)
    if (not before and not now) or max(len(before), len(now)) > WORDS_MOST:
        return nothing
    changes = _changes(_laid(before, how, middles), now)
    return tuple(_at(place, changes) for place in how.places)


def _laid(words: Iterable[Word], how: Comparison, middles: tuple[Point, Point]) -> list[Word]:
    """Returns words where the picture they are of lies over the other."""
    (x, y), (to_x, to_y) = middles
    right, down = to_x + how.moved_in.x, to_y + how.moved_in.y

    def laid(box: Box) -> Box:
        return Box(
            (box.left - x) * how.scaled + right,
            (box.top - y) * how.scaled + down,
            (box.right - x) * how.scaled + right,
            (box.bottom - y) * how.scaled + down,
        )

    return [replace(word, box=laid(word.box)) for word in words]


def _changes(before: Sequence[Word], now: Sequence[Word]) -> list[_Change]:
    """Returns where two pages say something else; not where words only go on elsewhere, or are
    parted otherwise."""
    old, new = ([word.text for word in words] for words in (before, now))
    codes = SequenceMatcher(None, old, new, autojunk=False).get_opcodes()
    parted = [_change(before, now, (a, b), (c, d)) for tag, a, b, c, d in codes if tag != "equal"]
    gone = {_said(each.old) for each in parted if not each.new}
    came = {_said(each.new) for each in parted if not each.old}
    moved = gone & came
    return [
        each
        for each in parted
        if _run(each.old) != _run(each.new) and not {_said(each.old), _said(each.new)} & moved
    ]


def _change(
    before: Sequence[Word], now: Sequence[Word], was: tuple[int, int], is_: tuple[int, int]
) -> _Change:
    """Returns one change: words `was[0]` to `was[1]` of one page became those of the other."""
    old, new = before[slice(*was)], now[slice(*is_)]
    left = _beside(before, now, was[0], is_[0], -1)
    right = _beside(before, now, was[1] - 1, is_[1] - 1, 1)
    return _Change(tuple(old), tuple(new), left, right, bool(left or right))


def _beside(before: Sequence[Word], now: Sequence[Word], was: int, is_: int, step: int) -> str:
    """Returns the word beside a change that both pages have on the line of it; else nothing."""
    told: set[str] = set()
    for words, at in ((before, was), (now, is_)):
        other = at + step
        if not (0 <= other < len(words)):
            return ""
        here = words[at] if 0 <= at < len(words) else words[other]
        if here.line != words[other].line:
            return ""
        told.add(words[other].text)
    return told.pop() if len(told) == 1 else ""


def _said(words: Iterable[Word]) -> str:
    return " ".join(word.text for word in words)


def _run(words: Iterable[Word]) -> str:
    return "".join(word.text for word in words)


def _at(place: Place, changes: Iterable[_Change]) -> tuple[Reworded, ...]:
    if place.kind is Kind.RECOLOURED:  # the edges of its letters are as they were
        return ()
    told = (_told(place, each) for each in changes)
    return tuple(dict.fromkeys(each for each in told if each is not None))


def _told(place: Place, change: _Change) -> Reworded | None:
    """Returns what of a change lies in a place, in words; None where nothing can be told."""
    old, new = _within(place.box, change)
    came, went = _TOLD.get(place.kind, (change.read, change.read))
    if not (old or new) or _run(old) == _run(new):
        return None
    if not old or not new:
        one_sided = came if new else went
        return Reworded(_said(old), _said(new)) if one_sided else None
    texts = (_said(old), _said(new))
    whole = len(old) == len(change.old) and len(new) == len(change.new)
    if whole and max(map(len, texts)) <= _SHORT:
        ahead = f"{change.before} " if change.before and not change.after else ""
        behind = f" {change.after}" if change.after else ""
        texts = (f"{ahead}{texts[0]}{behind}", f"{ahead}{texts[1]}{behind}")
    return Reworded(*texts)


def _within(place: Box, change: _Change) -> tuple[list[Word], list[Word]]:
    """Returns the words of a change that lie in a place, as they were and as they are: where only
    the one or the other does, as of a comma that became a full stop, its fellow as well."""
    old, new = ([_meets(word.box, place) for word in words] for words in (change.old, change.new))
    if any(old) != any(new) and _is_in_a_line(change.old) and _is_in_a_line(change.new):
        old, new = _as_many(old, new)
    return list(compress(change.old, old)), list(compress(change.new, new))


def _as_many(old: list[bool], new: list[bool]) -> tuple[list[bool], list[bool]]:
    """Returns which words of either side are told where only one side's were met: word for word
    where both have as many, else all."""
    if len(old) == len(new):
        both = [one or other for one, other in zip(old, new, strict=True)]
        return both, both
    return ([True] * len(old), [True] * len(new)) if old and new else (old, new)


def _is_in_a_line(words: Sequence[Word]) -> bool:
    return len({word.line for word in words}) == 1


def _meets(one: Box, other: Box) -> bool:
    across = min(one.right, other.right) - max(one.left, other.left)
    down = min(one.bottom, other.bottom) - max(one.top, other.top)
    least = min(_INTO_IN, one.width / 2, one.height / 2)
    return across >= least and down >= least
