"""What the names of layers and inks mean on a template: cut, bleed, safe zone, or something else.

Words in the languages print files come in; common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Literal

Meaning = Literal["cut", "bleed", "safe", "other"]

_WORDS: dict[Meaning, str] = {
    # "Bleed of the die" is a bleed, and "no cut" is none: the first row that holds a word wins.
    "other": "no not half kiss perf perforation crease fold score art legend dimensions",
    "bleed": "bleed bleeds anschnitt beschnitt sangrado fond abbondanza",
    "safe": "safe safety safezone safearea live livearea",
    "cut": "cut cuts cutline cutlines cutting cutcontour cutpath cutter die dies dieline dielines "
    "diecut diecutting stanze stanzen stanzlinie stanzform stanzkontur decoupe découpe fustella "
    "troquel stans stanslijn",
}
_MEANINGS: dict[Meaning, frozenset[str]] = {key: frozenset(t.split()) for key, t in _WORDS.items()}
_WORD = re.compile(r"[A-Z]+(?![a-z])|[A-Z]?[^\W\d_A-Z]+")


def meaning(names: Iterable[str]) -> tuple[Meaning, str] | None:
    """Returns what names, outermost first, say a path is, and the name that says it, or None.

    The innermost name that says anything wins: a "bleed" in a group called "die" is a bleed.
    """
    for name in reversed(tuple(names)):
        words = {word.lower() for word in _WORD.findall(name)} | {name.lower()}
        for what, known in _MEANINGS.items():
            if words & known:
                return what, name
    return None
