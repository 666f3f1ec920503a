"""Size: do the page's boxes hold the card that is declared, and the bleed?"""

from __future__ import annotations

from mockup.artwork.page import SIZE_TOLERANCE_IN
from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.geometry.point import Box, Point
from mockup.trade.tolerances import BLEED_METRIC, COMMON, Limit
from mockup.units import format_size

CHECK = "size"
CENTRED_WITHIN_IN = 0.01  # judgement: the same rounding of sizes as SIZE_TOLERANCE_IN allows
BLEED_WITHIN_IN = 0.003  # judgement: tells 1/8 in of bleed from 3 mm, which differ by 0.007 in


def check_size(context: PageContext) -> list[Finding]:
    """Returns where the page disagrees with the card: its size, its place, its bleed."""
    if context.page.misfit is not None:
        return [_wrong_size(context)]
    return [*_off_centre(context), *_bleed_box(context)]


def _wrong_size(context: PageContext) -> Finding:
    art, die = context.page.art, context.page.piece.die
    box = art.trim if art.trim is not None else art.visible
    bleed = 0.0 if art.trim is not None else context.page.piece.bleed_in
    across = box.width - die.width_in - 2 * bleed
    down = box.height - die.height_in - 2 * bleed
    worst = across if abs(across) >= abs(down) else down
    swapped = (
        abs(box.height - die.width_in - 2 * bleed) <= SIZE_TOLERANCE_IN
        and abs(box.width - die.height_in - 2 * bleed) <= SIZE_TOLERANCE_IN
    )
    name = "TrimBox" if art.trim is not None else "page"
    message = (
        f"the {name} is {format_size(box.width, box.height)}; the card "
        f"{format_size(die.width_in, die.height_in)}"
        f"{f' with {bleed:.3f} in bleed' if bleed else ''} needs "
        f"{format_size(die.width_in + 2 * bleed, die.height_in + 2 * bleed)}: "
        f"{across:+.3f} in wide, {down:+.3f} in high"
    )
    if swapped:
        message += "; the sides are swapped"
    fix = (
        "turn the art by 90°, or declare the card the other way round"
        if swapped
        else f"save the art at {format_size(die.width_in, die.height_in)} with its bleed, "
        "or declare the size it has"
    )
    limit = Limit(SIZE_TOLERANCE_IN, "in", "the size declared in the suite file")
    place = Point(0.0, 0.0)
    return found(CHECK, Severity.STOP, context.page.piece.name, message, fix, limit, worst, place)


def _off_centre(context: PageContext) -> list[Finding]:
    """Returns a note where the trim does not lie in the middle of the page: uneven bleed."""
    trim, page = context.page.placement.trim, context.page.art.visible
    across = trim.centre.x - page.centre.x
    down = trim.centre.y - page.centre.y
    worst = max(abs(across), abs(down))
    if worst <= CENTRED_WITHIN_IN:
        return []
    least = min(_margins(trim, page))
    severity = (
        Severity.WARN if least < context.page.piece.bleed_in - BLEED_WITHIN_IN else Severity.NOTE
    )
    message = (
        f"the trim lies {across:+.3f} in across and {down:+.3f} in down from the page's middle; "
        f"the narrowest margin is {least:.3f} in"
    )
    limit = Limit(CENTRED_WITHIN_IN, "in", COMMON)
    fix = "centre the art on its page"
    return [
        found(CHECK, severity, context.page.piece.name, message, fix, limit, worst, Point(0, 0))
    ]


def _bleed_box(context: PageContext) -> list[Finding]:
    """Returns a note where the page has less margin than bleed; `bleed` says if it matters."""
    trim, page = context.page.placement.trim, context.page.art.visible
    least, wanted = min(_margins(trim, page)), context.page.piece.bleed_in
    if context.page.art.bleed is not None:
        least = min(least, *_margins(trim, context.page.art.bleed))
    if least >= wanted - BLEED_WITHIN_IN:
        return []
    message = f"the page has {max(least, 0):.3f} in round the card; {wanted:.3f} in is declared"
    if abs(least - BLEED_METRIC.value) < BLEED_WITHIN_IN:
        message += "; 3 mm is 0.118 in, not 1/8 in"
    fix = f"save the page with {wanted:.3f} in bleed, or declare the bleed it has"
    limit = Limit(wanted, "in", "the bleed declared in the suite file")
    return [
        found(
            CHECK, Severity.NOTE, context.page.piece.name, message, fix, limit, least, Point(0, 0)
        )
    ]


def _margins(inner: Box, outer: Box) -> tuple[float, float, float, float]:
    return (
        inner.left - outer.left,
        inner.top - outer.top,
        outer.right - inner.right,
        outer.bottom - inner.bottom,
    )
