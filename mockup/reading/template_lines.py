"""A template's lines and marks in the art, and what speaks for each: name, word, course, pen.

A border is art, dashed or cyan, at whatever distance from the cut. A line is a template's where a
name or a word says so, where it is the cut itself, or where it runs outside the cut all round; by
its look alone it is never more than likely, and by its colour alone no more than asked of.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
import shapely
from numpy.typing import NDArray

from mockup.artwork.inspection import Ink, Inspection, Painted, Ring
from mockup.geometry.point import Box
from mockup.reading.courses import Along, Follows, following, ink_key, line_width
from mockup.reading.crop_marks import is_crop_mark
from mockup.reading.die_zones import DieZones
from mockup.reading.labels import Label, Sample, labels, samples
from mockup.reading.part import FAINT
from mockup.reading.template_names import named
from mockup.trade.tolerances import SAFE_MARGINS, TEMPLATE_LINE
from mockup.trade.vocabulary import Meaning
from mockup.units import PT_PER_INCH

CUT_WITHIN_IN = 0.015  # judgement: a pixel at 72 to the inch; no border is set so near the cut
BLEED_BEYOND_IN = 0.05  # judgement: a bleed line drawn for a larger bleed (3 mm, 4 mm) counts
MARGIN_WITHIN_IN = 0.006  # judgement: tells 1/8 in from 3 mm (0.007 in apart) and no less
LABEL_NEAR_IN = 0.25  # judgement: words that name a line stand by it
FINE_PT = 0.6  # judgement: 0.2 mm and less; what is drawn as a border is commonly thicker
HAIR_PT = 0.3  # judgement: no designer's border is thinner, for it would hardly print
PURE = 0.02  # judgement: rounding of a full or an absent ink through a profile
COLOURED = 0.9  # judgement: how far the largest and least channel of a pure primary lie apart
SHAPED_IN = 0.012  # judgement: a die whose corners come so near the trim's is a rectangle
ACROSS_SHARE = 0.85  # judgement: of the card's side; a fold may stop short of the cut
SAME_PATH_IN = 0.001  # judgement: rounding; a fill and its stroke are one path
HOLE_WITHIN_IN = 0.02  # judgement: a hole's ring out of register is nearer; an eyelet is further

Line = Literal["cut", "bleed", "safe", "hole", "fold"]
Evidence = Literal["word", "own shape", "same pen", "place", "look", "colour"]
"""Why a line is a template's: a word by it names it; it is an offset of a die that is no rectangle;
it is drawn with the pen of one that is; where it runs; or, neither of them sure, its look, or its
colour alone, in which a border may be drawn as well."""

_NAMED_BY: dict[Line, frozenset[Meaning]] = {
    "cut": frozenset(("cut", "trim", "kiss cut", "guide")),
    "bleed": frozenset(("bleed", "guide")),
    "safe": frozenset(("safe", "guide")),
    "hole": frozenset(("hole", "cut", "guide")),
    "fold": frozenset(("crease", "perforation", "cut", "kiss cut", "glue", "guide")),
}


@dataclass(frozen=True)
class FollowingLine:
    """A thin line round the card that follows the die, or the trim's rectangle, or an offset of it.

    `usual_in` is how far inside that it runs, inches, negative outside; `shift_in` how far it lies
    beside its place. `words` are the marks that name it.
    """

    painted: tuple[Painted, ...]
    line: Line
    along: Along
    usual_in: float
    evidence: Evidence
    shift_in: tuple[float, float] = (0.0, 0.0)
    words: tuple[Painted, ...] = ()

    @property
    def on_the_die(self) -> bool:
        """Whether it is the die's own outline, or a hole's."""
        return self.line in ("cut", "hole") and self.along == "die"

    @property
    def is_sure(self) -> bool:
        """Whether more than its look speaks for it."""
        return self.evidence not in ("look", "colour")


@dataclass(frozen=True)
class TemplateLines:
    """All that looks like a template's on a page, in three groups that may share objects.

    `named` lie on a template's layer, in a template's ink, or are a template's processing step, and
    look like what templates hold; `crop_marks` are short lines in line with the trim's edges that
    reach into the bleed.
    """

    named: tuple[Painted, ...]
    following: tuple[FollowingLine, ...]
    crop_marks: tuple[Painted, ...]

    @property
    def painted(self) -> list[Painted]:
        """Every object that is surely no art."""
        sure = [line for line in self.following if line.is_sure]
        lines = [each for line in sure for each in (*line.painted, *line.words)]
        return [*self.named, *lines, *self.crop_marks]

    def without_place(self) -> TemplateLines:
        """Returns what is known without knowing where the card lies: the named."""
        return TemplateLines(self.named, (), ())


@dataclass(frozen=True)
class _Page:
    """What a line is judged by: the page, its words and samples, and the inks of its art."""

    inspection: Inspection
    zones: DieZones
    labels: list[Label]
    samples: list[Sample]
    round: list[Follows]

    def words_for(self, line: Line, marks: Sequence[Painted]) -> tuple[Painted, ...]:
        """Returns the marks that name a line of some marks: a label beside it or, where it says so
        in full, in its ink; or a sample of its ink and the label there."""
        ink = ink_key(marks[0].ink)
        for sample in self.samples:
            if sample.pen == ink and sample.label.meaning in _NAMED_BY[line]:
                return (*sample.label.painted, sample.painted)
        for label in self.labels:
            in_full = label.meaning == line and ink_key(label.painted[0].ink) == ink
            if in_full or (label.meaning in _NAMED_BY[line] and _is_near(label, marks)):
                return label.painted
        return ()

    def is_alone(self, follows: Follows, told: Sequence[FollowingLine] = ()) -> bool:
        """Returns whether nothing on the page has a line's ink but itself, lines that are told
        already, and words of templates."""
        known = {id(each) for each in follows.course.painted}
        known |= {id(each) for line in told for each in line.painted}
        known |= {id(each) for label in self.labels for each in label.painted}
        known |= {id(sample.painted) for sample in self.samples}
        ink = ink_key(follows.course.ink)
        return not any(
            ink_key(each.ink) == ink and id(each) not in known for each in self.inspection.painted
        )


def find_template_lines(inspection: Inspection, zones: DieZones) -> TemplateLines:
    """Returns a template's lines and marks among what a page paints."""
    grounds = _outlines_of_fills(inspection)
    lines = [
        p
        for p in inspection.painted
        if p.alpha >= FAINT and not p.tiled and id(p) not in grounds and line_width(p) is not None
    ]
    told = labels(inspection.painted)
    page = _Page(
        inspection, zones, told, samples(inspection.painted, told), following(lines, zones)
    )
    found = [line for each in page.round if (line := _sure(each, page)) is not None]
    found += [
        line
        for each in page.round
        if _at_home(each) is None and (line := _inside(each, found, page)) is not None
    ]
    found += _holes(lines, page)
    found += _folds(lines, page)
    marks = tuple(p for p in lines if is_crop_mark(p, zones))
    return TemplateLines(tuple(named(inspection)), tuple(found), marks)


