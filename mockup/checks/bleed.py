"""Bleed: wherever art crosses the cut, does it go on far enough beyond it?"""

from __future__ import annotations

from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.reading.bleed_edges import ShortBleed
from mockup.trade.tolerances import BLEED, BLEED_METRIC, COMMON, Limit

CHECK = "bleed"
SHORT_BY_IN = 0.003  # judgement: under a pixel at 300 to the inch, art stops at the cut
METRIC_WITHIN_IN = 0.004  # judgement: tells 3 mm from 1/8 in, 0.007 in apart
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
    if reach_in < -SHORT_BY_IN:
        message = f"art stops {-reach_in:.3f} in before the cut: a line of paper will show"
    elif reach_in < SHORT_BY_IN:
        message = "art stops at the cut: it has no bleed"
    else:
        message = f"art goes {reach_in:.3f} in beyond the cut"
    message += f", along {along_in:.1f} in of it"
    if (
        abs(reach_in - BLEED_METRIC.value) < METRIC_WITHIN_IN
        and abs(wanted - BLEED.value) < METRIC_WITHIN_IN
    ):
        message += "; 3 mm is 0.118 in, not 1/8 in"
    fix = f"extend the art by {wanted - reach_in:.3f} in there, to {wanted:.3f} in beyond the cut"
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
