"""Print sense: fonts, type and line sizes, resolution, colour spaces, ink, pages."""

from __future__ import annotations

import re

import numpy as np

from mockup.artwork.inspection import Painted
from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.checks.small_type import check_small_type
from mockup.geometry.point import Point
from mockup.reading.lines import is_reversed, line_width_pt
from mockup.reading.page_facts import on_card
from mockup.trade.tolerances import (
    COMMON,
    IMAGE_PPI,
    IMAGE_PPI_LOW,
    IMAGE_PPI_STOP,
    IMAGE_SKIPPED_PX,
    LINE_POSITIVE,
    LINE_REVERSED,
    TOTAL_INK,
    TOTAL_INK_PATCH_IN,
    Limit,
)

PDFX = "ISO 15930-7:2010: fonts are embedded"
POINT_ROUNDING = 0.01  # judgement: what programs round a line's width by when they save
INK_ROUNDING = 0.5  # judgement: half a per cent of sums of four inks in 255ths


def check_print_sense(context: PageContext) -> list[Finding]:
    """Returns what in the file itself would not print as it looks."""
    return [
        *_pages(context),
        *_fonts(context),
        *_images(context),
        *_hairlines(context),
        *check_small_type(context),
        *_colour(context),
        *_ink(context),
    ]


def _pages(context: PageContext) -> list[Finding]:
    name = context.page.piece.name
    if not context.page.inspection.painted:
        message = "the page has nothing on it"
        fix = "choose another page, or save the art again"
        return [found("pages", Severity.STOP, name, message, fix)]
    count = context.page.inspection.pages
    if count == 1:
        return []
    message = f"the file has {count} pages; this piece is page {context.page.piece.art.page}"
    fix = "send the printer this page alone, or say which page is which"
    return [found("pages", Severity.NOTE, name, message, fix, Limit(1, "pages", COMMON), count)]


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


def _images(context: PageContext) -> list[Finding]:
    findings: list[Finding] = []
    for painted in on_card(context.page):
        image = painted.image
        if image is None or min(image.width_px, image.height_px) <= IMAGE_SKIPPED_PX:
            continue
        if round(image.ppi) >= IMAGE_PPI_LOW.value or image.bits == 1:
            continue
        low = round(image.ppi) < IMAGE_PPI_STOP.value
        limit = IMAGE_PPI_STOP if low else IMAGE_PPI_LOW
        wanted = painted.box.width * IMAGE_PPI.value
        findings.append(
            found(
                "resolution",
                Severity.STOP if low else Severity.WARN,
                context.page.piece.name,
                f"an image is placed at {image.ppi:.0f} pixels an inch "
                f"({image.width_px} x {image.height_px} px)",
                f"place one {wanted:.0f} px wide or more ({IMAGE_PPI.value:.0f} an inch), "
                f"or at {image.ppi / IMAGE_PPI.value * 100:.0f} % of its size",
                limit,
                image.ppi,
                Point(painted.box.left, painted.box.top),
            )
        )
    return findings


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


def _colour(context: PageContext) -> list[Finding]:
    rgb = [p for p in on_card(context.page) if _is_rgb(p)]
    if not rgb:
        return []
    plain = [p for p in rgb if not _is_calibrated(p)]
    at = Point(rgb[0].box.left, rgb[0].box.top)
    message = f"{len(rgb)} of {len(context.page.inspection.painted)} objects are RGB"
    message += ", without a profile" if plain else ", with a profile"
    fix = "ask your printer whether they take RGB; else convert to their CMYK, and look again"
    severity = Severity.WARN if plain else Severity.NOTE
    source = "ISO 15930-7:2010: RGB only when its profile is in the file"
    name, count = context.page.piece.name, len(rgb)
    return [Finding("rgb", severity, name, message, fix, at, count, 0, "objects", source)]


def _is_rgb(painted: Painted) -> bool:
    if painted.image is not None and not painted.image.is_mask:
        return painted.image.space == "rgb"
    return painted.ink is not None and painted.ink.space == "rgb"


def _is_calibrated(painted: Painted) -> bool:
    if painted.image is not None and not painted.image.is_mask:
        return painted.image.calibrated
    return painted.ink is not None and painted.ink.calibrated


def _ink(context: PageContext) -> list[Finding]:
    """Returns where the sum of inks is over the limit, as a mean over 15 mm²."""
    inked = context.page.inked
    if inked is None:
        return []
    view = inked.view
    total = inked.inks.astype(np.float32).sum(axis=2) / 255 * 100
    side = max(1, round(TOTAL_INK_PATCH_IN * view.ppi))
    if min(total.shape) <= side:
        return []
    summed = np.pad(total.cumsum(axis=0).cumsum(axis=1), ((1, 0), (1, 0)))
    mean = summed[side:, side:] - summed[:-side, side:] - summed[side:, :-side]
    mean = (mean + summed[:-side, :-side]) / side**2
    row, column = np.unravel_index(int(mean.argmax()), mean.shape)
    worst = float(mean[row, column])
    if worst <= TOTAL_INK.value + INK_ROUNDING:
        return []
    at = Point(
        view.left_in + (int(column) + side / 2) / view.ppi,
        view.top_in + (int(row) + side / 2) / view.ppi,
    )
    message = f"ink adds up to {worst:.0f} %"
    fix = f"build the colour with {TOTAL_INK.value:.0f} % or less; ask your printer for their limit"
    return [
        found("ink", Severity.WARN, context.page.piece.name, message, fix, TOTAL_INK, worst, at)
    ]
