"""Loose runs of segments joined into closed outlines, and the checks a die must pass."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from typing import NoReturn

from shapely import STRtree
from shapely.geometry import MultiPoint, Polygon
from shapely.validation import explain_validity

from mockup.errors import InputError
from mockup.geometry.flatten import ring
from mockup.geometry.measure import signed_area
from mockup.geometry.outline import CLOSED_WITHIN_IN, Line, Outline, Segment, Shape
from mockup.geometry.point import Point
from mockup.units import format_length, format_size
from mockup.vector.template import TemplatePath

JOIN_WITHIN_IN = 0.005  # judgement: far below what a blade follows, far above rounding in files
_SAME_WITHIN_IN = 0.001
_OUTLINED_SHARE = 0.9  # a hole that takes up more is the inner edge of a stroke turned to outlines
_PLACE = re.compile(r"\[([-\d.e+]+) ([-\d.e+]+)\]")


def closed_outlines(name: str, paths: Sequence[TemplatePath]) -> list[Outline]:
    """Returns the closed outlines that paths make, curves untouched, drawn clockwise as seen.

    Open runs whose ends lie within 0.005 in of each other are joined, gaps bridged by a straight
    line. Raises InputError where a run stays open, with the places in inches.
    """
    outlines = [Outline(bridged(path.segments)) for path in paths if path.closed]
    loose = [list(path.segments) for path in paths if not path.closed]
    while loose:
        run = loose.pop()
        while math.dist(run[0].start, run[-1].end) > JOIN_WITHIN_IN or not _has_extent(run):
            following = _next(run[-1].end, loose)
            if following is None:
                _refuse_open(name, run, loose)
            run += following
        outlines.append(Outline(bridged(run)))
    return [clockwise(outline) for outline in outlines if encloses(outline)]


def cut_shape(name: str, outlines: Sequence[Outline]) -> Shape:
    """Returns the one shape outlines make: the outermost, and as holes what lies inside it.

    An outline drawn twice counts once. Raises InputError where there is none, more than one apart,
    or where one crosses itself or another, with the place in inches.
    """
    if not outlines:
        raise InputError(f"{name}: the cut path encloses nothing; draw it as a closed outline")
    flats = [Polygon(ring(outline)) for outline in outlines]
    for flat in flats:
        _refuse_crossing(name, flat)
    kept = _different(flats)
    kept.sort(key=lambda k: flats[k].area, reverse=True)
    outer, inner = kept[0], kept[1:]
    for k in inner:
        if not flats[outer].buffer(_SAME_WITHIN_IN).contains(flats[k]):
            _refuse_second(name, flats[outer], flats[k])
        if flats[k].area > _OUTLINED_SHARE * flats[outer].area:
            raise InputError(
                f"{name}: the cut path is two outlines side by side, a stroke turned to shapes; "
                "save it as a single stroke"
            )
    for a in range(len(inner)):
        for b in range(a):
            if flats[inner[a]].intersects(flats[inner[b]]):
                _refuse_holes(name, flats[inner[b]], flats[inner[a]])
    return Shape(outlines[outer], tuple(outlines[k] for k in inner))


def place(point: Point | tuple[float, float]) -> str:
    """Returns a place on a template's page for a reader: `1.25, 3 in`."""
    return ", ".join(f"{value:.3f}".rstrip("0").rstrip(".") for value in point) + " in"


def bridged(segments: Sequence[Segment]) -> tuple[Segment, ...]:
    """Returns a run closed, gaps between its segments bridged by straight lines."""
    path: list[Segment] = []
    for segment, after in zip(segments, [*segments[1:], segments[0]], strict=True):
        path.append(segment)
        if math.dist(segment.end, after.start) > CLOSED_WITHIN_IN:
            path.append(Line(segment.end, after.start))
    return tuple(path)


def encloses(outline: Outline) -> bool:
    """Returns whether an outline spans an area, even one it winds about both ways."""
    return MultiPoint(ring(outline)).convex_hull.area > 1e-6


