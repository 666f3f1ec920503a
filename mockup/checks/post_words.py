"""What the post's rules say of a piece, in words: lengths in the reader's units, weights in the
post office's."""

from __future__ import annotations

from mockup.checks.finding import Finding, Severity, found
from mockup.trade.postal import ADVICE, Reason
from mockup.trade.postal_tables import G_PER_OZ, PostalOperator
from mockup.trade.tolerances import Limit
from mockup.units import Unit, format_length

_SEVERITIES = {
    "not accepted": Severity.STOP,
    "next class": Severity.WARN,
    "by hand": Severity.WARN,
    "borderline": Severity.WARN,
}
_CONSEQUENCES = {
    "not accepted": "it is not accepted by post",
    "next class": "it goes in a dearer class",
    "by hand": "machines cannot sort it, which costs more",
    "borderline": "it is just inside the limit, which a tolerance may lose",
}


def reason_finding(operator: PostalOperator, owner: str, reason: Reason, units: Unit) -> Finding:
    """Returns a finding of one rule that a piece meets badly."""
    message = f"{operator.title}: {reason_told(operator, reason, units)}"
    fix = f"take another envelope, or allow for the price. {ADVICE}"
    limit = Limit(reason.limit, reason.unit, reason.source)
    return found("post", _SEVERITIES[reason.effect], owner, message, fix, limit, reason.value)


def reason_told(operator: PostalOperator, reason: Reason, units: Unit) -> str:
    """Returns what a rule measures, what it asks, and what follows."""
    if "thickness" in reason.rule and units == "in":  # a post card's limits need the fourth decimal
        value, limit = (f"{each:.4g} in" for each in (reason.value, reason.limit))
    else:
        value, limit = (
            _measure_told(operator, each, reason.unit, units)
            for each in (reason.value, reason.limit)
        )
    return f"{reason.rule} {value}, limit {limit}: {_CONSEQUENCES[reason.effect]}"


def weight_told(operator: PostalOperator, weight_g: float) -> str:
    """Returns a weight as the post office counts it: `27.3 g`, `0.96 oz`."""
    if operator.weighs_in == "g":
        return f"{weight_g:.1f}".removesuffix(".0") + " g"
    return f"{weight_g / G_PER_OZ:.2f}".rstrip("0").rstrip(".") + " oz"


def table_told(operator: PostalOperator) -> str:
    """Returns how old a table is, for a source."""
    return f"table: {operator.as_of}"


def _measure_told(operator: PostalOperator, value: float, unit: str, units: Unit) -> str:
    if unit == "in":
        return format_length(value, units)
    return weight_told(operator, value) if unit == "g" else f"{value:.4g} {unit}".strip()
