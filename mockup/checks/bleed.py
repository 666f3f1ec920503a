"""Bleed: wherever art crosses the cut, does it go on far enough beyond it?

Read from the picture of the page, along lines that leave the cut at right angles: where ink lies
at the cut, how far out does it reach before the paper shows? Only an end that runs along the cut
is a fault; a dot or a leaf that ends where it ends is not.
"""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Point as GeometryPoint

from mockup.checks.bleed_edges import ShortBleed, is_repeated
from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.checks.parts import ink_area
from mockup.geometry.point import Point
from mockup.trade.tolerances import BLEED, BLEED_METRIC, COMMON, Limit

CHECK = "bleed"
JUST_BESIDE_IN = 0.02
SHORT_BY_IN = 0.003


def check_bleed(context: PageContext) -> list[Finding]:
    """Returns where art that crosses the cut does not reach the bleed's end."""
    short = [*_short_by_picture(context), *context.short_ends.values()]
    short = [s for s in short if not (is_repeated(context, s) or _at_left_in(context, s))]
    findings: list[Finding] = []
    for reach, group in _by_reach(short):
        worst = min(group, key=lambda s: s.reach_in)
        along = sum(s.along_in for s in group)
        findings.append(_finding(context, reach, worst, along))
    return findings


def _at_left_in(context: PageContext, stretch: ShortBleed) -> bool:
    """Returns whether a stretch is the end of a line left in by mistake, told elsewhere."""
    end = GeometryPoint(stretch.end)
    return any(
        ink_area(ring, painted).distance(end) < JUST_INSIDE_IN
        for painted in context.left_in
        for ring in painted.rings
    )


def _finding(context: PageContext, reach_in: float, worst: ShortBleed, along_in: float) -> Finding:
    wanted = context.piece.bleed_in
    paper_shows = reach_in < context.settings.cut_shift_in
    if reach_in < -SHORT_BY_IN:
        message = f"art stops {-reach_in:.3f} in before the cut: a line of paper will show"
    elif reach_in < SHORT_BY_IN:
        message = "art stops at the cut: it has no bleed"
    else:
        message = f"art goes {reach_in:.3f} in beyond the cut"
    message += f", along {along_in:.1f} in of it"
    if abs(reach_in - BLEED_METRIC.value) < 0.004 and abs(wanted - BLEED.value) < 0.004:
        message += "; 3 mm is 0.118 in, not 1/8 in"
    fix = f"extend the art by {wanted - reach_in:.3f} in there, to {wanted:.3f} in beyond the cut"
    return found(
        CHECK,
        Severity.STOP if paper_shows else Severity.WARN,
        context.piece.name,
        message,
        fix,
        Limit(wanted, "in", COMMON),
        reach_in,
        worst.at,
    )


def _by_reach(short: list[ShortBleed]) -> list[tuple[float, list[ShortBleed]]]:
    """Returns stretches that end equally far from the cut together: one mistake, one finding."""
    groups: list[list[ShortBleed]] = []
    for stretch in sorted(short, key=lambda s: s.reach_in):
        if groups and stretch.reach_in - groups[-1][0].reach_in < 0.008:
            groups[-1].append(stretch)
        else:
            groups.append([stretch])
    return [(min(s.reach_in for s in group), group) for group in groups]