def _has_extent(run: list[Segment]) -> bool:
    """Returns whether a run whose ends meet goes anywhere, rather than being a speck."""
    start = run[0].start
    return any(
        math.dist(segment.at(t), start) > JOIN_WITHIN_IN for segment in run for t in (0.5, 1.0)
    )


def _next(end: Point, loose: list[list[Segment]]) -> list[Segment] | None:
    """Takes the loose run that begins or ends nearest to a place, turned to begin there."""
    best: tuple[float, int, bool] | None = None
    for k, run in enumerate(loose):
        for turned, tip in ((False, run[0].start), (True, run[-1].end)):
            gap = math.dist(end, tip)
            if gap <= JOIN_WITHIN_IN and (best is None or gap < best[0]):
                best = (gap, k, turned)
    if best is None:
        return None
    run = loose.pop(best[1])
    return [segment.reversed() for segment in reversed(run)] if best[2] else run


def _refuse_open(name: str, run: list[Segment], loose: list[list[Segment]]) -> NoReturn:
    end, start = run[-1].end, run[0].start
    tips = [tip for other in loose for tip in (other[0].start, other[-1].end)]
    near = min([start, *tips], key=lambda tip: math.dist(end, tip))
    raise InputError(
        f"{name}: the cut path is open at {place(end)} from the top left of the page; "
        f"the next end is {math.dist(end, near):.3f} in away at {place(near)}; close it there"
    )


def _refuse_crossing(name: str, flat: Polygon) -> None:
    if flat.is_valid:
        return
    found = _PLACE.search(explain_validity(flat))
    where = f" at {place((float(found[1]), float(found[2])))}" if found else ""
    raise InputError(
        f"{name}: the cut path crosses itself{where} from the top left of the page; "
        "redraw it as one plain outline"
    )


def _different(flats: list[Polygon]) -> list[int]:
    """Returns the numbers of the polygons, one of each that lie on top of each other."""
    kept: list[int] = []
    tree = STRtree(flats)
    for k, flat in enumerate(flats):
        near = [int(j) for j in tree.query(flat) if int(j) in kept]
        if not any(flat.hausdorff_distance(flats[j]) < _SAME_WITHIN_IN for j in near):
            kept.append(k)
    return kept


def _refuse_second(name: str, first: Polygon, second: Polygon) -> None:
    x, y = second.bounds[:2]
    crosses = first.exterior.intersects(second.exterior)
    what = "crosses the first" if crosses else "lies apart from the first"
    raise InputError(
        f"{name}: the cut path has a second outline that {what}, its top left at "
        f"{place((x, y))}; keep one die a file, or name the layer that holds it"
    )


def _refuse_holes(name: str, larger: Polygon, smaller: Polygon) -> NoReturn:
    """Refuses two holes that share ground: one of them is no hole, or both are one."""
    sizes = [_across(hole) for hole in (larger, smaller)]
    centre = place((smaller.centroid.x, smaller.centroid.y))
    if not larger.contains(smaller):
        raise InputError(
            f"{name}: two holes, {sizes[0]} and {sizes[1]}, overlap near {centre} from the top "
            "left of the page; move one, or join them into one outline"
        )
    raise InputError(
        f"{name}: two rings, {sizes[0]} and {sizes[1]}, lie round one hole at {centre} from the "
        "top left of the page, and only one is cut; take the other out (a washer's edge, a stroke "
        'turned to shapes), or draw it on a layer called "no cut"'
    )


def _across(hole: Polygon) -> str:
    left, top, right, bottom = hole.bounds
    wide, high = right - left, bottom - top
    if abs(wide - high) < JOIN_WITHIN_IN:
        return f"{format_length(wide)} across"
    return format_size(wide, high)


def clockwise(outline: Outline) -> Outline:
    """Returns an outline drawn clockwise as seen."""
    return outline if signed_area(outline) > 0 else outline.reversed()