# By course.


def _at_home(follows: Follows) -> Literal["cut", "bleed"] | None:
    """Returns which line runs where this one does: on the cut, or outside it."""
    if abs(follows.usual_in) < CUT_WITHIN_IN:
        return "cut"
    return "bleed" if follows.usual_in < 0 else None


def _sure(follows: Follows, page: _Page) -> FollowingLine | None:
    """Returns a line on the cut or outside it all round as a template's."""
    line, course = _at_home(follows), follows.course
    if line is None:
        return None
    out_in = -follows.usual_in - course.width_pt / PT_PER_INCH / 2
    if line == "bleed" and (
        course.width_pt > TEMPLATE_LINE.value
        or not 0 < out_in < page.zones.bleed_in + BLEED_BEYOND_IN
    ):
        return None
    words = page.words_for(line, course.painted)
    evidence: Evidence = "word" if words else "place"
    if not words and line == "cut" and follows.along == "die" and is_shaped(page.zones):
        evidence = "own shape"
    return FollowingLine(
        course.painted, line, follows.along, follows.usual_in, evidence, follows.shift_in, words
    )


def _inside(follows: Follows, told: Sequence[FollowingLine], page: _Page) -> FollowingLine | None:
    """Returns a line inside the card as a template's safe line; None for a border."""
    course = follows.course
    if course.width_pt > TEMPLATE_LINE.value:
        return None
    words = page.words_for("safe", course.painted)
    evidence: Evidence | None = "word" if words else None
    pens = {ink_key(each.ink) for line in told for each in line.painted}
    if evidence is None and ink_key(course.ink) in pens and page.is_alone(follows, told):
        evidence = "same pen"
    if evidence is None and _at_a_margin(follows.usual_in, page.zones):
        evidence = _by_its_look(follows, page)
    if evidence is None:
        return None
    return FollowingLine(
        course.painted, "safe", follows.along, follows.usual_in, evidence, words=words
    )


