"""What a finish cannot hold: lines and gaps too fine, small type, tints, the cut and folds too
near, and what shows on the other side."""

from __future__ import annotations

from collections.abc import Iterator

import shapely
from shapely.geometry.base import BaseGeometry

from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.colour.plates import FinishPlate
from mockup.geometry.flatten import course
from mockup.geometry.point import Point
from mockup.reading.finish_plates import (
    FinishSight,
    Thin,
    finish_sight,
    narrowest_gap,
    near,
    thinnest_line,
    tinted_at,
)
from mockup.reading.type_set import TypeLine, type_set
from mockup.trade.finish_limits import FINISH_LIMITS
from mockup.trade.finishes import Finish
from mockup.trade.tolerances import COMMON, Limit
from mockup.units import format_length

CHECK = "finish"
NEAR_ENOUGH = 0.05  # judgement: a share of a limit, lines are measured no finer
ROUNDING_PT = 0.05  # judgement: what programs round a size of type by
_SAID: dict[Finish, str] = {
    "white": "white ink",
    "foil": "foil",
    "varnish": "spot gloss",
    "letterpress": "letterpress",
    "deboss": "debossing",
    "emboss": "embossing",
}
_FIX_GAP: dict[Finish, str] = {"letterpress": "fills with ink", "foil": "is bridged by foil"}


def check_finish_plates(context: PageContext) -> list[Finding]:
    """Returns what the plates of a page's finishes ask of their trade in vain."""
    sight = finish_sight(context.page)
    lines = type_set(context.page) if sight.plates else []
    return [
        finding
        for plate in sight.plates
        for finding in (
            *_lines(context, sight, plate),
            *_gaps(context, sight, plate, lines),
            *_type(context, plate, lines),
            *_tint(context, sight, plate),
            *_metal(context, plate),
            *_reach(context, sight, plate),
        )
    ]


def named(plate: FinishPlate) -> str:
    """Returns a finish as a finding names it, foil with its metal."""
    metal = f"{plate.metal.replace('-', ' ')} " if plate.metal else ""
    return f"{metal}{_SAID[plate.finish]}"


def _lines(context: PageContext, sight: FinishSight, plate: FinishPlate) -> Iterator[Finding]:
    limit = FINISH_LIMITS[plate.finish].line
    thin = thinnest_line(context.page, sight, plate, limit.value)
    if thin is not None and thin.width_pt < limit.value * (1 - NEAR_ENOUGH):
        message = f"a line of {named(plate)} is only {thin.width_pt:.2f} pt wide"
        fix = f"draw it {limit.value:g} pt or more; ask your printer for their limit"
        yield _thin(context, message, fix, limit, thin)


def _gaps(
    context: PageContext, sight: FinishSight, plate: FinishPlate, lines: list[TypeLine]
) -> Iterator[Finding]:
    limit = FINISH_LIMITS[plate.finish].gap
    of_type = [line.box for line in lines]
    thin = narrowest_gap(context.page, sight, plate, limit.value, of_type)
    if thin is not None and thin.width_pt < limit.value * (1 - NEAR_ENOUGH):
        closes = _FIX_GAP.get(plate.finish, "closes up")
        message = f"a gap in {named(plate)} is only {thin.width_pt:.2f} pt: it {closes}"
        fix = f"leave {limit.value:g} pt or more; ask your printer for their limit"
        yield _thin(context, message, fix, limit, thin)


def _thin(context: PageContext, message: str, fix: str, limit: Limit, thin: Thin) -> Finding:
    name, width = context.page.piece.name, round(thin.width_pt, 2)
    return found(CHECK, Severity.WARN, name, message, fix, limit, width, thin.at)


def _type(context: PageContext, plate: FinishPlate, lines: list[TypeLine]) -> Iterator[Finding]:
    """Yields the smallest type in spot colours of the finish that is under its limit."""
    limit = FINISH_LIMITS[plate.finish].type
    names = {name for name, what in context.page.finishes if what == plate.finish}
    if limit is None:
        return
    small = [
        line
        for line in lines
        if line.ink is not None
        and names & {*line.ink.names}
        and line.size_pt < limit.value - ROUNDING_PT
    ]
    if small:
        least = min(small, key=lambda line: line.size_pt)
        text = f' "{least.text[:30]}"' if least.text else ""
        about = "about " if least.outlined else ""
        message = f"type{text} in {_SAID[plate.finish]} is {about}{least.size_pt:.1f} pt"
        fix = f"set it in {limit.value:g} pt or more, or print it in ink"
        at, size = Point(least.box.left, least.box.top), round(least.size_pt, 2)
        name = context.page.piece.name
        yield found(CHECK, Severity.WARN, name, message, fix, limit, size, at)


def _tint(context: PageContext, sight: FinishSight, plate: FinishPlate) -> Iterator[Finding]:
    at = tinted_at(sight, plate)
    if at is None or plate.finish == "letterpress":
        return
    message = f"{named(plate)} is laid in a tint: it is there in full, or not at all"
    fix = "paint it in 100 % of its spot colour, without a blend or transparency"
    name = context.page.piece.name
    yield Finding(CHECK, Severity.WARN, name, message, fix, at, source=COMMON)


def _metal(context: PageContext, plate: FinishPlate) -> Iterator[Finding]:
    if plate.finish == "foil" and plate.metal is None:
        message = "nothing says which metal or colour the foil is"
        fix = 'write it: finish = [{ as = "foil", metal = "gold" }], or name its spot colour so'
        name = context.page.piece.name
        yield Finding(CHECK, Severity.NOTE, name, message, fix, source=COMMON)


def _reach(context: PageContext, sight: FinishSight, plate: FinishPlate) -> Iterator[Finding]:
    """Yields where a finish comes near the cut, and near a fold."""
    limit = FINISH_LIMITS[plate.finish].reach
    if limit is None:
        return
    page, name = context.page, context.page.piece.name
    told = format_length(limit.value, page.piece.units)
    cut = near(sight, plate, _rim(page.zones.cut, limit.value))
    if cut is not None:
        message = f"{named(plate)} comes within {told} of the cut: it may crack there, or be cut"
        fix = f"keep it {told} inside the cut, or ask whether they run it over the edge"
        yield found(CHECK, Severity.WARN, name, message, fix, limit, None, cut)
    for fold in page.piece.die.folds:
        line = shapely.LineString(course(fold))
        at = near(sight, plate, line.buffer(limit.value))
        if at is not None:
            message = f"{named(plate)} comes within {told} of a fold: it cracks when it is folded"
            fix = f"keep it {told} clear of the fold"
            yield found(CHECK, Severity.WARN, name, message, fix, limit, None, at)
            return


def _rim(cut: BaseGeometry, width_in: float) -> BaseGeometry:
    """Returns what lies within a distance of a cut, on the card."""
    return cut.difference(cut.buffer(-width_in))
