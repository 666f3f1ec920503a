"""The suite as an object: play of every piece and of the stack in its envelope, and the liner."""

from __future__ import annotations

from mockup.artwork.page import SIZE_TOLERANCE_IN, read_page
from mockup.checks.finding import Finding, Severity, found
from mockup.checks.suite_context import SuiteContext, owner
from mockup.envelopes.liner import (
    GUM_BARE_IN,
    RAW_EDGE_HIDDEN_IN,
    SIDE_PLAY_IN,
    liner_fit,
    liner_in_envelope,
)
from mockup.reading.stack import contents, inside, posted
from mockup.suite.suite import Envelope, Liner
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
from mockup.units import format_size, in_to_mm

ROYAL_MAIL = "Royal Mail Premier Customer Guide 12.3: an insert moves 30 mm at most, 20 mm if thick"
OUNCE_G = 28.349523125  # exact, international avoirdupois ounce


def check_enclosure(context: SuiteContext) -> list[Finding]:
    """Returns how everything fits in its envelope, how thick it lies and what it weighs."""
    findings: list[Finding] = []
    for envelope in context.suite.envelopes:
        if envelope.holds:
            findings += [*_fits(context, envelope), _weight(context, envelope)]
        if envelope.liner is not None:
            findings += [*_liner(envelope), *_liner_art(context, envelope, envelope.liner)]
    return findings


def _fits(context: SuiteContext, envelope: Envelope) -> list[Finding]:
    suite = context.suite
    stack = contents(suite, envelope)
    sizes = {
        name: (suite.piece(name).die.width_in, suite.piece(name).die.height_in)
        for name in envelope.holds
    }
    sizes |= {
        inner.title: (inner.size.width_in, inner.size.height_in)
        for inner in inside(suite, envelope)
    }
    # One flat card lies in the pocket as it is; only a stack makes the pocket belly.
    bulk_in = stack.thickness_in if len(sizes) > 1 else 0.0
    plays = {name: play(envelope.size, *size, bulk_in) for name, size in sizes.items()}
    findings = [f for name in sizes if (f := _too_tight(envelope, name, plays[name])) is not None]
    largest = max(sizes, key=lambda name: sizes[name][0] * sizes[name][1])
    loose = _too_loose(envelope, largest, plays[largest], stack.thickness_in)
    return [*findings, *([loose] if loose else [])]


def _too_tight(envelope: Envelope, name: str, room: Play) -> Finding | None:
    least = min(room)
    if least >= TIGHT_CLEARANCE_IN - 1e-9:
        return None
    severity = Severity.STOP if least < 0 else Severity.WARN
    limit = Limit(TIGHT_CLEARANCE_IN, "in", COMMON)
    message = (
        f"{name} has {room.width_in:+.3f} in of play in the length and {room.height_in:+.3f} in "
        f"in the height of {envelope.size.name}, what the stack's thickness takes is taken off"
    )
    fix = f"take an envelope {CLEARANCE_IN:g} in larger than the card each way, or thinner paper"
    return found("fit", severity, owner(envelope), message, fix, limit, least)


def _too_loose(envelope: Envelope, name: str, room: Play, thickness_in: float) -> Finding | None:
    most = LOOSE_THIN_IN if thickness_in <= THIN_IN else LOOSE_THICK_IN
    if max(room) <= most:
        return None
    message = f"{name}, the largest in {envelope.size.name}, can move {max(room):.2f} in"
    limit = Limit(most, "in", ROYAL_MAIL)
    fix = "take a smaller envelope, or hold the cards with a band"
    return found("fit", Severity.WARN, owner(envelope), message, fix, limit, max(room))


def _weight(context: SuiteContext, envelope: Envelope) -> Finding:
    stack = posted(context.suite, envelope)
    off = GRAMMAGE_TOLERANCE * 100
    message = (
        f"weighs {stack.weight_g:.1f} g ({stack.weight_g / OUNCE_G:.2f} oz) ± {off:.0f} % and "
        f"lies {stack.thickness_in:.3f} in thick ({in_to_mm(stack.thickness_in):.1f} mm), at most "
        f"{stack.most_thick_in:.3f} in"
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


def _liner(envelope: Envelope) -> list[Finding]:
    """Returns where the liner would keep the flap from closing, show its raw edge, or not go in."""
    fit = liner_fit(envelope.spec, liner_in_envelope(envelope.spec))
    rows = (
        (fit.gum_clearance_in, GUM_BARE_IN, Severity.STOP, "the liner covers the gum by {} in",
         "inset the liner by that much more from the flap's edge"),
        (fit.hidden_in, RAW_EDGE_HIDDEN_IN, Severity.WARN,
         "the liner's raw edge lies {} in below the throat: it may show",
         "make the liner longer, or the throat shallower"),
        (fit.side_play_in, SIDE_PLAY_IN, Severity.WARN,
         "the liner is only {} in narrower than the envelope: it may not slide in",
         "make the liner narrower"),
    )  # fmt: skip
    return [
        found(
            "liner", severity, owner(envelope), text.format(f"{abs(value):.3f}"), fix,
            Limit(least, "in", COMMON), value,
        )
        for value, least, severity, text, fix in rows
        if value < least - 1e-9
    ]  # fmt: skip


def _liner_art(context: SuiteContext, envelope: Envelope, liner: Liner) -> list[Finding]:
    """Returns whether the liner's art is large enough for the liner of this envelope."""
    page = read_page(liner.art)
    box = liner_in_envelope(envelope.spec).box
    bleed = context.suite.bleed_in
    have = (page.visible.width, page.visible.height)
    need = (box.width + 2 * bleed, box.height + 2 * bleed)
    short = max(need[0] - have[0], need[1] - have[1])
    if page.trim is not None and page.trim != page.visible:
        have, need = (page.trim.width, page.trim.height), (box.width, box.height)
        short = max(need[0] - have[0], need[1] - have[1])
    if short <= SIZE_TOLERANCE_IN:
        return []
    message = f"the liner's art is {format_size(*have)}; the liner needs {format_size(*need)}"
    fix = f"draw it {short:.3f} in larger, or take the envelope it was drawn for"
    limit = Limit(SIZE_TOLERANCE_IN, "in", "the liner cut for this envelope")
    return [found("liner", Severity.STOP, owner(envelope), message, fix, limit, -short)]
