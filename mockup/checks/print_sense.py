"""Print sense: pages, fonts, sizes of type and lines; inks and pictures are looked at beside."""

from __future__ import annotations

import re

import numpy as np

from mockup.artwork.inspection import Painted
from mockup.checks.codes import check_codes
from mockup.checks.finding import Finding, Severity, found
from mockup.checks.finishes import check_finishes
from mockup.checks.images import check_images
from mockup.checks.inks import check_inks
from mockup.checks.legibility import check_legibility
from mockup.checks.page_context import PageContext
from mockup.checks.small_type import check_small_type
from mockup.checks.whites import check_whites
from mockup.geometry.point import Point
from mockup.reading.lines import is_reversed, line_width_pt
from mockup.reading.page_facts import on_card
from mockup.suite.suite import Piece
from mockup.trade.tolerances import (
    COMMON,
    LINE_POSITIVE,
    LINE_REVERSED,
    Limit,
)

PDFX = "ISO 15930-7:2010: fonts are embedded"
POINT_ROUNDING = 0.01  # judgement: what programs round a line's width by when they save


def check_print_sense(context: PageContext) -> list[Finding]:
    """Returns what in the file itself would not print as it looks."""
    return [
        *_pages(context),
        *_fonts(context),
        *check_images(context),
        *_hairlines(context),
        *check_small_type(context),
        *check_legibility(context),
        *check_inks(context),
        *check_whites(context),
        *check_finishes(context),
        *check_codes(context),
    ]


def _pages(context: PageContext) -> list[Finding]:
    name = context.page.piece.name
    if not context.page.inspection.painted:
        message = "the page has nothing on it"
        fix = "choose another page, or save the art again"
        return [found("pages", Severity.STOP, name, message, fix)]
    count, used = context.page.inspection.pages, _pages_used(context.page.piece)
    if count == len(used):
        return []
    *first, last = map(str, used)
    which = f"pages {', '.join(first)} and {last}" if first else f"page {last}"
    message = f"the file has {count} pages; this piece is {which}"
    fix = "send the printer this page alone, or say which page is which"
    return [found("pages", Severity.NOTE, name, message, fix, Limit(1, "pages", COMMON), count)]


def _pages_used(piece: Piece) -> list[int]:
    """Returns the pages of a side's file that it, its other side and their finishes are on."""
    arts = [piece.art] if piece.back is None else [piece.art, piece.back]
    arts += [said.art for each in arts for said in each.finishing if said.art is not None]
    return sorted({each.page for each in arts if each.sha256 == piece.art.sha256})


def _fonts(context: PageContext) -> list[Finding]:
    name, findings = context.page.piece.name, list[Finding]()
    for font in context.page.inspection.unembedded:
        own = [
            p for p in context.page.inspection.painted if p.lettering and p.lettering.font == font
        ]
        at = Point(own[0].box.left, own[0].box.top) if own else None
        message = f'font "{font}" is not embedded: another may be put in its place'
        fix = "embed the font, or turn the type into outlines"
        findings.append(Finding("font", Severity.STOP, name, message, fix, at, source=PDFX))
    live = [p for p in context.page.inspection.painted if p.kind == "type"]
    if live and not context.page.inspection.unembedded:
        fonts = ", ".join(dict.fromkeys(_face(p.lettering.font) for p in live if p.lettering))
        message = f"type is live, in {fonts}"
        fix = "nothing, if your printer takes live type; else turn it into outlines"
        at = Point(live[0].box.left, live[0].box.top)
        findings.append(Finding("live-type", Severity.NOTE, name, message, fix, at, source=COMMON))
    return findings


def _face(font: str) -> str:
    """Returns a font's name without the six letters that mark a subset (ISO 32000-1 9.6.4)."""
    return re.sub(r"^[A-Z]{6}\+", "", font)


def _hairlines(context: PageContext) -> list[Finding]:
    thin: dict[float, list[Painted]] = {LINE_POSITIVE.value: [], LINE_REVERSED.value: []}
    limits = {limit.value: limit for limit in (LINE_POSITIVE, LINE_REVERSED)}
    no_art = {id(p) for p in context.page.template_lines.painted}
    for painted in on_card(context.page):
        width_pt = line_width_pt(painted)
        if width_pt is None or id(painted) in no_art or width_pt >= LINE_REVERSED.value:
            continue
        if width_pt < LINE_POSITIVE.value - POINT_ROUNDING:
            thin[LINE_POSITIVE.value].append(painted)
        elif width_pt < LINE_REVERSED.value - POINT_ROUNDING and is_reversed(
            painted, context.page.sight
        ):
            thin[LINE_REVERSED.value].append(painted)
    findings: list[Finding] = []
    for value, own in thin.items():
        if not own:
            continue
        widths = [line_width_pt(p) or 0.0 for p in own]
        least = int(np.argmin(widths))
        kind = "reversed line" if value == LINE_REVERSED.value else "line"
        message = f"a {kind} is {widths[least]:.2f} pt ({len(own)} such)"
        fix = f"draw it {value:g} pt or more"
        at = Point(own[least].box.left, own[least].box.top)
        findings.append(
            found(
                "hairline", Severity.WARN, context.page.piece.name, message, fix, limits[value],
                widths[least], at,
            )
        )  # fmt: skip
    return findings
