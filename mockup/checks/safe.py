"""The safe zone, by true offset of the die: what stands too near the cut, what clears it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from mockup.checks.clearing import Clearing, largest_clear
from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.geometry.point import Point
from mockup.reading.marks import Border, Mark
from mockup.trade.tolerances import COMMON, CUT_SHIFT, SAFE, Limit

CHECK = "safe"
BORDER_CHECK = "border"
TOGETHER_IN = 0.12  # judgement: marks nearer than a margin of safety are told as one
ALIGNED_IN = 0.03  # judgement: lines of a paragraph begin alike, less their letters' own bearing
# A tenth of the finest length that is told: a move as told is never refused for its rounding.
TOLD_WITHIN_IN = 1e-4
_WHAT = {"type": "type", "line": "a thin line", "mark": "a mark", "code": "a code"}
_ORDER = ("type", "code", "line", "mark")


@dataclass(frozen=True)
class Clearance:
    """How near a mark comes to the cut, inches, negative where it runs over; and where."""

    value_in: float
    at: Point


def check_safe(context: PageContext) -> list[Finding]:
    """Returns what stands nearer the cut than the safe margin, each with what clears it.

    Ornament over the cut is no fault; where it ends just inside, a note tells how near it comes.
    """
    marks = context.page.marks
    kept = [mark for mark in marks.near if mark.reading != "ornament"]
    ornament = [mark for mark in marks.near if mark.reading == "ornament" and not mark.crossing]
    return [
        *(f for group in _groups(context, kept) if (f := _mark_finding(context, group))),
        *_ornament_finding(context, ornament),
        *(f for border in marks.borders if (f := _border_finding(context, border))),
    ]


def clearance(mark: BaseGeometry, crossing: bool, context: PageContext) -> Clearance:
    """Returns a mark's least distance from the cut and the place on the mark.

    Exact to the outlines; where the mark runs over the cut, minus how far it does.
    """
    zones = context.page.zones
    if not crossing:
        line = shapely.shortest_line(mark, zones.edge)
        (x, y), _ = shapely.get_coordinates(line)
        return Clearance(float(line.length), Point(float(x), float(y)))
    beyond = mark.difference(zones.cut)
    points = shapely.get_coordinates(beyond if not beyond.is_empty else mark)
    signed = zones.signed(points)
    worst = int(np.argmin(signed))
    return Clearance(float(signed[worst]), Point(float(points[worst][0]), float(points[worst][1])))


def clearing(context: PageContext, points: NDArray[np.float64]) -> Clearing | None:
    """Returns the smallest move that brings (n, 2) points clear of the cut by the safe margin; with
    a scale about their middle where no move of them alone does."""
    zones = context.page.zones
    allowed = zones.inside(zones.safe_in - TOLD_WITHIN_IN)
    left, top = points.min(axis=0)
    right, bottom = points.max(axis=0)
    about = Point(float(left + right) / 2, float(top + bottom) / 2)
    return largest_clear(points, allowed, about, context.settings.units)


def _remedy(context: PageContext, points: NDArray[np.float64]) -> str:
    change = clearing(context, points)
    if change is None:
        return "set it anew further in: it does not fit the safe zone at half its size"
    return change.told(context.settings.units)


def _mark_finding(context: PageContext, group: Sequence[Mark]) -> Finding | None:
    measured = [clearance(mark.area, mark.crossing, context) for mark in group]
    worst = min(range(len(group)), key=lambda k: measured[k].value_in)
    mark, least = group[worst], measured[worst]
    if least.value_in > context.settings.safe_in - 2 * TOLD_WITHIN_IN:
        return None  # clear, as far as lengths are told
    limit = Limit(context.settings.safe_in, SAFE.unit, SAFE.source)
    length = context.settings.length
    over = mark.crossing and least.value_in < 0
    how = f"runs over the cut by {length(-least.value_in)}" if over else (
        f"is {length(least.value_in)} from the cut")  # fmt: skip
    message = f"{_named(mark)} {how}{_others(group, mark)}"
    whole = np.concatenate([m.whole for m in group])
    return found(
        CHECK, _severity(context, mark, least, over), context.page.piece.name, message,
        _remedy(context, whole), limit, least.value_in, least.at,
    )  # fmt: skip


def _named(mark: Mark) -> str:
    text = f' "{mark.text}"' if mark.text and mark.kind == "type" else ""
    return f"{_WHAT[mark.kind]}{text}"


def _others(group: Sequence[Mark], mark: Mark) -> str:
    """Returns with how many lines, or in how many places, it is so."""
    more = len(group) - 1 if mark.kind == "type" else 0
    if more:
        return f", with {more} more line{'s' * (more > 1)}"
    return _places(sum(each.places for each in group))


def _places(count: int) -> str:
    return f", in {count} places" if count > 1 else ""


def _severity(context: PageContext, mark: Mark, least: Clearance, over: bool) -> Severity:
    """Returns a stop for what must not be cut: type, a code, a line along the cut, an emblem."""
    cut_off = over and mark.reading == "whole"
    nearly = mark.kind == "type" and least.value_in < context.settings.cut_shift_in
    return Severity.STOP if cut_off or nearly else Severity.WARN


def _groups(context: PageContext, marks: Sequence[Mark]) -> Iterable[Sequence[Mark]]:
    """Yields marks that are told as one: lines of type that are set alike one above the other, and
    drawn marks of one kind close together."""
    for kind in _ORDER:
        own = [mark for mark in marks if mark.kind == kind]
        if not own:
            continue
        bounds = [mark.area.bounds for mark in own]
        reach = [shapely.box(*b).buffer(TOGETHER_IN / 2) for b in bounds]
        merged = shapely.union_all(reach)
        for region in getattr(merged, "geoms", [merged]):
            group = [m for m, r in zip(own, reach, strict=True) if region.intersects(r.centroid)]
            yield from _aligned(context, group) if kind == "type" else [group] if group else []


def _aligned(context: PageContext, lines: Sequence[Mark]) -> list[list[Mark]]:
    """Returns lines of type that come as near the cut as one another together, others alone."""
    groups: list[tuple[float, list[Mark]]] = []
    for line in lines:
        value = clearance(line.area, line.crossing, context).value_in
        same = next((own for at, own in groups if abs(at - value) < ALIGNED_IN), None)
        if same is None:
            groups.append((value, [line]))
        else:
            same.append(line)
    return [own for _, own in groups]


def _ornament_finding(context: PageContext, marks: Sequence[Mark]) -> list[Finding]:
    if not marks:
        return []
    nearest = min((clearance(m.area, False, context) for m in marks), key=lambda c: c.value_in)
    message = f"ornament ends {context.settings.length(nearest.value_in)} inside the cut"
    message += _places(len(marks))
    fix = "nothing, if some of it may be cut; else let it run off, or move it inward"
    limit = Limit(context.settings.safe_in, SAFE.unit, COMMON)
    name = context.page.piece.name
    return [found(CHECK, Severity.NOTE, name, message, fix, limit, nearest.value_in, nearest.at)]


def _border_finding(context: PageContext, border: Border) -> Finding | None:
    """Returns how uneven a border along the cut gets when cutting wanders, where that shows."""
    shift = context.settings.cut_shift_in
    if border.usual_in >= 2 * shift:
        return None
    narrow, wide = border.usual_in - shift, border.usual_in + shift
    (x, y), _ = shapely.get_coordinates(shapely.shortest_line(border.area, context.page.zones.edge))
    cut_off = narrow <= 0
    length = context.settings.length
    message = f"a border runs {length(border.least_in)} inside the cut; " + (
        "a cut that wanders may cut it off"
        if cut_off
        else f"as cutting wanders it may be {length(narrow)} to {length(wide)}"
    )
    limit = Limit(2 * shift, "in", CUT_SHIFT.source)
    return found(
        BORDER_CHECK,
        Severity.WARN if cut_off else Severity.NOTE,
        context.page.piece.name,
        message,
        f"move it to {length(2 * shift)} inside the cut, or let it run off",
        limit,
        border.least_in,
        Point(float(x), float(y)),
    )
