"""Lines round the card, by how they run: one stroke, a stroke's outline, or many pieces of one pen.

A line that is dashed in some programs comes out as pieces; a die that was broken up does too.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LineString, Polygon

from mockup.artwork.inspection import Ink, Painted, Ring
from mockup.geometry.point import Box
from mockup.reading.die_zones import DieZones
from mockup.reading.lines import line_width_pt
from mockup.reading.part import densified
from mockup.units import PT_PER_INCH

Along = Literal["die", "trim"]
Points = NDArray[np.float64]

FOLLOWS_WITHIN_IN = 0.012  # judgement: a line redrawn by hand wanders less; a drawn edge more
FOLLOWS_SHARE = 0.8  # judgement: a line broken by tabs or a corner of its own still follows
EXACT_WITHIN_IN = 0.004  # judgement: an offset reckoned by a program is nearer
EXACT_SHARE = 0.98  # judgement: corners that are rounded take more
ROUND_SHARE = 0.8  # judgement: of the way round; corner ornaments cover less
STEP_IN = 0.03  # judgement: a line's sides are asked so often; scallops are wider
GAP_IN = 0.15  # judgement: a wider gap than that between dashes is one in the line
LOOK_IN = 0.06  # judgement: the way round is looked at so often
SPAN = 0.7  # judgement: share of the card's sides that a line round it spans, arches included
PIECES_APART_IN = 0.008  # judgement: lines this near each other are read as one, in pieces
DEEPEST_IN = 0.6  # judgement: pieces further inside are a drawing's, not a line round the card
THICKEST_PT = 4.0  # judgement: borders are drawn thicker, a template's lines never so thick
MOST_PIECES = 800  # judgement: of more lines of one pen near the rim, an engraving is made
DASHES = 16  # judgement: a line of so many short pieces is one that was dashed
DASH_IN = 0.4  # judgement: dashes are shorter
SHIFTED_IN = 0.04  # judgement: a template placed by eye is nearer; a border is further off
SAME_SIZE_IN = 0.008  # judgement: half a point; a shifted line still has the die's size

Pen = tuple[object, float, str | None]


@dataclass(frozen=True)
class Course:
    """What makes up one line, and its pen: ink, width in points, layer. `dashed` by pen or pieces;
    `points` are (n, 2) card inches along it, close together."""

    painted: tuple[Painted, ...]
    points: Points
    ink: Ink | None
    width_pt: float
    dashed: bool

    @cached_property
    def pen(self) -> tuple[object, float]:
        """Ink and width, to tell one pen from another."""
        return ink_key(self.ink), round(self.width_pt, 1)

    @property
    def box(self) -> Box:
        """The box of its middle line."""
        (left, top), (right, bottom) = self.points.min(axis=0), self.points.max(axis=0)
        return Box(float(left), float(top), float(right), float(bottom))


@dataclass(frozen=True)
class Follows:
    """How a course runs: along the die or the trim's rectangle, how far inside, inches, negative
    outside; `shift_in` is how far it lies beside its place as a whole; `exactly` where it keeps its
    distance all along, corners included."""

    course: Course
    along: Along
    usual_in: float
    shift_in: tuple[float, float] = (0.0, 0.0)
    exactly: bool = False


def following(painted: Sequence[Painted], zones: DieZones) -> list[Follows]:
    """Returns the lines among marks that run round the card along its die, its trim, or an equal
    offset of either."""
    found: list[Follows] = []
    pens: dict[Pen, list[Painted]] = {}
    for each in painted:
        width_pt = line_width(each)
        if width_pt is None:
            continue
        if _spans(each.box, zones):
            follows = _one(_course([each], width_pt), zones)
            if follows is not None:
                found.append(follows)
                continue
        if each.pen is None and len(each.rings) > 1:
            continue  # a letter's outline, or a small drawing's
        pens.setdefault((ink_key(each.ink), round(width_pt, 1), each.layer), []).append(each)
    for (_, width_pt, _), own in pens.items():
        near = _near_the_rim(own, zones) if len(own) > 1 else []
        if 1 < len(near) <= MOST_PIECES and _spans(_around(near), zones):
            found += _in_pieces(near, width_pt, zones)
    return found


def _near_the_rim(painted: Sequence[Painted], zones: DieZones) -> list[Painted]:
    """Returns the marks that do not lie wholly in the middle of the card."""
    boxes = shapely.box(*np.array([each.box for each in painted]).T)
    calm = shapely.contains_properly(zones.inside(DEEPEST_IN), boxes)
    return [each for each, is_calm in zip(painted, calm, strict=True) if not is_calm]


def line_width(painted: Painted) -> float | None:
    """Returns the width in points of a stroke, or of a fill that is a line's outline; None for what
    is no line or is thicker than a template's."""
    if painted.kind != "path":
        return None
    width_pt = painted.pen.width_in * PT_PER_INCH if painted.pen else _thickness_pt(painted)
    return width_pt if width_pt is not None and width_pt <= THICKEST_PT else None


