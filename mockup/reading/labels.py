"""Words on a page that name a template's line, and the samples of lines a legend sets beside them.

Only words that say nothing else count: "safe zone", "3 mm bleed", "cut line". An invitation that
speaks of cutting the cake names no line.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from mockup.artwork.inspection import Painted
from mockup.geometry.point import Box, box_round
from mockup.reading.courses import ink_key, line_width
from mockup.trade.vocabulary import TEMPLATE, Meaning, name_meaning
from mockup.units import PT_PER_INCH

LONGEST = 40  # judgement: letters; what names a line is short
LARGEST_PT = 10.0  # judgement: larger words are a heading, whatever they say
TOGETHER_EM = 1.0  # judgement: a wider gap ends what is set together
SPACE_EM = 0.17  # judgement: letters of a word stand nearer, for programs that set them singly
SAMPLE_IN = 1.2  # judgement: a legend's samples are shorter than any side of a card
SAMPLE_NEAR_IN = 0.3  # judgement: a sample stands beside its words, not a column away


@dataclass(frozen=True)
class Label:
    """Words that name a line: what they mean, where they are set, and the marks they are."""

    meaning: Meaning
    text: str
    box: Box
    painted: tuple[Painted, ...]


@dataclass(frozen=True)
class Sample:
    """A short line beside a label in a legend: it says which pen draws what."""

    label: Label
    painted: Painted

    @property
    def pen(self) -> object:
        """The ink it is drawn in."""
        return ink_key(self.painted.ink)


def labels(painted: Sequence[Painted]) -> list[Label]:
    """Returns the words among live type that name a template's lines."""
    found: list[Label] = []
    for run in _runs([p for p in painted if _may_name(p)]):
        text = _joined(run)
        if len(text) > LONGEST:
            continue
        meaning = name_meaning(text)
        if meaning in TEMPLATE:
            found.append(Label(meaning, text, box_round(p.box for p in run), tuple(run)))
    return found


def samples(painted: Sequence[Painted], told: Sequence[Label]) -> list[Sample]:
    """Returns the short lines that stand level with a label, close beside it."""
    if not told:
        return []
    found: list[Sample] = []
    for each in painted:
        if max(each.box.width, each.box.height) > SAMPLE_IN or line_width(each) is None:
            continue
        for label in told:
            middle = each.box.centre.y
            gap_in = max(label.box.left - each.box.right, each.box.left - label.box.right)
            level = label.box.top - 0.03 <= middle <= label.box.bottom + 0.03
            if level and 0 <= gap_in <= SAMPLE_NEAR_IN:
                found.append(Sample(label, each))
                break
    return found


def _may_name(painted: Painted) -> bool:
    lettering = painted.lettering
    return (
        lettering is not None and lettering.size_pt <= LARGEST_PT and bool(_text(painted).strip())
    )


def _text(painted: Painted) -> str:
    return painted.lettering.text if painted.lettering is not None else ""


def _runs(types: list[Painted]) -> list[list[Painted]]:
    """Returns type that is set together on one line, from left to right."""
    rows: list[list[Painted]] = []
    for each in sorted(types, key=lambda p: p.box.left):
        row = next((row for row in rows if _goes_on(row[-1], each)), None)
        if row is None:
            rows.append([each])
        else:
            row.append(each)
    return rows


def _goes_on(last: Painted, each: Painted) -> bool:
    em_in = _em_in(each)
    shared = min(last.box.bottom, each.box.bottom) - max(last.box.top, each.box.top)
    level = shared > 0.4 * min(last.box.height, each.box.height)
    return level and -0.5 * em_in < each.box.left - last.box.right < TOGETHER_EM * em_in


def _em_in(painted: Painted) -> float:
    return painted.lettering.size_pt / PT_PER_INCH if painted.lettering is not None else 0.0


def _joined(run: Sequence[Painted]) -> str:
    text = _text(run[0])
    for before, each in itertools.pairwise(run):
        apart = each.box.left - before.box.right > SPACE_EM * _em_in(each)
        text += (" " if apart else "") + _text(each)
    return " ".join(text.split())
