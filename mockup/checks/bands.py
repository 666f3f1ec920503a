"""Bands round cards: long enough to meet and be glued, type in sight and clear of the turns."""

from __future__ import annotations

import math
from collections.abc import Iterator

import shapely

from mockup.checks.finding import Finding, Severity, found
from mockup.checks.settings import Settings
from mockup.checks.suite_context import SuiteContext
from mockup.dies.folding import to_front
from mockup.geometry.affine import IDENTITY, Affine
from mockup.geometry.point import Point
from mockup.reading.binding import Bound, bound
from mockup.reading.page import read_facts
from mockup.reading.page_facts import PageFacts
from mockup.reading.type_lines import LetterLine
from mockup.suite.suite import Piece, Suite
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
COVERED_IN = 1 / 64  # judgement: type that only touches the other end is not under it
SLIPS = Limit(0.0625, "in", COMMON)
"""How much narrower than the widest the cards may be where a band lies, and still hold it."""
HALVED = 0.08  # judgement: of a line's height and length; less is a tail under the edge
MEANT_WITHIN = Limit(0.0625, "in", COMMON)
"""By how much an overlap may part from the one meant: stacks differ as much from hand to hand."""
OVERLAP_USUAL_IN = 0.75  # common practice, no source; made where the file means no other
TURN_CLEAR = Limit(0.125, "in", COMMON)
"""How far type stays from where a band turns: the stack's thickness and the hand move the bend."""


def check_bands(context: SuiteContext) -> list[Finding]:
    """Returns whether bands are long enough for what they go round, and what is at their turns."""
    bands = bound(context.suite)
    jobs = [Job((each, context.settings), each.band.art.where) for each in bands]
    at_turns: list[list[Finding]] = crew.done(_CHECK, jobs)
    findings: list[Finding] = []
    for each, turned in zip(bands, at_turns, strict=True):
        findings += [
            *strip_length(each, context.settings),
            *_sizes(each, context.settings),
            *_slips(each, context.settings),
            *turned,
        ]
    return [*findings, *_parted(context.suite)]


def strip_length(bundle: Bound, settings: Settings) -> Iterator[Finding]:
    """Yields a finding where the strip's ends do not meet, or hardly, or far over each other."""
    told, overlap_in = settings.length, bundle.overlap_in
    name, girth_in = bundle.band.name, bundle.girth_in
    meant = bundle.meant_in
    round_ = f"{told(girth_in)} round {', '.join(bundle.names)}"
    wanted = girth_in + (OVERLAP_USUAL_IN if meant is None else max(meant, OVERLAP_LEAST.value))
    fix = f"make it {told(wanted)} long, and fold one round a made-up set before all are cut"
    if meant is not None and meant < OVERLAP_LEAST.value:
        message = f"an overlap of {told(meant)} is meant: too little to take glue or a sticker"
        more = f"mean {told(OVERLAP_LEAST.value)} or more: a strip {told(wanted)} long"
        yield found(CHECK, Severity.WARN, name, message, more, OVERLAP_LEAST, meant)
    if overlap_in < 0:
        message = f"the band is {told(bundle.length_in)} long, and it is {round_}: it does not meet"
        yield found(CHECK, Severity.STOP, name, message, fix, OVERLAP_LEAST, overlap_in)
    elif overlap_in < OVERLAP_LEAST.value:
        message = f"the band's ends overlap by {told(overlap_in)} only: it is {round_}"
        yield found(CHECK, Severity.WARN, name, message, fix, OVERLAP_LEAST, overlap_in)
    elif overlap_in > OVERLAP_MOST.value:
        message = f"the band's ends overlap by {told(overlap_in)}: it is {round_}"
        yield found(CHECK, Severity.NOTE, name, message, fix, OVERLAP_MOST, overlap_in)
    elif meant is not None and abs(overlap_in - meant) > MEANT_WITHIN.value:
        off = f"{told(abs(overlap_in - meant))} too {'long' if overlap_in > meant else 'short'}"
        message = f"the band is {off} for an overlap of {told(meant)}: it is {round_}"
        limit = Limit(meant, "in", "the overlap the suite file means")
        yield found(CHECK, Severity.NOTE, name, message, fix, limit, overlap_in)


def _slips(bundle: Bound, settings: Settings) -> Iterator[Finding]:
    """Yields a warning where the band lies at a place at which no card is as wide as elsewhere."""
    held_in = max(bundle.held_in(card) for card in bundle.cards)
    less_in = bundle.side_in - held_in
    if less_in <= SLIPS.value:
        return
    message = (
        f"no card is wider than {settings.length(held_in)} where the band lies, and the widest is "
        f"{settings.length(bundle.side_in)}: it slips off the narrow part"
    )
    fix = "put it where the cards are widest: wraps = { ..., at = ... }"
    yield found(CHECK, Severity.WARN, bundle.band.name, message, fix, SLIPS, less_in)


