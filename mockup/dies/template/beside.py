"""What is cut, folded and minded with a cut: its holes, its folds, its bleed and its safe zone."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from shapely.geometry import LineString
from shapely.geometry import Point as Place
from shapely.geometry.base import BaseGeometry

from mockup.dies.template.choosing import Choice
from mockup.dies.template.evidence import WHOLE_SHARE
from mockup.dies.template.legend import means
from mockup.dies.template.looks import alike, rgb_of
from mockup.dies.template.naming import called, path_called
from mockup.dies.template.nests import BLEED_MAX_IN, SAFE_MAX_IN, even_gap, nested
from mockup.dies.template.rings import Ring, lines_of
from mockup.geometry.outline import Line, Outline, Segment
from mockup.geometry.point import Box, Point
from mockup.trade.vocabulary import Meaning
from mockup.vector.template import TemplatePath

HOLE_MIN_IN, HOLE_MAX_IN = 0.055, 1.05  # common practice, no source: drills of 1/16 to 1 in
TAG_HOLE_MAX_IN = 0.55  # judgement: a circle that nothing names, larger than that, is drawn art
TAG_MAX_IN, TAG_HOLE_AWAY_IN = 3.2, 1.0  # judgement: tags are narrow, their holes near an end
LARGE_SHARE = 0.3  # judgement: what takes up more of a card is no window of it
COLOURED = 0.4  # judgement: channels as far apart as this are a colour, and no grey
ROUND_WITHIN_IN = 0.003  # judgement: a circle of four cubics strays a thousandth of its radius
CENTRED_IN = 0.03  # judgement: holes stand on a centre line of the card, but for rounding
_FOLD_WITHIN_IN = 0.25  # judgement: nobody folds a card nearer its edge
_FOLD_TOUCHES_IN = 0.03  # judgement: a fold ends at the cut, or beyond it
FOLDS_MAX = 6  # judgement: more lines across a card are a grid of guides
_FOLDS: tuple[Meaning, ...] = ("crease", "perforation")


def hole_outlines(choice: Choice) -> list[Outline]:
    """Returns the outlines inside the cut that are cut with it."""
    cut = choice.cut.ring
    samples = {id(label.sample) for label in choice.page.labels if label.sample is not None}
    ground = cut.ground.buffer(0.001)
    own = {id(path) for path in cut.paths}
    found: list[Outline] = []
    for ring in choice.rings:
        if any(id(path) in own for path in ring.paths):
            continue  # the cut itself, perhaps drawn twice
        if any(id(path) in samples for path in ring.paths):
            continue
        smaller = ring.ground.area < cut.ground.area
        if smaller and ground.contains(ring.ground) and _is_hole(choice, ring):
            found.append(ring.outline)
    return found


def folds_of(choice: Choice) -> tuple[tuple[Segment, ...], ...]:
    """Returns the lines a cut is folded along: named so, or straight from edge to edge of it.

    Lines that a legend says are something else are not, nor those of a grid.
    """
    cut = choice.cut.ring.ground
    edge = cut.boundary
    found: list[tuple[Segment, ...]] = []
    for path in lines_of(choice.page.paths):
        start, end = path.segments[0].start, path.segments[-1].end
        if not all(isinstance(segment, Line) for segment in path.segments):
            continue
        course = LineString([start, end])
        inside = course.intersection(cut).length
        if inside < 0.25 or inside < 0.5 * course.length:
            continue
        if edge.distance(course.interpolate(0.5, normalized=True)) < _FOLD_WITHIN_IN:
            continue  # a side of an outline that is drawn line by line
        name = path_called(path)
        if name is not None and name.what not in _FOLDS:
            continue
        across = all(
            edge.distance(Place(tip)) <= _FOLD_TOUCHES_IN or not _inside(cut, tip)
            for tip in (start, end)
        )
        if across and (name is not None or _is_level(start, end)):
            found.append(path.segments)
    return tuple(found) if len(found) <= FOLDS_MAX else ()


def bleed_of(choice: Choice) -> Ring | None:
    """Returns the bleed line round a cut: named so, else the next outline round it."""
    cut = choice.cut.ring

    def beside(ring: Ring) -> bool:
        found = nested(ring, cut)
        return found is not None and found.distance_in <= BLEED_MAX_IN

    return _beside(choice, "bleed", lambda ring: _spans(ring.box, cut.box), beside, smallest=True)


def safe_of(choice: Choice) -> Ring | None:
    """Returns the safe zone inside a cut: named so, else the next outline in it.

    None where there are several apart: the panels of a card that is folded.
    """
    cut = choice.cut.ring

    def beside(ring: Ring) -> bool:
        found = nested(cut, ring)
        return found is not None and found.distance_in <= SAFE_MAX_IN and not _is_round_hole(ring)

    return _beside(choice, "safe", lambda ring: _spans(cut.box, ring.box), beside, smallest=False)


def _beside(
    choice: Choice,
    what: Meaning,
    lies: Callable[[Ring], bool],
    even: Callable[[Ring], bool],
    smallest: bool,
) -> Ring | None:
    others = [each for each in choice.candidates if each is not choice.cut]
    named = [each.ring for each in others if each.role == what and lies(each.ring)]
    if len(named) > 1 and not _one_in_another(named):
        return None
    group = choice.cut.called  # a name that holds the whole template says nothing of one line
    bare = [each for each in others if each.role is None or (group and each.called == group)]
    found = named or [each.ring for each in bare if lies(each.ring) and even(each.ring)]
    sound = [ring for ring in found if ring.flat.is_valid]
    if not sound:
        return None
    sound.sort(key=lambda ring: ring.ground.area, reverse=not smallest)
    return sound[0]


def _one_in_another(rings: Sequence[Ring]) -> bool:
    return all(one.ground.intersects(other.ground) for one in rings for other in rings)


def _spans(outer: Box, inner: Box) -> bool:
    grown = outer.grown(0.001)
    return (
        grown.left <= inner.left
        and grown.top <= inner.top
        and grown.right >= inner.right
        and grown.bottom >= inner.bottom
    )


def _is_hole(choice: Choice, ring: Ring) -> bool:
    cut = choice.cut
    name = called(ring)
    if name is not None and name.what not in ("cut", "trim"):
        return name.what == "hole"
    if any(label.what == "hole" and means(label, ring, [ring]) for label in choice.page.labels):
        return _is_round_hole(ring)
    large = ring.ground.area > LARGE_SHARE * cut.ring.ground.area
    even = even_gap(cut.ring.box, ring.box) is not None
    if large and even and not _is_other_edge(cut.ring, ring):
        return False  # as a safe zone lies in a card
    if ring.painted & cut.ring.painted:
        return True
    if large or not _is_drawn_as(cut.ring, ring):
        return not large and _is_tag_hole(cut.ring, ring)
    if name is not None and cut.called is not None and name.name == cut.called.name:
        return True
    return _is_round_hole(ring) or _is_window(choice, ring)


def _is_drawn_as(cut: Ring, ring: Ring) -> bool:
    """Returns whether a ring is drawn as the cut is: its colour, its dashes, its width."""
    one, other = cut.look, ring.look
    widths = cut.seen_path.width_in, ring.seen_path.width_in
    return (
        alike(one, other)
        and one.dashed == other.dashed
        and one.stroked == other.stroked
        and math.isclose(*widths, rel_tol=0.1, abs_tol=1e-4)
    )


def _is_window(choice: Choice, ring: Ring) -> bool:
    """Returns whether a ring of any form is cut out: in the colour of the cut, which no type or
    frame is drawn in, and with nothing written in it."""
    rgb = ring.look.rgb
    if rgb is None or max(rgb) - min(rgb) < COLOURED or not ring.look.stroked:
        return False
    words = (words.box.centre for words in choice.page.template.words)
    return not any(_within(ring.box, centre) for centre in words)


def _within(box: Box, place: Point) -> bool:
    return box.left <= place.x <= box.right and box.top <= place.y <= box.bottom


def _is_other_edge(cut: Ring, ring: Ring) -> bool:
    return bool(ring.painted & cut.painted) and ring.ground.area > WHOLE_SHARE * cut.ground.area


def _is_round_hole(ring: Ring) -> bool:
    """Returns whether an outline is a circle as large as holes are drilled."""
    wide, high = ring.size_in
    if abs(wide - high) > ROUND_WITHIN_IN or not HOLE_MIN_IN <= wide <= HOLE_MAX_IN:
        return False
    if (
        any(isinstance(segment, Line) for segment in ring.outline.segments)
        and len(ring.outline.segments) < 12
    ):
        return False
    centre, radius = ring.box.centre, wide / 2
    places = [segment.at(t) for segment in ring.outline.segments for t in (0.0, 0.25, 0.5, 0.75)]
    return all(abs(math.dist(place, centre) - radius) <= ROUND_WITHIN_IN for place in places)


def _is_tag_hole(cut: Ring, ring: Ring) -> bool:
    """Returns whether a circle that looks unlike the cut is a tag's hole all the same: a bare line,
    small, near an edge on a centre line of a small piece."""
    path = ring.seen_path
    if path.stroke is None or (path.fill is not None and not _is_white(path)):
        return False
    if not _is_round_hole(ring) or ring.box.width > TAG_HOLE_MAX_IN:
        return False
    if min(cut.size_in) > TAG_MAX_IN:
        return False
    centre, middle = ring.box.centre, cut.box.centre
    near = cut.ground.boundary.distance(Place(centre)) <= TAG_HOLE_AWAY_IN
    return near and min(abs(centre.x - middle.x), abs(centre.y - middle.y)) <= CENTRED_IN


def _is_white(path: TemplatePath) -> bool:
    rgb = rgb_of(path.fill)
    return rgb is not None and min(rgb) > 0.95


def _inside(cut: BaseGeometry, tip: Point) -> bool:
    return bool(cut.contains(Place(tip)))


def _is_level(start: Point, end: Point) -> bool:
    return min(abs(start.x - end.x), abs(start.y - end.y)) < 0.005
