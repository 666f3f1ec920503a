"""Type that is hard to read on what is behind it, by the contrast rule of screens, as advice."""

from __future__ import annotations

from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.checks.whites import is_white
from mockup.geometry.point import Point
from mockup.reading.type_contrast import Standing, standing_of
from mockup.trade.tolerances import CONTRAST_LARGE, CONTRAST_SMALL, LARGE_TYPE_PT

CHECK = "contrast"
BARE = 1.15  # judgement: white type with less is on bare paper, which is told as that


def check_legibility(context: PageContext) -> list[Finding]:
    """Returns the palest small type: a warning where large type would be hard to read as well, a
    note where only the rule for small type is missed. Large type is not judged: it is seen."""
    lines = [
        each
        for each in standing_of(context.page, CONTRAST_SMALL.value, LARGE_TYPE_PT)
        if not _is_bare_white(context, each)
    ]
    lost = [each for each in lines if each.contrast < CONTRAST_LARGE.value]
    pale = [each for each in lines if each.contrast >= CONTRAST_LARGE.value]
    findings = [_finding(context, lost, Severity.WARN)] if lost else []
    return findings + ([_finding(context, pale, Severity.NOTE)] if pale else [])


def _is_bare_white(context: PageContext, each: Standing) -> bool:
    inks = (context.page.parts.all[k].painted.ink for k in each.line.members)
    return each.contrast < BARE and all(is_white(ink) for ink in inks)


def _finding(context: PageContext, lines: list[Standing], severity: Severity) -> Finding:
    worst = lines[0]
    said = f' "{worst.line.text}"' if worst.line.text else ""
    more = f", and {len(lines) - 1} more lines" if len(lines) > 2 else ""
    more = ", and 1 more line" if len(lines) == 2 else more
    message = (
        f"type{said} of about {worst.size_pt:.0f} pt has a contrast of {worst.contrast:.1f} to 1 "
        f"as printed{more}: hard to read"
    )
    fix = f"make it darker, its ground paler, or set it in {LARGE_TYPE_PT:.0f} pt or more"
    at, value = Point(worst.box.left, worst.box.top), round(worst.contrast, 2)
    name = context.page.piece.name
    return found(CHECK, severity, name, message, fix, CONTRAST_SMALL, value, at)
