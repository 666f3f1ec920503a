"""The safe zone, by true offset of the die: what stands too near the cut, what clears it."""

from __future__ import annotations

from collections.abc import Sequence
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
from mockup.trade.tolerances import CUT_SHIFT, SAFE, Limit

CHECK = "safe"
BORDER_CHECK = "border"
DEEP_IN = 0.5  # judgement: art so far inside the safe zone seldom decides how far all has to move
TOGETHER_IN = 0.12  # judgement: marks nearer than a margin of safety are told as one
_WHAT = {"type": "type", "line": "a thin line", "mark": "a mark"}


@dataclass(frozen=True)
class Clearance:
    """How near a mark comes to the cut, inches, negative where it runs over; and where."""

    value_in: float
    at: Point


def check_safe(context: PageContext) -> list[Finding]:
    """Returns what stands nearer the cut than the safe margin, with what clears all of it."""
    marks = context.page.marks
    if not marks.near and not marks.borders:
        return []
    fix = _fix(context) if marks.near else ""
    findings = [_mark_finding(context, group, fix) for group in _groups(marks.near)]
    return [*findings, *(f for b in marks.borders if (f := _border_finding(context, b)))]


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


def clearing(context: PageContext) -> Clearing | None:
    """Returns the largest scale and shift that clear the cut by the safe margin, checked again."""
    zones = context.page.zones
    # A hair inside the zone, so that flattening the curves cannot leave anything outside it.
    allowed = zones.inside(zones.safe_in + 0.0002)
    points, about = context.page.marks.points, zones.shape.box.centre
    deep = zones.inside(zones.safe_in + DEEP_IN)
    rim = points[~shapely.contains_xy(deep, points[:, 0], points[:, 1])]
    change = largest_clear(rim, allowed, about)
    if change is not None and not _clears(change, points, allowed):
        change = largest_clear(points, allowed, about)  # what lies deep came into it after all
    assert change is None or _clears(change, points, allowed)
    return change


def _clears(change: Clearing, points: NDArray[np.float64], allowed: BaseGeometry) -> bool:
    moved = change.moved(points)
    roomy = allowed.buffer(1e-5)
    shapely.prepare(roomy)
    return bool(shapely.contains_xy(roomy, moved[:, 0], moved[:, 1]).all())


def _fix(context: PageContext) -> str:
    change = clearing(context)
    if change is None:
        return "move it inward by hand: no scale of 50 % or more clears everything"
    return f"{change.told()}: then everything clears the cut by {context.page.zones.safe_in:.3f} in"


def _mark_finding(context: PageContext, group: Sequence[Mark], fix: str) -> Finding:
    measured = [clearance(mark.area, mark.crossing, context) for mark in group]
    worst = min(range(len(group)), key=lambda k: measured[k].value_in)
    mark, least = group[worst], measured[worst]
    limit = Limit(context.settings.safe_in, SAFE.unit, SAFE.source)
    text = f' "{mark.text[:40]}"' if mark.text and mark.kind == "type" else ""
    what = f"{_WHAT[mark.kind]}{text}"
    over = mark.crossing and least.value_in < 0
    if over:
        message = f"{what} runs over the cut by {-least.value_in:.3f} in"
    else:
        message = f"{what} is {least.value_in:.3f} in from the cut"
    severe = over or (mark.kind == "type" and least.value_in < context.settings.cut_shift_in)
    severity = Severity.STOP if severe else Severity.WARN
    return found(
        CHECK, severity, context.page.piece.name, message, fix, limit, least.value_in, least.at
    )


def _groups(marks: Sequence[Mark]) -> list[list[Mark]]:
    """Returns marks of one kind that stand close together, as one group each."""
    groups: list[list[Mark]] = []
    for kind in ("type", "line", "mark"):
        own = [mark for mark in marks if mark.kind == kind]
        if not own:
            continue
        reach = [shapely.box(*mark.area.bounds).buffer(TOGETHER_IN / 2) for mark in own]
        merged = shapely.union_all(reach)
        for region in getattr(merged, "geoms", [merged]):
            together = [m for m, r in zip(own, reach, strict=True) if region.intersects(r.centroid)]
            if together:
                groups.append(together)
    return groups


def _border_finding(context: PageContext, border: Border) -> Finding | None:
    """Returns how uneven a border along the cut gets when cutting wanders, where that shows."""
    shift = context.settings.cut_shift_in
    if border.usual_in >= 2 * shift:
        return None
    narrow, wide = border.usual_in - shift, border.usual_in + shift
    (x, y), _ = shapely.get_coordinates(shapely.shortest_line(border.area, context.page.zones.edge))
    cut_off = narrow <= 0
    message = f"a border runs {border.least_in:.3f} in inside the cut; " + (
        "a cut that wanders may cut it off"
        if cut_off
        else f"as cutting wanders it may be {narrow:.3f} to {wide:.3f} in"
    )
    limit = Limit(2 * shift, "in", CUT_SHIFT.source)
    return found(
        BORDER_CHECK,
        Severity.WARN if cut_off else Severity.NOTE,
        context.page.piece.name,
        message,
        f"move it to {2 * shift:.3f} in inside the cut, or let it run off",
        limit,
        border.least_in,
        Point(float(x), float(y)),
    )
