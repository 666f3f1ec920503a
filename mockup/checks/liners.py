"""The liner: does it leave the gum bare, hide its edge, slide in; is its art the liner's size?"""

from __future__ import annotations

from dataclasses import replace

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
from mockup.envelopes.spec import FLAPS, envelope_spec
from mockup.suite.suite import Envelope, Liner
from mockup.trade.tolerances import COMMON, Limit

CHECK = "liner"
SAME_SIZE_IN = 0.03  # judgement: a liner's page rounded to millimetres; flaps differ by an inch


def check_liners(context: SuiteContext) -> list[Finding]:
    """Returns what is wrong with the liners and their art."""
    findings: list[Finding] = []
    for envelope in context.suite.envelopes:
        if envelope.liner is not None:
            findings += [*_fit(context, envelope), *_art(context, envelope, envelope.liner)]
    return findings


def _fit(context: SuiteContext, envelope: Envelope) -> list[Finding]:
    """Returns where the liner would keep the flap from closing, show its raw edge, or not go in."""
    fit = liner_fit(envelope.spec, liner_in_envelope(envelope.spec))
    rows = (
        (fit.gum_clearance_in, GUM_BARE_IN, Severity.STOP, "the liner covers the gum by {}",
         "inset the liner by that much more from the flap's edge"),
        (fit.hidden_in, RAW_EDGE_HIDDEN_IN, Severity.WARN,
         "the liner's raw edge lies {} below the throat: it may show",
         "make the liner longer, or the throat shallower"),
        (fit.side_play_in, SIDE_PLAY_IN, Severity.WARN,
         "the liner is only {} narrower than the envelope: it may not slide in",
         "make the liner narrower"),
    )  # fmt: skip
    return [
        found(
            CHECK, severity, owner(envelope), text.format(context.settings.length(abs(value))), fix,
            Limit(least, "in", COMMON), value,
        )
        for value, least, severity, text, fix in rows
        if value < least - 1e-9
    ]  # fmt: skip


def _art(context: SuiteContext, envelope: Envelope, liner: Liner) -> list[Finding]:
    """Returns whether the liner's art is of the size of the liner of this envelope and flap."""
    page = read_page(liner.art)
    box, bleed = liner_in_envelope(envelope.spec).box, context.suite.bleed_in
    have = (page.visible.width, page.visible.height)
    need = (box.width + 2 * bleed, box.height + 2 * bleed)
    if page.trim is not None and page.trim != page.visible:
        have, need = (page.trim.width, page.trim.height), (box.width, box.height)
    missing = max(need[0] - have[0], need[1] - have[1])
    spare = max(have[0] - need[0], have[1] - need[1])
    length, size = context.settings.length, context.settings.size
    limit = Limit(SIZE_TOLERANCE_IN, "in", "the liner cut for this envelope and flap")
    message = f"the liner's art is {size(*have)}; the liner needs {size(*need)}"
    if missing > SIZE_TOLERANCE_IN:
        fix = f"draw it {length(missing)} larger, or take the envelope it was drawn for"
        return [found(CHECK, Severity.STOP, owner(envelope), message, fix, limit, -missing)]
    if spare <= SIZE_TOLERANCE_IN:
        return []
    drawn_for = _flap_of(envelope, (have[0] - need[0], have[1] - need[1]))
    if drawn_for is None:
        message += ": its middle is used"
        fix = "nothing, if liners are cut from the middle of that; else draw it to size"
        return [found(CHECK, Severity.NOTE, owner(envelope), message, fix, limit, spare)]
    message += f": {length(spare)} of it is cut away"
    fix = f'draw it for this flap, or say flap = "{drawn_for}", which it was drawn for'
    return [found(CHECK, Severity.WARN, owner(envelope), message, fix, limit, spare)]


def _flap_of(envelope: Envelope, larger_by: tuple[float, float]) -> str | None:
    """Returns the flap whose liner is larger than this one's by just so much, if one is."""
    spec = envelope.spec
    box = liner_in_envelope(spec).box
    for flap in FLAPS:
        other = envelope_spec(spec.width_in, spec.height_in, flap)
        lined = liner_in_envelope(
            replace(other, liner_bottom_in=spec.liner_bottom_in, liner_inset_in=spec.liner_inset_in)
        ).box
        off = (lined.width - box.width - larger_by[0], lined.height - box.height - larger_by[1])
        if flap != spec.flap and max(map(abs, off)) < SAME_SIZE_IN:
            return flap
    return None
