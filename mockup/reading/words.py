"""The words a side of a piece says in live type, with their places: outlined type says nothing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from mockup.artwork.inspection import Painted, inspect
from mockup.comparing.wording import Word, plain_text
from mockup.errors import InputError, LimitError
from mockup.geometry.point import Box, box_round
from mockup.reading.page import placed
from mockup.reading.page_facts import zones_on
from mockup.reading.part import Part, read_parts
from mockup.reading.parts import Parts
from mockup.reading.type_lines import SPACE_EMS, letter_lines
from mockup.suite.suite import Piece
from mockup.trade.tolerances import SAFE
from mockup.workshop import crew
from mockup.workshop.job import Job

_READ = "mockup.reading.words:words_read"
_SAME = 0.5  # judgement: share of its width; a letter so far over its like is drawn twice


@dataclass(frozen=True)
class _Letter:
    """What one glyph says, its box, and whether a space of the file stands before it."""

    text: str
    box: Box
    spaced: bool


def words_of_each(sides: Sequence[Piece]) -> list[tuple[Word, ...]]:
    """Returns the words of every side, in order, boxes in inches from the card's top left; read in
    workers and remembered. None of any where one has too much on it: a proof is made without."""
    jobs = [Job((side,), side.art.where, side.art.sha256, side) for side in sides]
    try:
        return crew.done(_READ, jobs)
    except (InputError, LimitError):
        return [()] * len(sides)


def words_read(side: Piece) -> tuple[Word, ...]:
    """Returns the words of a side in lines from the top down; none where its page cannot be read,
    or the card cannot be found on it.

    A line says nothing where part of it is outlined, turned, cut by a clip, or of unknown letters.
    """
    try:
        art, placement, misfit = placed(side)
        inspection = inspect(art.art, placement)
    except (InputError, LimitError):
        return ()
    if misfit is not None:
        return ()
    drawn = tuple(each for each in inspection.painted if each.number not in art.art.left_out)
    if not any(each.lettering is not None for each in drawn):
        return ()
    zones = zones_on(art, placement, side.die, SAFE.value, side.bleed_in)
    parts = Parts(read_parts(replace(inspection, painted=drawn), zones))
    lines = [
        words
        for line in letter_lines(parts)
        if (words := _words([parts.all[k] for k in line.members], line.em_in))
    ]
    lines.sort(key=lambda words: (round(words[0][1].bottom, 2), words[0][1].left))
    return tuple(Word(text, box, k) for k, words in enumerate(lines) for text, box in words)


def _words(members: Sequence[Part], em_in: float) -> list[tuple[str, Box]]:
    """Returns the words of a line from left to right; none where not all of it can be read."""
    on_card = [each for each in members if each.place != "outside"]
    letters = _letters(on_card)
    if not letters:
        return []
    letters = _once(sorted(letters, key=lambda letter: letter.box.centre.x))
    gaps = [after.box.left - before.box.right for before, after in pairwise(letters)]
    usual = max(float(np.median(gaps)), 0.0) if gaps else 0.0
    words = [(letters[0].text, letters[0].box)]
    for gap, letter in zip(gaps, letters[1:], strict=True):
        if letter.spaced or gap > usual + SPACE_EMS * em_in:
            words.append((letter.text, letter.box))
        else:
            text, box = words[-1]
            words[-1] = (text + letter.text, box_round((box, letter.box)))
    return words


def _letters(members: Sequence[Part]) -> list[_Letter] | None:
    """Returns the letters of a line in no order; None where one of them cannot be told."""
    found: dict[tuple[int, int], _Letter] = {}
    runs: dict[int, dict[int, tuple[str, bool]]] = {}
    for part in members:
        lettering = part.painted.lettering
        glyph = _glyph(part)
        if lettering is None or not lettering.upright or glyph is None:
            return None
        run = runs.setdefault(part.index, dict(_said(part.painted)))
        text, spaced = run.get(glyph, ("", False))
        said = plain_text(text)
        if not said:
            return None
        key = (part.index, glyph)
        box = box_round((found[key].box, part.box)) if key in found else part.box
        found[key] = _Letter(said, box, spaced)
    return list(found.values())


def _glyph(part: Part) -> int | None:
    """Returns which glyph of its run a ring is of; None where that is not known."""
    painted = part.painted
    ring = next((k for k, each in enumerate(painted.rings) if each is part.ring), None)
    if ring is None or not painted.glyphs:
        return None
    return int(np.searchsorted(np.cumsum(painted.glyphs), ring, side="right"))


def _said(painted: Painted) -> Iterator[tuple[int, tuple[str, bool]]]:
    """Yields what each glyph of a run says, and whether a space stands before it."""
    lettering = painted.lettering
    assert lettering is not None
    texts: dict[int, str] = {}
    for letter, glyph in zip(lettering.text, lettering.glyph_of, strict=False):
        texts[glyph] = texts.get(glyph, "") + letter
    spaced = False
    for glyph, text in sorted(texts.items()):
        if text.isspace():
            spaced = True
            continue
        yield glyph, (text.strip(), spaced)
        spaced = False


def _once(letters: Sequence[_Letter]) -> list[_Letter]:
    """Returns letters without those drawn once more over their like: a fill and its outline, or a
    shadow."""
    kept: list[_Letter] = []
    for letter in letters:
        near = (each for each in kept[-3:] if each.text == letter.text)
        if not any(each.box.right - letter.box.left > _SAME * letter.box.width for each in near):
            kept.append(letter)
    return kept
