"""Post: class, machine sorting, weight step, address contrast, and pieces posted bare.

By dated copies of operators' tables; every finding ends with the advice to ask.
"""

from __future__ import annotations

import numpy as np

from mockup.checks.finding import Finding, Severity, found
from mockup.checks.suite_context import SuiteContext, owner
from mockup.colour.srgb import decode
from mockup.reading.stack import Stack, posted, posted_envelopes
from mockup.suite.suite import Envelope, Piece
from mockup.trade.papers import GRAMMAGE_TOLERANCE
from mockup.trade.postal import ADVICE, PostalClass, Reason, bare_shape, classify, zones
from mockup.trade.postal_tables import PostalOperator, postal_operator
from mockup.trade.tolerances import Limit

CHECK = "post"
BLACK_INK = 0.03  # reflectance of black ink on paper; common practice


def check_post(context: SuiteContext) -> list[Finding]:
    """Returns what the post says of every envelope, by each operator's table."""
    findings: list[Finding] = []
    for name in context.settings.operators:
        operator = postal_operator(name)
        for envelope in posted_envelopes(context.suite.envelopes):
            stack = posted(context.suite, envelope)
            findings += _class(operator, envelope, stack)
            findings += _contrast(operator, envelope)
            findings += _zones(operator, envelope)
        for piece in _bare(context):
            findings += _bare_piece(operator, piece)
    return findings


def _class(operator: PostalOperator, envelope: Envelope, stack: Stack) -> list[Finding]:
    size = envelope.size
    verdict = classify(operator, size.width_in, size.height_in, stack.thickness_in, stack.weight_g)
    findings = [_reason(operator, owner(envelope), reason) for reason in verdict.reasons]
    if verdict.name is None:
        return findings
    return [
        *findings,
        *_near_step(operator, envelope, stack, verdict),
        _told_class(operator, envelope, stack, verdict),
    ]


def _reason(operator: PostalOperator, owner: str, reason: Reason) -> Finding:
    severity = {
        "not accepted": Severity.STOP, "next class": Severity.WARN, "by hand": Severity.WARN,
        "borderline": Severity.WARN,
    }[reason.effect]  # fmt: skip
    consequence = {
        "not accepted": "it is not accepted by post",
        "next class": "it goes in a dearer class",
        "by hand": "machines cannot sort it, which costs more",
        "borderline": "it is just inside the limit, which a tolerance may lose",
    }[reason.effect]
    message = (
        f"{operator.title}: {reason.rule} {reason.value:.4g} {reason.unit}, limit "
        f"{reason.limit:.4g}: {consequence}"
    )
    fix = f"take another envelope, or allow for the price. {ADVICE}"
    limit = Limit(reason.limit, reason.unit, reason.source)
    return found(CHECK, severity, owner, message, fix, limit, reason.value)


def _near_step(
    operator: PostalOperator, envelope: Envelope, stack: Stack, verdict: PostalClass
) -> list[Finding]:
    """Returns a warning where the paper's tolerance may carry the weight over its step."""
    step = verdict.weight_step_g
    if step is None or stack.most_g <= step:
        return []
    message = (
        f"{operator.title}: {stack.weight_g:.1f} g is {stack.weight_g / step * 100:.0f} % of the "
        f"step of {step:.1f} g; paper may be {GRAMMAGE_TOLERANCE * 100:.0f} % heavier: "
        f"{stack.most_g:.1f} g"
    )
    fix = f"weigh one made up before buying stamps, or leave out a sheet. {ADVICE}"
    limit = Limit(step, "g", verdict.source)
    return [found(CHECK, Severity.WARN, owner(envelope), message, fix, limit, stack.most_g)]


def _told_class(
    operator: PostalOperator, envelope: Envelope, stack: Stack, verdict: PostalClass
) -> Finding:
    step = verdict.weight_step_g
    up_to = f", the step up to {step:.1f} g" if step is not None else ""
    by_hand = ", sorted by hand" if verdict.by_hand else ""
    message = f"{operator.title}: {verdict.name}{by_hand}{up_to} ({stack.weight_g:.1f} g)"
    source = f"{verdict.source}; table: {operator.as_of}"
    return Finding(CHECK, Severity.NOTE, owner(envelope), message, ADVICE, source=source)


def _zones(operator: PostalOperator, envelope: Envelope) -> list[Finding]:
    """Returns a note of the places on the address side to keep for the post."""
    kept = [
        f"{zone.name} x {zone.box.left:.2f} to {zone.box.right:.2f}, "
        f"y {zone.box.top:.2f} to {zone.box.bottom:.2f} in"
        for zone in zones(operator, envelope.size.width_in, envelope.size.height_in)
    ]
    if not kept:
        return []
    message = f"{operator.title}: on the address side, {'; '.join(kept)}"
    fix = f"print nothing else there. {ADVICE}"
    source = "; ".join(rule.source for rule in operator.zones)
    return [Finding(CHECK, Severity.NOTE, owner(envelope), message, fix, source=source)]


def _contrast(operator: PostalOperator, envelope: Envelope) -> list[Finding]:
    """Returns a warning where an address in black would not stand out from the envelope's paper.

    Reflectance in red and green is judged by the linear sRGB of the paper's colour, a rough
    stand-in for a meter.
    """
    limit = operator.limits.get("reflectance_difference")
    if limit is None:
        return []
    red, green, _ = decode(np.array(envelope.colour, np.uint8))
    least = float(min(red, green)) - BLACK_INK
    if least >= limit.value:
        return []
    differs = max(least, 0.0)
    message = (
        f"{operator.title}: a black address differs from {envelope.colour_name} by about "
        f"{differs * 100:.0f} % in reflectance; {limit.value * 100:.0f} % is asked, and light type "
        "on dark paper is not read by machine"
    )
    fix = f"address it on a light label or a belly band, or allow for sorting by hand. {ADVICE}"
    return [found(CHECK, Severity.WARN, owner(envelope), message, fix, limit, round(differs, 3))]


def _bare(context: SuiteContext) -> list[Piece]:
    """Returns the pieces that no envelope holds, where the suite has envelopes at all."""
    held = {name for envelope in context.suite.envelopes for name in envelope.holds}
    return [p for p in context.suite.pieces if p.name not in held] if held else []


def _bare_piece(operator: PostalOperator, piece: Piece) -> list[Finding]:
    is_rectangle = piece.die.name in ("rectangle", "rounded-corner")
    radius = next((float(v) for k, v in piece.die.parameters if k == "radius"
                   and isinstance(v, int | float)), 0.0)  # fmt: skip
    reason = bare_shape(operator, is_rectangle, radius)
    if reason is None:
        return []
    message = f"{operator.title}: no envelope holds it, and its shape is not posted bare"
    fix = f"put it in an envelope: name it in `holds`. {ADVICE}"
    limit = Limit(reason.limit, reason.unit, reason.source)
    value = reason.value if np.isfinite(reason.value) else None
    return [found(CHECK, Severity.WARN, piece.name, message, fix, limit, value)]
