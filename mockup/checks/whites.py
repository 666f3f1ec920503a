"""White that does not print as it looks: overprinting, or on bare paper."""

from __future__ import annotations

import numpy as np
import shapely

from mockup.artwork.inspection import Ink, Painted
from mockup.checks.finding import Finding, Severity
from mockup.checks.page_context import PageContext
from mockup.geometry.point import Point
from mockup.reading.page_facts import on_card
from mockup.reading.part import Part
from mockup.reading.type_lines import LetterLine
from mockup.trade.tolerances import COMMON

NO_INK = 0.005  # judgement: half a per cent is no dot on a plate
BARE = 245  # judgement: 255ths; paper as it is drawn, less the noise of a scan
ACROSS = 24  # judgement: places a letter's box is looked at, each way
OVERPRINT = "ISO 32000-1 8.6.7: what is painted over leaves the inks below where it has none"


def check_whites(context: PageContext) -> list[Finding]:
    """Returns white that vanishes, and type in white on bare paper that gets no white ink."""
    under_all = context.page.piece.art.white.rule == "under-art"
    return [*_overprinting(context), *([] if under_all else _on_bare_paper(context))]


def is_white(ink: Ink | None) -> bool:
    """Returns whether a colour is white by having no ink at all."""
    if ink is None:
        return False
    if ink.space in ("cmyk", "spot"):
        return max(ink.values, default=1.0) <= NO_INK
    return ink.space in ("gray", "rgb") and min(ink.values, default=0.0) >= 1 - NO_INK


def _overprinting(context: PageContext) -> list[Finding]:
    """Returns a stop where white is set to overprint: what lies under it is printed there."""
    painted = on_card(context.page)
    own = [p for p in painted if p.overprint and is_white(p.ink) and _covers_ink(p, painted)]
    if not own:
        return []
    what = _said(own[0])
    count = f" and {len(own) - 1} more" if len(own) > 1 else ""
    message = f"white {what}{count} is set to overprint: on press it vanishes"
    fix = "switch overprint off for white"
    at = Point(own[0].box.left, own[0].box.top)
    name = context.page.piece.name
    return [Finding("overprint", Severity.STOP, name, message, fix, at, source=OVERPRINT)]


def _covers_ink(white: Painted, painted: list[Painted]) -> bool:
    """Returns whether anything but white lies under something."""
    box = shapely.box(*white.box)
    return any(
        not is_white(p.ink) and box.intersects(shapely.box(*p.box))
        for p in painted
        if 0 <= p.number < white.number
    )


def _said(painted: Painted) -> str:
    if painted.lettering is not None:
        return f'type "{painted.lettering.text[:30]}"'
    return "image" if painted.kind == "image" else "art"


def _on_bare_paper(context: PageContext) -> list[Finding]:
    """Returns type in white with nothing beneath it: it is not there in print."""
    parts = context.page.parts.all
    findings: list[Finding] = []
    for line in context.page.letter_lines:
        own = [parts[k] for k in line.members]
        on_it = any(part.place != "outside" for part in own)
        white = all(is_white(part.painted.ink) for part in own)
        if on_it and white and _is_bare(context, own):
            findings.append(_bare_finding(context, line, own))
    return findings


def _bare_finding(context: PageContext, line: LetterLine, own: list[Part]) -> Finding:
    said = f' "{line.text}"' if line.text else ""
    message = f"type{said} is white on bare paper: nothing of it is printed"
    fix = "give it an ink, or a ground beneath; on dark paper ask for white ink or foil"
    at = Point(min(p.box.left for p in own), min(p.box.top for p in own))
    name = context.page.piece.name
    return Finding("bare-white", Severity.WARN, name, message, fix, at, source=COMMON)


def _is_bare(context: PageContext, letters: list[Part]) -> bool:
    grid = np.linspace(0, 1, ACROSS)
    places = np.array([(x, y) for x in grid for y in grid])
    boxes = np.array([part.box for part in letters])
    points = boxes[:, None, :2] + places[None] * (boxes[:, None, 2:] - boxes[:, None, :2])
    return bool((context.page.sight.darkest_at(points.reshape(-1, 2)) >= BARE).all())