def _parted(suite: Suite) -> Iterator[Finding]:
    """Yields a note where an envelope holds bound cards without their band, or it without them."""
    for bundle in bound(suite):
        band = bundle.band.name
        for envelope in suite.envelopes:
            missing = [name for name in bundle.names if name not in envelope.holds]
            where = f"envelopes.{envelope.name}"
            fix = "name the band and all it goes round in `holds`, or none of them"
            if band in envelope.holds and missing:
                message = (
                    f"{where} holds the band without {', '.join(missing)}, which it goes round"
                )
                yield Finding(CHECK, Severity.WARN, band, message, fix, source=COMMON)
            elif band not in envelope.holds and not missing and len(bundle.names) > 1:
                message = f"{where} holds all the band goes round and not the band: not weighed"
                yield Finding(CHECK, Severity.NOTE, band, message, fix, source=COMMON)


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
    near, for one that its other end covers, and for the front card's type that the band's edge
    runs through; worked out here."""
    page = read_facts(bundle.band, settings.safe_in)
    covered = _covered(bundle, page, settings)
    return [*_at_turns(bundle, page, settings), *covered, *_halved(bundle, settings)]


def _covered(bundle: Bound, page: PageFacts, settings: Settings) -> Iterator[Finding]:
    """Yields a warning for the line of type that reaches farthest under the overlap."""
    under = [(_span(bundle, page, line)[0], line) for line in page.letter_lines]
    low, line = min(under, key=lambda each: each[0], default=(math.inf, None))
    if line is None or low >= bundle.overlap_in - COVERED_IN:
        return
    said = f' "{line.text}"' if line.text else ""
    end = "right" if bundle.goes_across else "lower"
    message = f"type{said} lies under the overlap: the {end} end is glued over it"
    clear = settings.length(bundle.overlap_in + settings.safe_in)
    fix = f"keep type {clear} from the {'left' if bundle.goes_across else 'upper'} end"
    left, top, _, _ = _bounds(page, line)
    limit = Limit(bundle.overlap_in, "in", "the strip's length less the girth of its cards")
    name, at = bundle.band.name, Point(left, top)
    yield found(CHECK, Severity.WARN, name, message, fix, limit, low, at)


def _halved(bundle: Bound, settings: Settings) -> Iterator[Finding]:
    """Yields a warning for the line that the band's edge cuts most nearly in half."""
    front = bundle.cards[0]
    page = read_facts(front.sides[0], settings.safe_in)
    turned = to_sheet(front)
    card = front.die.shape.mapped(turned).box
    low, high = (bundle.to_card.point(Point(*each)) for each in _corners(bundle))
    panel = shapely.box(*turned.point(low), *turned.point(high)).intersection(shapely.box(*card))
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
    x, y = bundle.to_card.inverse().point(turned.inverse().point(Point(left, top)))
    # The place is on the band: where its edge meets the line.
    at = Point(max(x, bundle.panel.left), max(y, bundle.panel.top))
    yield Finding(CHECK, Severity.WARN, bundle.band.name, message, fix, at, source=COMMON)


def to_sheet(card: Piece) -> Affine:
    """Returns the map from a card's inches as it lies to those of its front's page: a folded card's
    front is a half of its flat sheet."""
    die, fold = card.die, card.fold
    return IDENTITY if fold is None else to_front(die.width_in, die.height_in, fold)


def _corners(bundle: Bound) -> tuple[tuple[float, float], tuple[float, float]]:
    left, top, right, bottom = bundle.panel
    return (left, top), (right, bottom)


def _at_turns(bundle: Bound, page: PageFacts, settings: Settings) -> list[Finding]:
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
    """Returns how far a line of type is from the nearer side of the cards, front turn to back turn,
    nought across a turn, and where."""
    left, top, _, _ = _bounds(page, line)
    low, high = _span(bundle, page, line)
    away_in = min(max(low - last, first - high, 0.0) for first, last in bundle.turns_in)
    return away_in, Point(left, top)


def _span(bundle: Bound, page: PageFacts, line: LetterLine) -> tuple[float, float]:
    """Returns from where to where along the strip a line of type reaches."""
    left, top, right, bottom = _bounds(page, line)
    return (left, right) if bundle.goes_across else (top, bottom)


def _bounds(page: PageFacts, line: LetterLine) -> tuple[float, float, float, float]:
    boxes = [shapely.box(*page.parts.all[k].box) for k in line.members]
    left, top, right, bottom = shapely.unary_union(boxes).bounds
    return left, top, right, bottom