def _by_its_look(follows: Follows, page: _Page) -> Evidence | None:
    """Returns what a line's look says: only a fine one in a pure primary that nothing else has, an
    exact offset of its die."""
    course = follows.course
    if not follows.exactly or course.width_pt > FINE_PT or not is_primary(course.ink):
        return None
    if not page.is_alone(follows):
        return None
    if course.dashed:
        return "own shape" if follows.along == "die" and is_shaped(page.zones) else "look"
    return "look" if course.width_pt <= HAIR_PT else "colour"


def is_shaped(zones: DieZones) -> bool:
    """Returns whether a die is more than the trim's rectangle: nothing follows it by chance."""
    box = zones.card
    whole = zones.cut.exterior
    corners = np.array(box.corners())
    return bool(np.abs(zones.signed(corners)).max() > SHAPED_IN) or whole.is_empty


def _at_a_margin(usual_in: float, zones: DieZones) -> bool:
    margins = (*(margin.value for margin in SAFE_MARGINS), zones.safe_in)
    return any(abs(usual_in - margin) < MARGIN_WITHIN_IN for margin in margins)


def is_primary(ink: Ink | None) -> bool:
    """Returns whether an ink is a full primary or secondary, such as cyan, red or green."""
    if ink is None or ink.space not in ("rgb", "cmyk"):
        return False
    values = ink.values[:3]
    pure = all(value < PURE or value > 1 - PURE for value in values)
    coloured = max(values) - min(values) > COLOURED
    return pure and coloured and (ink.space == "rgb" or ink.values[3] < PURE)


def _is_near(label: Label, marks: Sequence[Painted]) -> bool:
    box = label.box.grown(LABEL_NEAR_IN)
    for each in marks:
        for ring in each.rings:
            if _meets(ring, box):
                return True
    return False


def _meets(ring: NDArray[np.float64], box: Box) -> bool:
    """Returns whether a polyline comes into a box."""
    return bool(shapely.LineString(ring).intersects(shapely.box(*box))) if len(ring) > 1 else False


def _outlines_of_fills(inspection: Inspection) -> set[int]:
    """Returns the strokes that are the edge of a fill: in its own ink, or round a ground that
    reaches beyond the card, as programs draw it unasked."""
    found: set[int] = set()
    for before, each in itertools.pairwise(inspection.painted):
        if each.pen is None or before.pen is not None or len(each.rings) != len(before.rings):
            continue
        if not each.kind == before.kind == "path":
            continue
        sides, ground = (_sides(marks.rings) for marks in (each, before))
        same = np.abs(sides - ground).max() < SAME_PATH_IN
        outside = ground[:2].max() < -CUT_WITHIN_IN
        if same and (outside or ink_key(each.ink) == ink_key(before.ink)):
            found.add(id(each))
    return found


def _sides(rings: Sequence[Ring]) -> NDArray[np.float64]:
    """Returns left, top, right and bottom of rings."""
    points = np.concatenate(rings)
    return np.concatenate([points.min(axis=0), points.max(axis=0)])


# Holes, folds, crop marks.


def _holes(lines: Sequence[Painted], page: _Page) -> list[FollowingLine]:
    """Returns what is drawn just where the die has its holes: rings; discs, which may be art."""
    found: list[FollowingLine] = []
    thin = {id(each) for each in lines}
    for hole in page.zones.cut.interiors:
        rim = _sides([np.asarray(hole.coords)])
        for each in page.inspection.painted:
            is_ring = each.pen is not None and id(each) in thin
            is_disc = each.pen is None and len(each.rings) == 1
            if each.kind != "path" or not (is_ring or is_disc):
                continue
            off = _sides(each.rings) - rim
            if np.abs(off).max() > HOLE_WITHIN_IN:
                continue
            shift = (float(off[0] + off[2]) / 2, float(off[1] + off[3]) / 2)
            evidence: Evidence = "place" if is_ring else "look"
            found.append(FollowingLine((each,), "hole", "die", 0.0, evidence, shift))
    return found


def _folds(lines: Sequence[Painted], page: _Page) -> list[FollowingLine]:
    """Returns straight lines across the card that a word beside them calls a fold or the like."""
    found: list[FollowingLine] = []
    if not page.labels:
        return found
    card = page.zones.card
    for each in lines:
        level = each.box.width > ACROSS_SHARE * card.width
        upright = each.box.height > ACROSS_SHARE * card.height
        if level == upright:
            continue
        thin = each.box.height if level else each.box.width
        if thin > TEMPLATE_LINE.value * 2 / PT_PER_INCH:
            continue
        words = page.words_for("fold", (each,))
        if words:
            found.append(FollowingLine((each,), "fold", "trim", 0.0, "word", words=words))
    return found
