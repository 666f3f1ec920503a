"""Inks: RGB that has to be converted, too much ink in one place, the registration colour as art."""

from __future__ import annotations

import numpy as np
import shapely

from mockup.artwork.inspection import Painted
from mockup.checks.finding import Finding, Severity, found
from mockup.checks.page_context import PageContext
from mockup.geometry.point import Point
from mockup.reading.gamut import is_rgb
from mockup.reading.page_facts import on_card
from mockup.trade.tolerances import TOTAL_INK, TOTAL_INK_PATCH_IN

INK_ROUNDING = 0.5  # judgement: half a per cent of sums of four inks in 255ths
REGISTRATION = "All"  # ISO 32000-1 8.6.6.4: the colourant that marks every plate


def check_inks(context: PageContext) -> list[Finding]:
    """Returns what is wrong with the inks of a page."""
    return [*_rgb(context), *_registration(context), *_total(context)]


def _registration(context: PageContext) -> list[Finding]:
    """Returns art on the card in the colour that is meant for printer's marks outside it."""
    cut = context.page.zones.cut
    no_art = {id(p) for p in context.page.template_lines.painted}
    own = [
        p
        for p in context.page.inspection.painted
        if p.ink is not None and REGISTRATION in p.ink.names and id(p) not in no_art
        and cut.intersects(shapely.box(*p.box))
    ]  # fmt: skip
    if not own:
        return []
    message = "art is in the registration colour (All): it prints in every ink, one over another"
    fix = "give it black, or the colour it should have"
    at = Point(own[0].box.left, own[0].box.top)
    name, source = context.page.piece.name, "ISO 32000-1 8.6.6.4"
    return [Finding("registration", Severity.STOP, name, message, fix, at, source=source)]


def _rgb(context: PageContext) -> list[Finding]:
    rgb = [p for p in on_card(context.page) if is_rgb(p)]
    if not rgb:
        return []
    plain = [p for p in rgb if not _is_calibrated(p)]
    at = Point(rgb[0].box.left, rgb[0].box.top)
    are = "is" if len(rgb) == 1 else "are"
    message = f"{len(rgb)} of {len(context.page.inspection.painted)} objects {are} RGB"
    message += ", without a profile" if plain else ", with a profile"
    fix = "ask your printer whether they take RGB; else convert to their CMYK, and look again"
    severity = Severity.WARN if plain else Severity.NOTE
    source = "ISO 15930-7:2010: RGB only when its profile is in the file"
    name, count = context.page.piece.name, len(rgb)
    return [Finding("rgb", severity, name, message, fix, at, count, 0, "objects", source)]


def _is_calibrated(painted: Painted) -> bool:
    if painted.image is not None and not painted.image.is_mask:
        return painted.image.calibrated
    return painted.ink is not None and painted.ink.calibrated


def _total(context: PageContext) -> list[Finding]:
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
    if worst > _heaviest(context) + INK_ROUNDING:
        message += ", where one thing is printed over another"
        fix = f"let the upper one knock out, or keep both together under {TOTAL_INK.value:.0f} %"
    return [
        found("ink", Severity.WARN, context.page.piece.name, message, fix, TOTAL_INK, worst, at)
    ]


def _heaviest(context: PageContext) -> float:
    """Returns the most ink that one thing on the page has by itself, per cent."""
    inks = [p.ink.total for p in context.page.inspection.painted if p.ink is not None]
    pictured = any(p.image or p.kind == "shade" for p in context.page.inspection.painted)
    return 400.0 if pictured else 100 * max(inks, default=0.0)
