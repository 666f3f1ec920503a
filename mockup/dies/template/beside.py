"""What is cut, folded and minded with a cut: its holes, its folds, its bleed and its safe zone."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from shapely.geometry import LineString

from mockup.dies.template.choosing import Choice
from mockup.dies.template.evidence import Page
from mockup.dies.template.legend import means
from mockup.dies.template.looks import alike
from mockup.dies.template.naming import called, path_called
from mockup.dies.template.nests import BLEED_MAX_IN, SAFE_MAX_IN, even_gap, nested
from mockup.dies.template.rings import Ring, lines_of
from mockup.geometry.outline import Line, Outline, Segment
from mockup.geometry.point import Box, Point
from mockup.trade.vocabulary import Meaning
from mockup.vector.template import TemplatePath

HOLE_MIN_IN, HOLE_MAX_IN = 0.055, 1.05  # common practice, no source: drills of 1/16 to 1 in
BARE_HOLE_MAX_IN = 0.55  # judgement: a circle that nothing names, larger than that, is drawn art
ROUND_WITHIN_IN = 0.003  # judgement: a circle of four cubics strays a thousandth of its radius
CENTRED_IN = 0.03  # judgement: holes stand on a centre line of the card, but for rounding
WHOLE_SHARE = 0.9  # what takes up more of the cut is its other edge, a stroke turned to shapes
_FOLD_TOUCHES_IN = 0.03  # judgement: a fold ends at the cut, or beyond it
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
        if ring.ground.area < cut.ground.area and ground.contains(ring.ground):
            if _is_hole(choice, ring):
                found.append(ring.outline)
    return found


def folds_of(choice: Choice) -> tuple[tuple[Segment, ...], ...]:
    """Returns the lines a cut is folded along: named so, or straight from edge to edge of it."""
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
        name = path_called(path)
        if name is not None and name.what not in _FOLDS:
            continue
        if edge.distance(course.intersection(edge.buffer(_FOLD_TOUCHES_IN))) > _FOLD_TOUCHES_IN:
            continue
        across = all(
            edge.distance(LineString([tip, tip])) <= _FOLD_TOUCHES_IN or not _inside(cut, tip)
            for tip in (start, end)
        )
        if across and (name is not None or _is_level(start, end)):
            found.append(path.segments)
    return tuple(found)


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
    found = named or [
        each.ring for each in others if each.role is None and lies(each.ring) and even(each.ring)
    ]
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
    if name is not None and name.what == "hole":
        return True
    if name is not None and name.what not in ("cut", "trim"):
        return False
    if any(label.what == "hole" and means(label, ring, [ring]) for label in choice.page.labels):
        return _is_round_hole(ring)
    large = ring.ground.area > 0.3 * cut.ring.ground.area
    if large and even_gap(cut.ring.box, ring.box) is not None and not _is_other_edge(cut.ring, ring):
        return False  # as a safe zone lies in a card
    if ring.painted & cut.ring.painted:
        return True
    if any(each.ring is ring or each.ring.outline == ring.outline for each in choice.candidates):
        return name is not None and cut.called is not None and name == cut.called and not large
    same = alike(ring.look, cut.ring.look) and ring.look.dashed == cut.ring.look.dashed
    if name is not None and cut.called is not None and name.name == cut.called.name and same:
        return True
    if not _is_round_hole(ring):
        return False
    return same or _is_bare_hole(choice.page, cut.ring, ring)


def _is_other_edge(cut: Ring, ring: Ring) -> bool:
    return bool(ring.painted & cut.painted) and ring.ground.area > WHOLE_SHARE * cut.ground.area


def _is_round_hole(ring: Ring) -> bool:
    """Returns whether an outline is a circle as large as holes are drilled."""
    wide, high = ring.size_in
    if abs(wide - high) > ROUND_WITHIN_IN or not HOLE_MIN_IN <= wide <= HOLE_MAX_IN:
        return False
    if any(isinstance(segment, Line) for segment in ring.outline.segments) and len(ring.outline.segments) < 12:
        return False
    centre, radius = ring.box.centre, wide / 2
    places = [
        segment.at(t) for segment in ring.outline.segments for t in (0.0, 0.25, 0.5, 0.75)
    ]
    return all(abs(math.dist(place, centre) - radius) <= ROUND_WITHIN_IN for place in places)


def _is_bare_hole(page: Page, cut: Ring, ring: Ring) -> bool:
    """Returns whether a circle that looks unlike the cut is a hole all the same: only a line, small,
    alone, on a centre line of the card."""
    path = ring.paths[0]
    if path.stroke is None or (path.fill is not None and not _is_white(path)):
        return False
    if ring.box.width > BARE_HOLE_MAX_IN:
        return False
    centre, middle = ring.box.centre, cut.box.centre
    return min(abs(centre.x - middle.x), abs(centre.y - middle.y)) <= CENTRED_IN


def _is_white(path: TemplatePath) -> bool:
    from mockup.dies.template.looks import rgb_of

    rgb = rgb_of(path.fill)
    return rgb is not None and min(rgb) > 0.95


def _inside(cut: object, tip: Point) -> bool:
    from shapely.geometry import Point as Place

    return bool(cut.contains(Place(tip)))  # type: ignore[attr-defined]


def _is_level(start: Point, end: Point) -> bool:
    return min(abs(start.x - end.x), abs(start.y - end.y)) < 0.005
