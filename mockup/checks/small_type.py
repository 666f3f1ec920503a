"""Type too small to print: positive, reversed out of a ground, or built of several inks."""

from __future__ import annotations

from mockup.artwork.inspection import Ink
from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.geometry.point import Point
from mockup.reading.type_set import TypeLine, is_reversed, type_set
from mockup.trade.tolerances import TYPE_POSITIVE, TYPE_REVERSED, TYPE_RICH_BLACK, Limit

CHECK = "small-type"
ROUNDING_PT = 0.05  # judgement: what programs round a size by when they place type scaled
RICH_BLACK_LEAST = 0.6  # judgement: with less black, type is of a colour, not black
OTHER_INKS = 0.15  # judgement: less of other inks shows no fringe when they are out of register


def check_small_type(context: PageContext) -> list[Finding]:
    """Returns the smallest type of each kind that is under its limit."""
    lines = type_set(context.page)
    reversed_ = [line for line in lines if is_reversed(line, context.page.sight)]
    positive = [line for line in lines if line not in reversed_]
    rich = [line for line in lines if _is_rich_black(line.ink)]
    kinds = (
        ("type", positive, TYPE_POSITIVE),
        ("reversed type", reversed_, TYPE_REVERSED),
        ("type in rich black", rich, TYPE_RICH_BLACK),
    )
    return [f for kind in kinds if (f := _finding(context, *kind)) is not None]


def _finding(
    context: PageContext, kind: str, lines: list[TypeLine], limit: Limit
) -> Finding | None:
    small = [s for s in lines if s.size_pt < limit.value - ROUNDING_PT]
    if not small:
        return None
    least = min(small, key=lambda s: s.size_pt)
    about = "about " if least.outlined else ""
    text = f' "{least.text[:30]}"' if least.text else ""
    fix = f"set it in {limit.value:g} pt or more"
    if limit is TYPE_RICH_BLACK:
        fix = "set it in black ink alone"
    at = Point(least.box.left, least.box.top)
    message = f"{kind}{text} is {about}{least.size_pt:.1f} pt"
    return found(
        CHECK, Severity.WARN, context.page.piece.name, message, fix, limit, least.size_pt, at
    )


def _is_rich_black(ink: Ink | None) -> bool:
    if ink is None or ink.space != "cmyk":
        return False
    *others, black = ink.values
    return black >= RICH_BLACK_LEAST and sum(others) > OTHER_INKS
