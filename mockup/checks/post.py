"""Post: class, machine sorting, weight step, and address contrast of envelopes.

By dated copies of operators' tables; every finding ends with the advice to ask.
"""

from __future__ import annotations

from mockup.checks.finding import Finding, Severity, found
from mockup.checks.post_address import Ground, machine_findings, reader_findings
from mockup.checks.post_bare import bare_pieces
from mockup.checks.post_words import reason_finding, table_told, weight_told
from mockup.checks.suite_context import SuiteContext, owner
from mockup.reading.envelope_type import ink_colour, ink_of
from mockup.reading.stack import Stack, posted, posted_envelopes
from mockup.suite.suite import Envelope
from mockup.trade.papers import GRAMMAGE_TOLERANCE
from mockup.trade.postal import ADVICE, PostalClass, classify, zones
from mockup.trade.postal_tables import G_PER_OZ, PostalOperator, postal_operator
from mockup.trade.tolerances import Limit
from mockup.units import INCHES_PER_UNIT, Unit

CHECK = "post"


def check_post(context: SuiteContext) -> list[Finding]:
    """Returns what the post says of every envelope, and of cards that none holds, by each
    operator's table."""
    findings: list[Finding] = []
    units, because = context.settings.units, context.settings.operators_because
    for envelope in posted_envelopes(context.suite.envelopes):
        findings += reader_findings(_ground(envelope))
    for name in context.settings.operators:
        operator = postal_operator(name)
        for envelope in posted_envelopes(context.suite.envelopes):
            stack = posted(context.suite, envelope)
            findings += _class(operator, envelope, stack, units, because)
            findings += machine_findings(operator, _ground(envelope))
            findings += _zones(operator, envelope, units)
        findings += bare_pieces(operator, context.suite, units)
    return findings


def operator_of(finding: Finding) -> str:
    """Returns whose rule a finding tells: its message begins with the operator's name."""
    return finding.message.partition(": ")[0]


def _class(
    operator: PostalOperator, envelope: Envelope, stack: Stack, units: Unit, because: str
) -> list[Finding]:
    size = envelope.size
    verdict = classify(operator, size.width_in, size.height_in, stack.thickness_in, stack.weight_g)
    reasons = verdict.reasons
    findings = [reason_finding(operator, owner(envelope), each, units) for each in reasons]
    if verdict.name is None:
        return findings
    return [
        *findings,
        *_near_step(operator, envelope, stack, verdict),
        _told_class(operator, envelope, stack, verdict, because),
    ]


def _near_step(
    operator: PostalOperator, envelope: Envelope, stack: Stack, verdict: PostalClass
) -> list[Finding]:
    """Returns a warning where the paper's tolerance may carry the weight over its step."""
    step = verdict.weight_step_g
    if step is None or stack.most_g <= step:
        return []
    message = (
        f"{operator.title}: {weight_told(operator, stack.weight_g)} is "
        f"{stack.weight_g / step * 100:.0f} % of the step of {weight_told(operator, step)}; paper "
        f"may be {GRAMMAGE_TOLERANCE * 100:.0f} % heavier: {weight_told(operator, stack.most_g)}"
    )
    fix = f"weigh one made up before buying stamps, or leave out a card. {ADVICE}"
    a_unit_g = G_PER_OZ if operator.weighs_in == "oz" else 1.0
    limit = Limit(step / a_unit_g, operator.weighs_in, verdict.source)
    value = stack.most_g / a_unit_g
    return [found(CHECK, Severity.WARN, owner(envelope), message, fix, limit, value)]


def _told_class(
    operator: PostalOperator, envelope: Envelope, stack: Stack, verdict: PostalClass, because: str
) -> Finding:
    step = verdict.weight_step_g
    up_to = f", the step up to {weight_told(operator, step)}" if step is not None else ""
    by_hand = ", sorted by hand" if verdict.by_hand else ""
    weight = weight_told(operator, stack.weight_g)
    message = f"{operator.title}: {verdict.name}{by_hand}{up_to} ({weight})"
    if because:
        message += f"; the country is {because}"
    source = f"{verdict.source}; {table_told(operator)}"
    return Finding(CHECK, Severity.NOTE, owner(envelope), message, ADVICE, source=source)


def _zones(operator: PostalOperator, envelope: Envelope, units: Unit) -> list[Finding]:
    """Returns a note of the places on the address side to keep for the post."""

    def figures(first_in: float, last_in: float) -> str:
        sides = (side / INCHES_PER_UNIT[units] for side in (first_in, last_in))
        return " to ".join(f"{side:.2f}" if units == "in" else f"{side:.0f}" for side in sides)

    kept = [
        f"{zone.name} x {figures(zone.box.left, zone.box.right)}, "
        f"y {figures(zone.box.top, zone.box.bottom)} {units}"
        for zone in zones(operator, envelope.size.width_in, envelope.size.height_in)
    ]
    if not kept:
        return []
    message = f"{operator.title}: on the address side, {'; '.join(kept)}"
    fix = f"print nothing else there. {ADVICE}"
    source = "; ".join(rule.source for rule in operator.zones)
    return [Finding(CHECK, Severity.NOTE, owner(envelope), message, fix, source=source)]


def _ground(envelope: Envelope) -> Ground:
    """Returns the paper of an envelope, and the ink of her own address, where that is no black."""
    ground = Ground(owner(envelope), envelope.colour, envelope.colour_name, envelope.stock.coated)
    address = envelope.outside.address
    if address is None or ink_of(envelope, address) == "black":
        return ground
    ink = ink_of(envelope, address)
    called = "white-ink" if ink == "white" else "coloured"
    return ground._replace(ink=ink_colour(envelope, address), ink_called=called)