def ink_key(ink: Ink | None) -> object:
    """Returns what two marks of one ink share: numbers that programs rounded are the same."""
    if ink is None:
        return None
    return ink.space, tuple(round(value, 2) for value in ink.values), ink.names


def from_trim(points: Points, card: Box) -> Points:
    """Returns distances of (n, 2) points from the trim's rectangle, positive inside, inches."""
    x, y = points.T
    return np.min([x - card.left, card.right - x, y - card.top, card.bottom - y], axis=0)


def _thickness_pt(painted: Painted) -> float | None:
    """Returns how thick a fill is that is thin everywhere: area over half its outline's length."""
    if len(painted.rings) < 2:
        return line_width_pt(painted)
    areas = np.array([_signed_area(ring) for ring in painted.rings])
    length = sum(float(np.hypot(*np.diff(ring, axis=0).T).sum()) for ring in painted.rings)
    within = np.sort(np.abs(areas))
    net = within[-1] - within[:-1].sum() if painted.even_odd else abs(areas.sum())
    return float(2 * abs(net) / length * PT_PER_INCH) if length else None


def _signed_area(ring: Ring) -> float:
    x, y = (ring - ring[0]).T
    return float((x * np.roll(y, -1) - np.roll(x, -1) * y).sum() / 2)


def _course(painted: Sequence[Painted], width_pt: float) -> Course:
    rings: list[Ring] = [ring for each in painted for ring in each.rings]
    points = np.concatenate([densified(ring, STEP_IN) for ring in rings])
    dashed = any(each.pen is not None and each.pen.dashes for each in painted)
    if not dashed and len(rings) >= DASHES:
        sides = [np.ptp(ring, axis=0).max() for ring in rings]
        dashed = float(np.median(sides)) < DASH_IN
    return Course(tuple(painted), points, painted[0].ink, width_pt, dashed)


def _one(course: Course, zones: DieZones) -> Follows | None:
    """Returns how a single mark runs, as it lies, or moved to its place."""
    return _straight(course, zones) or _shifted(course, zones)


def _straight(course: Course, zones: DieZones) -> Follows | None:
    # The outline of a line runs half its width to either side of where the line ran.
    half_in = 0.0 if course.painted[0].pen else course.width_pt / PT_PER_INCH / 2
    for along, signed in _distances(course.points, zones):
        usual = float(np.median(signed))
        if half_in:
            usual = (float(signed.min()) + float(signed.max())) / 2
        off = np.abs(signed - usual) - half_in
        share = (off < FOLLOWS_WITHIN_IN).mean()
        if share >= FOLLOWS_SHARE and _goes_round(course.points, along, usual, zones):
            exactly = bool((off < EXACT_WITHIN_IN).mean() >= EXACT_SHARE)
            return Follows(course, along, usual, exactly=exactly)
    return None


def _shifted(course: Course, zones: DieZones) -> Follows | None:
    """Returns a line of the die's own size that lies a little beside it as following it."""
    box, card = course.box, zones.card
    wide, high = abs(box.width - card.width), abs(box.height - card.height)
    if max(wide, high) > SAME_SIZE_IN or course.painted[0].pen is None:
        return None
    dx, dy = box.centre.x - card.centre.x, box.centre.y - card.centre.y
    if np.hypot(dx, dy) > SHIFTED_IN:
        return None
    back = Course(course.painted, course.points - (dx, dy), course.ink, course.width_pt, False)
    found = _straight(back, zones)
    return found and Follows(course, found.along, found.usual_in, (dx, dy))


