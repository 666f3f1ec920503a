"""Size: do the page's boxes hold the card that is declared, and the bleed?

Where art ends short of the bleed, `bleed` measures it; here only the page is measured.
"""

from __future__ import annotations

from mockup.artwork.page import SIZE_TOLERANCE_IN
from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.checks.settings import Settings
from mockup.geometry.point import Point
from mockup.suite.placing import flat_sheet_told
from mockup.trade.tolerances import BLEED_METRIC, COMMON, Limit

CHECK = "size"
CENTRED_WITHIN_IN = 0.01  # judgement: the same rounding of sizes as SIZE_TOLERANCE_IN allows
BLEED_WITHIN_IN = 0.003  # judgement: tells 1/8 in of bleed from 3 mm, which differ by 0.007 in


def check_size(context: PageContext) -> list[Finding]:
    """Returns where the page disagrees with the card: its size, its place, its bleed."""
    if context.page.misfit is not None:
        return [_wrong_size(context)]
    if context.page.short_stretches:
        return []  # one fault, measured once: `bleed` tells where and by how much
    return [*_off_centre(context), *_bleed_box(context)]


def _wrong_size(context: PageContext) -> Finding:
    art, die = context.page.art, context.page.piece.die
    settings, size = context.settings, context.settings.size
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
    needed = size(die.width_in, die.height_in)
    if bleed:
        whole = size(die.width_in + 2 * bleed, die.height_in + 2 * bleed)
        needed += f" and {settings.length(bleed)} bleed: {whole}"
    off = "the sides are swapped" if swapped else _off(across, down, settings)
    what = "card" if context.page.piece.fold is None else "card's flat sheet"
    message = f"the {name} is {size(box.width, box.height)}; the {what} needs {needed}; {off}"
    fix = (
        "turn the art by 90°, or declare the card the other way round"
        if swapped
        else f"save the art at {size(die.width_in, die.height_in)} with its bleed, "
        "or declare the size it has"
    )
    if context.page.piece.fold is not None:
        fix = flat_sheet_told(context.page.piece, (die.width_in, die.height_in))
    limit = Limit(SIZE_TOLERANCE_IN, "in", "the size declared in the suite file")
    place = Point(0.0, 0.0)
    return found(CHECK, Severity.STOP, context.page.piece.name, message, fix, limit, worst, place)


def _off(across_in: float, down_in: float, settings: Settings) -> str:
    sides = ((across_in, "wide", "narrow"), (down_in, "high", "low"))
    told = [
        f"{settings.length(abs(by))} too {more if by > 0 else less}"
        for by, more, less in sides
        if abs(by) > SIZE_TOLERANCE_IN
    ]
    return " and ".join(told)


def _off_centre(context: PageContext) -> list[Finding]:
    """Returns a note where the trim does not lie in the middle of the page: uneven bleed."""
    across, down = context.page.off_centre
    worst = max(abs(across), abs(down))
    if worst <= CENTRED_WITHIN_IN:
        return []
    least = min(context.page.margins)
    severity = (
        Severity.WARN if least < context.page.piece.bleed_in - BLEED_WITHIN_IN else Severity.NOTE
    )
    length = context.settings.length
    ways = ((across, "right", "left"), (down, "down", "up"))
    told = [
        f"{length(abs(by))} {on if by > 0 else back}"
        for by, on, back in ways
        if abs(by) > CENTRED_WITHIN_IN / 2
    ]
    message = (
        f"the trim lies {' and '.join(told)} of the page's middle; the narrowest margin is "
        f"{length(least)}"
    )
    limit = Limit(CENTRED_WITHIN_IN, "in", COMMON)
    fix = "centre the art on its page"
    place = Point(0, 0)
    return [found(CHECK, severity, context.page.piece.name, message, fix, limit, worst, place)]


def _bleed_box(context: PageContext) -> list[Finding]:
    """Returns a note where the page has less margin than bleed, though no art ends in it."""
    least, wanted = context.page.bleed_on_page, context.page.piece.bleed_in
    if least >= wanted - BLEED_WITHIN_IN:
        return []
    length = context.settings.length
    message = (
        f"the page has {length(max(least, 0))} round the card; {length(wanted)} bleed is declared"
    )
    if abs(least - BLEED_METRIC.value) < BLEED_WITHIN_IN:
        message += "; 3 mm is 0.118 in, not 1/8 in"
    fix = f"save the page with {length(wanted)} bleed, or declare the bleed it has"
    limit = Limit(wanted, "in", "the bleed declared in the suite file")
    name = context.page.piece.name
    return [found(CHECK, Severity.NOTE, name, message, fix, limit, least, Point(0, 0))]
