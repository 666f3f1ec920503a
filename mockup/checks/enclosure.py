"""The suite as an object: play of every piece and of the stack in its envelope, and its weight."""

from __future__ import annotations

from mockup.checks.finding import Finding, Severity, found
from mockup.checks.suite_context import SuiteContext, owner
from mockup.reading.stack import contents, inside, posted
from mockup.suite.suite import Envelope, Suite
from mockup.trade.papers import GRAMMAGE_TOLERANCE
from mockup.trade.sizes import (
    CLEARANCE_IN,
    LOOSE_THICK_IN,
    LOOSE_THIN_IN,
    THIN_IN,
    TIGHT_CLEARANCE_IN,
    Play,
    play,
)
from mockup.trade.tolerances import COMMON, Limit
from mockup.units import Unit, format_length

ROYAL_MAIL = "Royal Mail Premier Customer Guide 12.3: an insert moves 30 mm at most, 20 mm if thick"
OUNCE_G = 28.349523125  # exact, international avoirdupois ounce


def check_enclosure(context: SuiteContext) -> list[Finding]:
    """Returns how everything fits in its envelope, how thick it lies and what it weighs."""
    findings: list[Finding] = []
    for envelope in context.suite.envelopes:
        if envelope.holds:
            fit = envelope_fit(context.suite, envelope, context.settings.units)
            findings += [*fit, _weight(context, envelope)]
    return findings


def too_small_told(suite: Suite) -> tuple[str, ...]:
    """Returns a line for every envelope that what it holds does not go into."""
    stops = [
        [f for f in envelope_fit(suite, envelope, suite.units) if f.severity is Severity.STOP]
        for envelope in suite.envelopes
        if envelope.holds
    ]
    return tuple(
        f"{own[0].piece}: {'; '.join(f.message for f in own)}: it does not go in"
        for own in stops
        if own
    )


def envelope_fit(suite: Suite, envelope: Envelope, unit: Unit) -> list[Finding]:
    """Returns what is too large for its envelope, or so small that it travels."""
    stack = contents(suite, envelope)
    sizes = {
        name: (suite.piece(name).die.width_in, suite.piece(name).die.height_in)
        for name in envelope.holds
        if suite.piece(name).wraps is None  # a strip lies round the others
    }
    sizes |= {
        inner.title: (inner.size.width_in, inner.size.height_in)
        for inner in inside(suite, envelope)
    }
    # One flat card lies in the pocket as it is; only a stack makes the pocket belly.
    bulk_in = stack.thickness_in if len(sizes) > 1 else 0.0
    plays = {name: play(envelope.size, *size, bulk_in) for name, size in sizes.items()}
    tight = (_too_tight(envelope, name, plays[name], bulk_in, unit) for name in sizes)
    findings = [finding for finding in tight if finding is not None]
    if not sizes:
        return []
    largest = max(sizes, key=lambda name: sizes[name][0] * sizes[name][1])
    loose = _too_loose(envelope, largest, plays[largest], stack.thickness_in, unit)
    return [*findings, *([loose] if loose else [])]


def _too_tight(
    envelope: Envelope, name: str, room: Play, bulk_in: float, unit: Unit
) -> Finding | None:
    least = min(room)
    if least >= TIGHT_CLEARANCE_IN - 1e-9:
        return None
    severity = Severity.STOP if least < 0 else Severity.WARN
    limit = Limit(TIGHT_CLEARANCE_IN, "in", COMMON)
    side = "length" if room.width_in <= room.height_in else "height"
    how = f"is {format_length(-least, unit)} too large" if least < 0 else (
        f"has only {format_length(least, unit)} of play")  # fmt: skip
    message = f"{name} {how} in the {side} of {envelope.size.name}"
    if bulk_in:
        message += ", as thick as the stack is"
    more = format_length(CLEARANCE_IN, unit)
    fix = f"take an envelope {more} larger than the card each way, or thinner paper"
    return found("fit", severity, owner(envelope), message, fix, limit, least)


def _too_loose(
    envelope: Envelope, name: str, room: Play, thickness_in: float, unit: Unit
) -> Finding | None:
    most = LOOSE_THIN_IN if thickness_in <= THIN_IN else LOOSE_THICK_IN
    if max(room) <= most:
        return None
    moves = format_length(max(room), unit)
    message = f"{name}, the largest in {envelope.size.name}, can move {moves}"
    limit = Limit(most, "in", ROYAL_MAIL)
    fix = "take a smaller envelope, or hold the cards with a band"
    return found("fit", Severity.WARN, owner(envelope), message, fix, limit, max(room))


def _weight(context: SuiteContext, envelope: Envelope) -> Finding:
    stack = posted(context.suite, envelope)
    off, length = GRAMMAGE_TOLERANCE * 100, context.settings.length
    message = (
        f"weighs {stack.weight_g:.1f} g ({stack.weight_g / OUNCE_G:.2f} oz) ± {off:.0f} % and lies "
        f"{length(stack.thickness_in)} thick, at most {length(stack.most_thick_in)}"
    )
    source = "areas of the dies, grammages, JCP L20 tolerance; calipers are common practice"
    fix = "weigh one made up in the papers ordered"
    return Finding(
        "weight",
        Severity.NOTE,
        owner(envelope),
        message,
        fix,
        None,
        stack.weight_g,
        None,
        "g",
        source,
    )