def _in_pieces(painted: list[Painted], width_pt: float, zones: DieZones) -> list[Follows]:
    """Returns the lines that pieces of one pen make together, as they lie or moved to their
    place."""
    even = _equally_far(painted, zones)
    found = _clustered(even, width_pt, zones) if len(even) > 1 else []
    if found:
        return found
    near = [each for each in painted if _is_by_the_trim(each, zones)]
    beside = _shifted(_course(near, width_pt), zones) if len(near) > 1 else None
    return [beside] if beside is not None else []


def _equally_far(painted: list[Painted], zones: DieZones) -> list[Painted]:
    """Returns the pieces whose ends and middle are equally far inside the die or the trim."""
    some = [each.rings[0][[0, len(each.rings[0]) // 2, -1]] for each in painted]
    able = np.zeros(len(painted), bool)
    for _, signed in _distances(np.concatenate(some), zones):
        able |= np.ptp(signed.reshape(-1, 3), axis=1) < 2 * FOLLOWS_WITHIN_IN
    return [each for each, is_able in zip(painted, able, strict=True) if is_able]


def _clustered(painted: list[Painted], width_pt: float, zones: DieZones) -> list[Follows]:
    points = [np.concatenate([densified(r, STEP_IN) for r in each.rings]) for each in painted]
    ends = np.cumsum([len(each) for each in points])
    found: list[Follows] = []
    for along, signed in _distances(np.concatenate(points), zones):
        own = np.split(signed, ends[:-1])
        usual = np.array([np.median(each) for each in own])
        off = np.array([np.abs(s - u).max() for s, u in zip(own, usual, strict=True)])
        able = (off < FOLLOWS_WITHIN_IN) & (np.abs(usual) < DEEPEST_IN)
        for cluster in _clusters(usual, able):
            course = _course([painted[k] for k in cluster], width_pt)
            middle = float(np.median(usual[cluster]))
            if _goes_round(course.points, along, middle, zones):
                found.append(Follows(course, along, middle, exactly=True))
        if found:
            break
    return found


def _is_by_the_trim(painted: Painted, zones: DieZones) -> bool:
    """Returns whether a piece runs about where the trim does."""
    away = [np.abs(from_trim(ring, zones.card)).max() for ring in painted.rings]
    return max(away) < SHIFTED_IN


def _clusters(usual: NDArray[np.float64], able: NDArray[np.bool_]) -> Iterable[NDArray[np.int64]]:
    """Returns groups of pieces that run equally far inside."""
    order = np.flatnonzero(able)
    order = order[np.argsort(usual[order])]
    if not len(order):
        return []
    steps = np.flatnonzero(np.diff(usual[order]) > PIECES_APART_IN) + 1
    return [each for each in np.split(order, steps) if len(each) > 1]


def _distances(points: Points, zones: DieZones) -> list[tuple[Along, NDArray[np.float64]]]:
    from_die = zones.signed(points)
    return [("die", from_die), ("trim", from_trim(points, zones.card))]


def _goes_round(points: Points, along: Along, usual_in: float, zones: DieZones) -> bool:
    """Returns whether points lie all round the card, but for gaps as dashes leave them."""
    line = _at(along, usual_in, zones)
    if line.is_empty:
        return False
    count = max(8, int(line.length / LOOK_IN))
    away = np.linspace(0, line.length, count)
    places = np.asarray(shapely.line_interpolate_point(line, away), np.object_)
    tree = shapely.STRtree(np.asarray(shapely.points(points), np.object_))
    near = tree.query_nearest(places, max_distance=GAP_IN, all_matches=False)[0]
    return len(np.unique(near)) >= ROUND_SHARE * count


def _at(along: Along, usual_in: float, zones: DieZones) -> LineString:
    """Returns the outer line so far inside the die or the trim's rectangle."""
    if along == "trim":
        return shapely.box(*zones.card.grown(-usual_in)).exterior
    # The holes of a die have lines of their own.
    whole = Polygon(zones.cut.exterior)
    made = whole.buffer(-usual_in) if usual_in else whole
    return made.exterior if made.geom_type == "Polygon" else LineString()


def _spans(box: Box, zones: DieZones) -> bool:
    card = zones.card
    return box.width > SPAN * card.width and box.height > SPAN * card.height


def _around(painted: Sequence[Painted]) -> Box:
    boxes = np.array([each.box for each in painted])
    low, high = boxes[:, :2].min(axis=0), boxes[:, 2:].max(axis=0)
    return Box(float(low[0]), float(low[1]), float(high[0]), float(high[1]))
