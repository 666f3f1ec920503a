"""Bands round cards: long enough to meet and be glued, type clear of the turns, cards of a size."""

from __future__ import annotations

from collections.abc import Iterator

import shapely

from mockup.checks.finding import Finding, Severity, found
from mockup.checks.settings import Settings
from mockup.checks.suite_context import SuiteContext
from mockup.geometry.point import Point
from mockup.reading.binding import Bound, bound
from mockup.reading.page import read_facts
from mockup.reading.page_facts import PageFacts
from mockup.reading.type_lines import LetterLine
from mockup.trade.tolerances import COMMON, Limit
from mockup.workshop import crew
from mockup.workshop.job import Job

CHECK = "band"
_CHECK = "mockup.checks.bands:type_at_edges"
OVERLAP_LEAST = Limit(0.375, "in", COMMON)
"""By how much a band's ends lie over each other, to take glue or a sticker."""
OVERLAP_MOST = Limit(2.0, "in", COMMON)
"""More is paper that nobody needs, and a second thickness where the cards are thick already."""
APART = Limit(0.25, "in", COMMON)
"""How much narrower than the widest a bound card may be before it slides about."""
HALVED = 0.08  # judgement: of a line's height and length; less is a tail under the edge
TURN_CLEAR = Limit(0.125, "in", COMMON)
"""How far type stays from where a band turns: the stack's thickness and the hand move the bend."""


def check_bands(context: SuiteContext) -> list[Finding]:
    """Returns whether bands are long enough for what they go round, and what is at their turns."""
    bands = bound(context.suite)
    jobs = [Job((each, context.settings), each.band.art.where) for each in bands]
    at_turns: list[list[Finding]] = crew.done(_CHECK, jobs)
    findings: list[Finding] = []
    for each, turned in zip(bands, at_turns, strict=True):
        findings += [*_length(each, context.settings), *_sizes(each, context.settings), *turned]
    return findings


def _length(bundle: Bound, settings: Settings) -> Iterator[Finding]:
    """Yields a finding where the strip's ends do not meet, or hardly, or far over each other."""
    told, overlap_in = settings.length, bundle.overlap_in
    name, girth_in = bundle.band.name, bundle.girth_in
    round_ = f"{told(girth_in)} round {', '.join(bundle.names)}"
    wanted = girth_in + 2 * OVERLAP_LEAST.value
    fix = f"make it {told(wanted)} long, and fold one round a made-up set before all are cut"
    if overlap_in < 0:
        message = f"the band is {told(bundle.length_in)} long, and it is {round_}: it does not meet"
        yield found(CHECK, Severity.STOP, name, message, fix, OVERLAP_LEAST, overlap_in)
    elif overlap_in < OVERLAP_LEAST.value:
        message = f"the band's ends overlap by {told(overlap_in)} only: it is {round_}"
        yield found(CHECK, Severity.WARN, name, message, fix, OVERLAP_LEAST, overlap_in)
    elif overlap_in > OVERLAP_MOST.value:
        message = f"the band's ends overlap by {told(overlap_in)}: it is {round_}"
        yield found(CHECK, Severity.NOTE, name, message, fix, OVERLAP_MOST, overlap_in)


def _sizes(bundle: Bound, settings: Settings) -> Iterator[Finding]:
    """Yields a note where a bound card is so much narrower than the widest that it slides."""
    for card in bundle.cards:
        less_in = bundle.side_in - bundle.reach_in(card)
        if less_in > APART.value:
            message = (
                f"{card.name} is {settings.length(less_in)} narrower along the band than the "
                "widest card in it: it slides in the band"
            )
            fix = "bind cards of one width, or fix it to the card behind it with a dot of glue"
            yield found(CHECK, Severity.NOTE, bundle.band.name, message, fix, APART, less_in)


def type_at_edges(bundle: Bound, settings: Settings) -> list[Finding]:
    """Returns a warning for the line of the band's type that is nearest a turn, where that is too
    near, and for the front card's type that the band's edge runs through; worked out here."""
    return [*_at_turns(bundle, settings), *_halved(bundle, settings)]


def _halved(bundle: Bound, settings: Settings) -> Iterator[Finding]:
    """Yields a warning for the line that the band's edge cuts most nearly in half."""
    page = read_facts(bundle.cards[0].sides[0], settings.safe_in)
    low, high = (bundle.to_card.point(Point(*each)) for each in _corners(bundle))
    panel = shapely.box(*low, *high)
    worst: tuple[float, LetterLine, tuple[float, ...]] | None = None
    for line in page.letter_lines:
        box = shapely.box(*_bounds(page, line))
        hidden = box.intersection(panel).area / max(box.area, 1e-9)
        cut = min(hidden, 1 - hidden)
        if cut > HALVED and (worst is None or cut > worst[0]):
            worst = cut, line, box.bounds
    if worst is None:
        return
    _, line, (left, top, _, _) = worst
    said = f' "{line.text}"' if line.text else ""
    message = f"the band's edge runs through type{said} of {bundle.cards[0].name}"
    fix = "put the band where it hides a line whole or leaves it free: wraps = { ..., at = ... }"
    at = bundle.to_card.inverse().point(Point(left, top))
    yield Finding(CHECK, Severity.WARN, bundle.band.name, message, fix, at, source=COMMON)


def _corners(bundle: Bound) -> tuple[tuple[float, float], tuple[float, float]]:
    left, top, right, bottom = bundle.panel
    return (left, top), (right, bottom)


def _at_turns(bundle: Bound, settings: Settings) -> list[Finding]:
    page = read_facts(bundle.band, settings.safe_in)
    near = [(_nearest(bundle, page, line), line) for line in page.letter_lines]
    if not near:
        return []
    (away_in, at), line = min(near, key=lambda each: each[0][0])
    if away_in >= TURN_CLEAR.value:
        return []
    said = f' "{line.text}"' if line.text else ""
    how = "runs over" if away_in <= 0 else f"stands {settings.length(away_in)} from"
    message = f"type{said} {how} a turn of the band, at the cards' side"
    front_in = bundle.side_in - 2 * TURN_CLEAR.value
    fix = f"keep type within the middle {settings.length(front_in)}, or wholly on the back"
    limit, name = TURN_CLEAR, bundle.band.name
    return [found(CHECK, Severity.WARN, name, message, fix, limit, max(away_in, 0.0), at)]


def _nearest(bundle: Bound, page: PageFacts, line: LetterLine) -> tuple[float, Point]:
    """Returns how far a line of type is from the nearer turn, nought across one, and where."""
    left, top, right, bottom = _bounds(page, line)
    panel = bundle.panel
    if bundle.goes_across:
        low, high, turns = left, right, (panel.left, panel.right)
    else:
        low, high, turns = top, bottom, (panel.top, panel.bottom)
    away_in = min(max(low - turn, turn - high, 0.0) for turn in turns)
    return away_in, Point(left, top)


def _bounds(page: PageFacts, line: LetterLine) -> tuple[float, float, float, float]:
    boxes = [shapely.box(*page.parts.all[k].box) for k in line.members]
    left, top, right, bottom = shapely.unary_union(boxes).bounds
    return left, top, right, bottom
