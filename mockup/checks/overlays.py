"""Sheets that are seen through: type over type, and how the card's type reads through one."""

from __future__ import annotations

from collections.abc import Iterator

import shapely

from mockup.artwork.raster import rasterise
from mockup.checks.finding import Finding, Severity, found
from mockup.checks.settings import Settings
from mockup.checks.suite_context import SuiteContext
from mockup.geometry.affine import Affine
from mockup.geometry.flatten import ring
from mockup.geometry.point import Point
from mockup.reading.overlaid import Overlay, overlays
from mockup.reading.page import read_facts
from mockup.reading.page_facts import PageFacts
from mockup.reading.sight import Sight
from mockup.reading.type_contrast import Standing, standing_in
from mockup.reading.type_lines import LetterLine
from mockup.trade.tolerances import COMMON, CONTRAST_LARGE, Limit
from mockup.workshop import crew
from mockup.workshop.job import Job

CHECK = "overlay"
_CHECK = "mockup.checks.overlays:check_overlay"
# Judgement: lines that cross over so much of the lesser one are read as one, and neither is.
_MINGLED = Limit(0.1, "of the line", COMMON)
_COARSE_IN = 0.01


def check_overlays(context: SuiteContext) -> list[Finding]:
    """Returns where type lies over type, and how the least clear line reads through a sheet."""
    pairs = overlays(context.suite)
    jobs = [Job((each, context.settings), each.sheet.art.where) for each in pairs]
    answers: list[list[Finding]] = crew.done(_CHECK, jobs)
    return [finding for findings in answers for finding in findings]


def check_overlay(overlay: Overlay, settings: Settings) -> list[Finding]:
    """Returns what is found of one sheet over its card, worked out here."""
    sheet = read_facts(overlay.sheet, settings.safe_in)
    card = read_facts(overlay.card, settings.safe_in)
    return [*_mingled(overlay, sheet, card), *_through(overlay, card)]


def _mingled(overlay: Overlay, sheet: PageFacts, card: PageFacts) -> Iterator[Finding]:
    """Yields the worst place where a line of the sheet lies across one of the card."""
    above = [(line, _place(sheet, line, overlay.to_card)) for line in sheet.letter_lines]
    below = [(line, _place(card, line)) for line in card.letter_lines]
    worst: tuple[float, LetterLine, LetterLine, shapely.Geometry] | None = None
    for upper, its_box in above:
        for lower, box in below:
            both = its_box.intersection(box)
            share = both.area / max(min(its_box.area, box.area), 1e-9)
            if share > _MINGLED.value and (worst is None or share > worst[0]):
                worst = share, upper, lower, both
    if worst is None:
        return
    share, upper, lower, both = worst
    one, other = (f' "{each.text}"' if each.text else "" for each in (upper, lower))
    message = f"type{one} lies over type{other} of {overlay.card.name}: neither is read"
    fix = "move one of the two clear of the other, or leave the sheet bare there"
    left, top, _, _ = both.bounds
    at = overlay.to_card.inverse().point(Point(left, top))
    name = overlay.sheet.name
    yield found(CHECK, Severity.WARN, name, message, fix, _MINGLED, round(share, 2), at)


def _through(overlay: Overlay, card: PageFacts) -> Iterator[Finding]:
    """Yields a note of the line of the card that reads least through the sheet, where it reads well
    without."""
    outline = ring(overlay.sheet.die.shape.outer.mapped(overlay.to_card), _COARSE_IN)
    sheet = shapely.Polygon(outline)
    covered = [line for line in card.letter_lines if sheet.covers(_place(card, line))]
    if not covered:
        return
    view = card.printed.view
    picture = overlay.picture(rasterise(overlay.jobs(view)))
    seen = Sight(picture, view)
    found_: list[tuple[Standing, Standing]] = []
    for line in covered:
        without, through = standing_in(card, line, card.printed), standing_in(card, line, seen)
        if without is not None and through is not None:
            found_.append((without, through))
    lost = [
        (without, through)
        for without, through in found_
        if through.contrast < CONTRAST_LARGE.value <= without.contrast
    ]
    if not lost:
        return
    without, through = min(lost, key=lambda pair: pair[1].contrast)
    said = f' "{through.line.text}"' if through.line.text else ""
    message = (
        f"through it type{said} of {overlay.card.name} has a contrast of "
        f"{through.contrast:.1f} to 1, {without.contrast:.1f} without: it is read when the sheet "
        "is lifted"
    )
    fix = "if it is to be read through the sheet, make it darker or larger, or the sheet clearer"
    at = overlay.to_card.inverse().point(Point(through.box.left, through.box.top))
    value = round(through.contrast, 2)
    yield found(CHECK, Severity.NOTE, overlay.sheet.name, message, fix, CONTRAST_LARGE, value, at)


def _place(page: PageFacts, line: LetterLine, to_card: Affine | None = None) -> shapely.Polygon:
    """Returns the box of a line of type, in the card's inches."""
    parts = [page.parts.all[k] for k in line.members]
    letters = shapely.unary_union([shapely.box(*each.box) for each in parts])
    left, top, right, bottom = letters.bounds
    if to_card is not None:
        (left, top), (right, bottom) = (
            to_card.point(Point(left, top)),
            to_card.point(Point(right, bottom)),
        )
    return shapely.box(left, top, right, bottom)
