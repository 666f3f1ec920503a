"""`python -m benchmarks.changes.words [FOLDER] [--half A]`: words told, held against truth.

The truth is what was set on each card. Right: every word told as it was or is stands on that card
and did change, and none that changed goes untold. Silent: nothing is told of words that changed.
Part: some of them. Invented: a word is told that did not change, or stands on neither card.
"""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path

from benchmarks.changes.__main__ import arguments
from benchmarks.changes.card import Card, Words
from benchmarks.changes.drawing import PPI, files_of, pictures_of
from benchmarks.changes.plan import Pair, planned
from benchmarks.changes.programs import missing
from mockup.comparing.comparison import compare
from mockup.comparing.wording import Reworded, Word, reworded
from mockup.geometry.point import Point
from mockup.reading.words import words_read
from mockup.suite.reading import read_suite

_SUITE = """title = "Words"
[pieces.card]
art = "{art}"
card = "{wide} x {high} in"
die = "rectangle"
"""


def main() -> None:
    given = arguments(__doc__)
    gone = missing()
    given.folder.mkdir(parents=True, exist_ok=True)
    counts: dict[str, Counter[str]] = {"A": Counter(), "B": Counter()}
    for pair in planned(given.seed):
        if given.half not in (None, pair.half) or given.like not in pair.name or pair.way in gone:
            continue
        told = told_of(pair, given.folder)
        verdict = judged(pair, told)
        counts[pair.half][verdict] += 1
        if given.half == "A":
            said = "; ".join(f"{each.old!r} -> {each.new!r}" for each in told)
            print(f"{verdict:8} {pair.name:48} {said[:150]}")
    print(json.dumps({half: dict(count) for half, count in counts.items() if count}))


def told_of(pair: Pair, folder: Path) -> list[Reworded]:
    """Returns all that is told of the words of a pair."""
    pictures = pictures_of(pair, folder)
    before, now = (_words(file, pair.before) for file in files_of(pair, folder))
    middle = Point(pair.before.width_in / 2, pair.before.height_in / 2)
    found = compare(*pictures, PPI)
    return [each for said in reworded(found, before, now, (middle, middle)) for each in said]


def judged(pair: Pair, told: list[Reworded]) -> str:
    """Returns whether what is told of words is right, silent, in part, or invented."""
    before, now = _set_on(pair.before), _set_on(pair.altered.card)
    gone, came = before - now, now - before
    olds, news = (Counter[str]() for _ in range(2))
    for each in told:
        old, new = Counter(each.old.split()), Counter(each.new.split())
        olds |= old - new  # the word beside a short one stands on both
        news |= new - old
    if olds - gone or news - came:
        return "invented"
    if not gone and not came:
        return "right"
    if not told:
        return "silent"
    return "right" if olds == gone and news == came else "part"


def _set_on(card: Card) -> Counter[str]:
    return Counter(
        word for each in card.things if isinstance(each, Words) for word in each.text.split()
    )


def _words(file: Path, card: Card) -> tuple[Word, ...]:
    suite = file.with_suffix(".toml")
    suite.write_text(_SUITE.format(art=file.name, wide=card.width_in, high=card.height_in))
    (piece,) = read_suite(suite).pieces
    return words_read(piece)


if __name__ == "__main__":
    main()
