"""What the type on a template says of its lines: a legend beside samples, colours named, sizes."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import islice

from shapely.geometry import Point as Place

from mockup.dies.template.looks import Look, alike, look_of, rgb_of
from mockup.dies.template.rings import Ring, path_box
from mockup.geometry.point import Box, Point
from mockup.trade.colour_words import colour_name, colours_said, is_called
from mockup.trade.vocabulary import Meaning, said_first
from mockup.units import INCHES_PER_UNIT
from mockup.vector.template import Template, TemplatePath, TemplateWords

SAMPLE_LONGEST_IN = 2.6  # judgement: samples of a line in a legend are shorter
SAMPLE_HIGHEST_IN = 0.6
SAMPLE_AWAY_IN = 1.0  # judgement: how far a label stands from its sample
LEADER_WITHIN_IN = 0.15  # judgement: a leader begins this near its label
TOUCHES_IN = 0.02  # judgement: and ends this near its line
LETTERS_MAX = 160  # judgement: labels are shorter; longer is a text of its own
LABELS_MAX = 120  # judgement: no legend is longer
DRAWN_MAX = 1500  # judgement: of samples and of leaders; what goes on is art
_CLAUSE = re.compile(r"[;|\n\u2022]|[.,](?=\s|$)|\s/\s")
_NUMBER = r"\d+(?:[.,]\d+)?(?:\s+\d+/\d+)?"
_UNIT = r"(?:inch(?:es)?|in|mm|cm|[\"\u2033\u201d])?"
_SIZE = re.compile(
    rf"({_NUMBER})\s*({_UNIT})\s*(?:\([^)]*\)\s*)?[x\u00d7]\s*({_NUMBER})\s*({_UNIT})", re.I
)
_LENGTH = re.compile(
    rf"^\W*(?:[wh]\s*[=:]?\s*)?({_NUMBER})\s*(inch(?:es)?|in|mm|cm|[\"\u2033\u201d])\W*$", re.I
)
_GREY = ("black", "white", "grey")


@dataclass(frozen=True, eq=False)
class Label:
    """What a label says a line is, in its own words, and which line: of a look, or this ring."""

    what: Meaning
    words: str
    how: str
    """"sample", "leader", "type" (the label's own colour) or "word" (a colour it names)."""
    look: Look | None = None
    colours: frozenset[str] = frozenset()
    ring: Ring | None = None
    sample: TemplatePath | None = None


@dataclass(frozen=True)
class SizeSaid:
    """A size a template states, inches, what it says is that large, in its own words."""

    what: Meaning | None
    size_in: tuple[float, float]
    words: str


def labels_of(template: Template, rings: Sequence[Ring]) -> list[Label]:
    """Returns what the labels of a template say of its lines; `rings` may be meant by a leader."""
    drawn = _Drawn.of(template, rings)
    found: list[Label] = []
    for words in template.words:
        if len(found) >= LABELS_MAX:
            break
        if len(words.words) > LETTERS_MAX:
            continue
        clauses = _clauses(words.words)
        for clause, what in clauses:
            named = frozenset(colours_said(clause))
            if named:
                found.append(Label(what, clause, "word", colours=named))
        if clauses:
            label = _shown(words, clauses[0], drawn)
            if label is not None:
                found.append(label)
    return found


@dataclass(frozen=True, eq=False)
class _Drawn:
    """What labels may speak of: samples with their boxes, straight lines, and rings."""

    samples: list[tuple[TemplatePath, Box]]
    lines: list[tuple[Point, Point]]
    rings: Sequence[Ring]

    @classmethod
    def of(cls, template: Template, rings: Sequence[Ring]) -> _Drawn:
        """Returns what a template draws of them."""
        seen = [path for path in template.paths if not path.hidden]
        boxes = ((path, path_box(path)) for path in seen)
        samples = islice(((path, box) for path, box in boxes if _is_small(box)), DRAWN_MAX)
        bare = (path for path in seen if not path.closed and not path.filled)
        courses = (list(path.segments) for path in bare)
        ends = ((course[0].start, course[-1].end) for course in courses if len(course) <= 2)
        return cls(list(samples), list(islice(ends, DRAWN_MAX)), rings)


def means(label: Label, ring: Ring, rings: Sequence[Ring]) -> bool:
    """Returns whether a label speaks of a ring: by its look, where no other ring has it rather."""
    if label.ring is not None:
        return label.ring is ring
    if label.look is not None:
        return ring in _looking_so(label.look, rings)
    rgb = ring.look.rgb
    return rgb is not None and any(is_called(rgb, name) for name in label.colours)


def sizes_said(template: Template) -> list[SizeSaid]:
    """Returns the sizes a template states, `5 x 7 in`, with what they are said to be of."""
    found: list[SizeSaid] = []
    for words in template.words:
        for clause in re.split(r"[;|\n\u2022]", words.words):
            for match in _SIZE.finditer(clause):
                size = _size(match)
                if size is not None:
                    found.append(
                        SizeSaid(
                            said_first(clause[: match.start()]) or said_first(clause),
                            size,
                            clause.strip(),
                        )
                    )
    return found


def lengths_said(template: Template) -> list[float]:
    """Returns the lengths that stand alone, as beside a dimension line, inches."""
    matches = (_LENGTH.match(words.words) for words in template.words)
    return [_inches(match[1], match[2]) for match in matches if match]


def _clauses(words: str) -> list[tuple[str, Meaning]]:
    """Returns the parts of a label that name a line of a template, each with what it names."""
    found: list[tuple[str, Meaning]] = []
    for clause in _CLAUSE.split(words):
        what = said_first(clause)
        if what is not None:
            found.append((" ".join(clause.split()), what))
    return found


def _shown(words: TemplateWords, said: tuple[str, Meaning], drawn: _Drawn) -> Label | None:
    """Returns a label with the ring it leads to, the sample beside it, or its own colour."""
    clause, what = said
    ring = _led_to(words.box, drawn)
    if ring is not None:
        return Label(what, clause, "leader", ring=ring)
    sample = _sample(words.box, drawn.samples)
    if sample is not None:
        return Label(what, clause, "sample", look=look_of(sample), sample=sample)
    rgb = rgb_of(words.colour)
    if rgb is None or colour_name(rgb) in _GREY:
        return None
    return Label(what, clause, "type", look=Look(rgb, (), False, True))


def _is_small(box: Box) -> bool:
    short, long = sorted((box.width, box.height))
    return short <= SAMPLE_HIGHEST_IN and 0.08 <= long <= SAMPLE_LONGEST_IN


def _sample(label: Box, samples: Sequence[tuple[TemplatePath, Box]]) -> TemplatePath | None:
    """Returns the line or swatch that stands beside a label, before it or after it."""
    upright = label.height > 1.5 * label.width  # a page that is turned: rows run upwards
    label = _turned(label) if upright else label
    high = label.height
    best: tuple[float, TemplatePath] | None = None
    for path, found in samples:
        box = _turned(found) if upright else found
        if not (box.top - 0.5 * high <= label.centre.y <= box.bottom + 0.5 * high):
            continue
        if box.height > 3.5 * high or box.width < 0.08:
            continue
        gap = label.left - box.right if box.centre.x < label.centre.x else box.left - label.right
        # What a typeface takes is guessed at in SVG: a sample may seem to reach into its label.
        if not -0.25 * label.width <= gap <= SAMPLE_AWAY_IN:
            continue
        away = abs(gap) + abs(box.centre.y - label.centre.y) * 4
        if best is None or away < best[0]:
            best = (away, path)
    return None if best is None else best[1]


def _turned(box: Box) -> Box:
    return Box(box.top, box.left, box.bottom, box.right)


def _led_to(label: Box, drawn: _Drawn) -> Ring | None:
    """Returns the one ring that a straight line leads to from a label."""
    for start, end in drawn.lines:
        for near, far in ((start, end), (end, start)):
            if _away(label, near) > LEADER_WITHIN_IN or _away(label, far) < LEADER_WITHIN_IN:
                continue
            place = Place(far)
            met = [r for r in drawn.rings if r.ground.boundary.distance(place) <= TOUCHES_IN]
            if len(met) == 1:
                return met[0]
    return None


def _away(box: Box, place: Point) -> float:
    dx = max(box.left - place.x, 0.0, place.x - box.right)
    dy = max(box.top - place.y, 0.0, place.y - box.bottom)
    return math.hypot(dx, dy)


def _looking_so(look: Look, rings: Sequence[Ring]) -> list[Ring]:
    """Returns the rings that look like a sample: with its dashes, or failing any, its colour."""
    coloured = [ring for ring in rings if alike(ring.look, look)]
    return [ring for ring in coloured if ring.look.dashed == look.dashed] or coloured


def _size(match: re.Match[str]) -> tuple[float, float] | None:
    unit = match[4] or match[2]
    if not unit:
        least = min(_inches(match[1], "in"), _inches(match[3], "in"))
        unit = "mm" if least > 30 else "in"  # judgement: no card is 30 in wide, or 30 mm
    try:
        size = _inches(match[1], match[2] or unit), _inches(match[3], unit)
    except ZeroDivisionError:
        return None
    return size if min(size) > 0 else None


def _inches(number: str, unit: str) -> float:
    whole, _, fraction = number.replace(",", ".").partition(" ")
    value = float(whole)
    if fraction:
        over, _, under = fraction.strip().partition("/")
        value += float(over) / float(under)
    unit = unit.lower()
    return value * INCHES_PER_UNIT.get("in" if unit in ("\u2033", "\u201d") else unit, 1.0)
