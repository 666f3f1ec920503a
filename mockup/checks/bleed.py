"""Bleed: wherever art crosses the cut, does it go on far enough beyond it?"""

from __future__ import annotations

from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.checks.size import BLEED_WITHIN_IN, CENTRED_WITHIN_IN
from mockup.reading.bleed_edges import ShortBleed
from mockup.trade.tolerances import BLEED, BLEED_METRIC, COMMON, Limit

CHECK = "bleed"
SHORT_BY_IN = 0.003  # judgement: under a pixel at 300 to the inch, art stops at the cut
METRIC_WITHIN_IN = 0.002  # judgement: tells 3 mm from 1/8 in, 0.007 in apart
TOGETHER_IN = 0.008  # judgement: two pixels and a half; ends nearer alike are one mistake


def check_bleed(context: PageContext) -> list[Finding]:
    """Returns where art that crosses the cut does not reach the bleed's end."""
    findings: list[Finding] = []
    for reach, group in _by_reach(context.page.short_stretches):
        worst = min(group, key=lambda s: s.reach_in)
        along = sum(s.along_in for s in group)
        findings.append(_finding(context, reach, worst, along))
    return findings


def _finding(context: PageContext, reach_in: float, worst: ShortBleed, along_in: float) -> Finding:
    wanted = context.page.piece.bleed_in
    paper_shows = reach_in < context.settings.cut_shift_in
    length = context.settings.length
    if reach_in < -SHORT_BY_IN:
        message = f"art stops {length(-reach_in)} before the cut: a strip of paper will show"
    elif reach_in < SHORT_BY_IN:
        message = "art stops at the cut: it has no bleed"
    else:
        message = f"art goes {length(reach_in)} beyond the cut"
    message += f", along {length(round(along_in, 1))} of it"
    if (
        abs(reach_in - BLEED_METRIC.value) < METRIC_WITHIN_IN
        and abs(wanted - BLEED.value) < METRIC_WITHIN_IN
    ):
        message += "; 3 mm is 0.118 in, not 1/8 in"
    fix = f"extend it there by {length(wanted - reach_in)}, to {length(wanted)} beyond the cut"
    if max(map(abs, context.page.off_centre)) > CENTRED_WITHIN_IN:
        fix += "; the art is off the middle of its page: centre it"
    elif context.page.bleed_on_page < wanted - BLEED_WITHIN_IN:
        fix += "; the page itself ends there: save it with its bleed"
    return found(
        CHECK,
        Severity.STOP if paper_shows else Severity.WARN,
        context.page.piece.name,
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
        if groups and stretch.reach_in - groups[-1][0].reach_in < TOGETHER_IN:
            groups[-1].append(stretch)
        else:
            groups.append([stretch])
    return [(min(s.reach_in for s in group), group) for group in groups]
