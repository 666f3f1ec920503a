"""Cards that no envelope holds: what the post takes them for without one."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from mockup.checks.finding import Finding, Severity, found
from mockup.checks.post_address import Ground, machine_findings
from mockup.checks.post_words import reason_finding, reason_told, table_told
from mockup.colour.srgb import parse_hex
from mockup.geometry.measure import area
from mockup.suite.suite import Piece, Suite
from mockup.trade.papers import weight_g
from mockup.trade.postal import ADVICE, SHAPE, PostalClass, Reason, bare_shape, classify_card
from mockup.trade.postal_tables import PostalOperator
from mockup.trade.tolerances import Limit
from mockup.units import MIL_PER_INCH, Unit

CHECK = "post"
_SQUARE_CORNERED = ("rectangle", "rounded-corner")
_POST_CARD = ("postcard", "post card", "post-card", "postkarte", "carte postale")


def bare_pieces(operator: PostalOperator, suite: Suite, units: Unit) -> list[Finding]:
    """Returns what the post says of every card that no envelope holds.

    Warnings for post cards, called so by their name or size, and where the suite's other cards
    have envelopes; else, for nobody says that such a card is posted at all, a note.
    """
    held = {name for envelope in suite.envelopes for name in envelope.holds}
    findings: list[Finding] = []
    for piece in suite.pieces:
        if piece.name in held or piece.wraps is not None:
            continue
        reasons = list(_reasons(operator, piece))
        if is_post_card(piece):
            measured = [each for each in reasons if each.rule != SHAPE]
            findings += [reason_finding(operator, piece.name, each, units) for each in measured]
            findings += machine_findings(operator, _ground(piece))
        if held or is_post_card(piece):
            findings += [_shape(operator, piece, each) for each in _shape_reasons(operator, piece)]
        findings.append(_noted(operator, piece, reasons, units))
    return findings


def _ground(piece: Piece) -> Ground:
    """Returns the paper of a card's address side: nobody says that anything is printed there."""
    stock = piece.stock
    return Ground(
        piece.name, parse_hex(stock.colour_hex), f"the back of {stock.name}", stock.coated
    )


def is_post_card(piece: Piece) -> bool:
    """Returns whether a card is meant to be posted bare: its name, title or size says so."""
    words = f"{piece.name} {piece.title} {piece.card.name}".lower()
    return any(word in words for word in _POST_CARD)


def _reasons(operator: PostalOperator, piece: Piece) -> Iterator[Reason]:
    """Yields what keeps a card from going bare, or makes it dearer, addressed along its length."""
    yield from _shape_reasons(operator, piece)
    yield from _verdict(operator, piece).reasons
    for rule, sign in (("card_grammage_least", 1), ("card_grammage_most", -1)):
        limit = operator.limits.get(rule)
        if limit is not None and sign * (limit.value - piece.stock.gsm) > 0:
            told = "weight of its paper"
            gsm = piece.stock.gsm
            yield Reason(told, "next class", gsm, limit.value, limit.unit, limit.source)


def _noted(operator: PostalOperator, piece: Piece, reasons: list[Reason], units: Unit) -> Finding:
    verdict = _verdict(operator, piece)
    refused = verdict.name is None or any(each.effect == "not accepted" for each in reasons)
    told = f"posted bare it is a {verdict.name}"
    if refused:
        told = "it cannot be posted bare"
    if reasons:
        told += f" ({_first_told(operator, reasons, units)})"
    message = f"{operator.title}: no envelope holds it; {told}"
    source = f"{verdict.source}; {table_told(operator)}"
    return Finding(CHECK, Severity.NOTE, piece.name, message, ADVICE, source=source)


def _first_told(operator: PostalOperator, reasons: list[Reason], units: Unit) -> str:
    first = min(reasons, key=lambda each: each.effect != "not accepted")
    if first.rule == SHAPE and not np.isfinite(first.value):
        return "only a rectangle may"
    return reason_told(operator, first, units)


def _verdict(operator: PostalOperator, piece: Piece) -> PostalClass:
    """Returns the class of a card posted bare, addressed along its length."""
    short, long = sorted((piece.die.width_in, piece.die.height_in))
    panels = 1 if piece.fold is None else 2
    thickness_in = panels * piece.stock.caliper_mil / MIL_PER_INCH
    grams = weight_g(panels * area(piece.die.shape), piece.stock.gsm)
    return classify_card(operator, long, short, thickness_in, grams)


def _shape_reasons(operator: PostalOperator, piece: Piece) -> list[Reason]:
    is_rectangle = piece.die.name in _SQUARE_CORNERED
    radii = [v for k, v in piece.die.parameters if k == "radius" and isinstance(v, int | float)]
    reason = bare_shape(operator, is_rectangle, float(radii[0]) if radii else 0.0)
    return [] if reason is None else [reason]


def _shape(operator: PostalOperator, piece: Piece, reason: Reason) -> Finding:
    message = f"{operator.title}: no envelope holds it, and its shape is not posted bare"
    fix = f"put it in an envelope: name it in `holds`. {ADVICE}"
    limit = Limit(reason.limit, reason.unit, reason.source)
    value = reason.value if np.isfinite(reason.value) else None
    return found(CHECK, Severity.WARN, piece.name, message, fix, limit, value)
