"""The die itself: holes too near its edge, slots and necks too fine to cut in this stock."""

from __future__ import annotations

import shapely

from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.dies.features import Feature, features
from mockup.geometry.point import Point
from mockup.trade.tolerances import CALIPERS_A_SLOT, COMMON, SMALLEST_SLOT, TEARS, Limit
from mockup.units import MIL_PER_INCH

CHECK = "die"


def check_die(context: PageContext) -> list[Finding]:
    """Returns where the die cannot be cut well in this stock."""
    return [*_holes(context), *_narrow(context)]


def _holes(context: PageContext) -> list[Finding]:
    """Returns holes nearer the outer cut, or one another, than rules of a steel die can stand."""
    cut, name = context.page.zones.cut, context.page.piece.name
    holes = [shapely.Polygon(hole) for hole in cut.interiors]
    length = context.settings.length
    findings: list[Finding] = []
    for k, hole in enumerate(holes):
        for other in (cut.exterior, *(h.exterior for h in holes[:k])):
            line = shapely.shortest_line(hole.exterior, other)
            if line.length >= SMALLEST_SLOT.value:
                continue
            x, y = shapely.get_coordinates(line)[0]
            message = f"a hole is {length(line.length)} from another cut: it may tear out"
            fix = f"move it {length(SMALLEST_SLOT.value - line.length)} inward, or make it smaller"
            severity = Severity.STOP if line.length < TEARS.value else Severity.WARN
            place = Point(float(x), float(y))
            findings.append(
                found(CHECK, severity, name, message, fix, SMALLEST_SLOT, line.length, place)
            )
    return findings


def _narrow(context: PageContext) -> list[Finding]:
    """Returns slots and necks too narrow for a steel rule, or for the thickness of the stock."""
    measured = features(context.page.piece.die.shape)
    thick_in = CALIPERS_A_SLOT * context.page.piece.stock.caliper_mil / MIL_PER_INCH
    limit = SMALLEST_SLOT if thick_in <= SMALLEST_SLOT.value else Limit(thick_in, "in", COMMON)
    named = (("slot", measured.slot), ("neck", measured.neck))
    return [
        _narrow_finding(context, name, feature, limit)
        for name, feature in named
        if feature is not None and feature.width_in < limit.value
    ]


def _narrow_finding(context: PageContext, name: str, feature: Feature, limit: Limit) -> Finding:
    length = context.settings.length
    message = f"the die has a {name} {length(feature.width_in)} wide"
    if limit is not SMALLEST_SLOT:
        message += f", narrow for stock {context.page.piece.stock.caliper_mil:g} mil thick"
    fix = f"widen it to {length(limit.value)}, or ask the die maker"
    return found(
        CHECK,
        Severity.WARN,
        context.page.piece.name,
        message,
        fix,
        limit,
        feature.width_in,
        feature.at,
    )
