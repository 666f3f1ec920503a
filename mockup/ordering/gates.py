"""What stands against an order: open stops of the checks, a missing yes, what a printer does not
do."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from mockup.checks.finding import Finding, Severity
from mockup.record.status import Standing, Status
from mockup.suite.suite import Suite

_NO_YES = {
    "to change": "a change was asked for, not a yes",
    "changed": "approved once, changed since",
    "waiting": "proofed, and not answered",
    "not proofed": "not proofed as it is now",
}


def stops_told(findings: Iterable[Finding]) -> list[str]:
    """Returns a line for every stop that the designer did not accept."""
    return [
        f"{each.piece}: stop: {each.message}; {each.fix}"
        for each in findings
        if each.severity is Severity.STOP and each.accepted is None
    ]


def without_yes(status: Status) -> list[str]:
    """Returns a line for every piece and envelope not approved as it is now, and for whatever in
    the record does not count."""
    told = [_no_yes(each) for each in status.standings if each.state != "approved"]
    return [*told, *status.told]


def without_quantity(suite: Suite) -> list[str]:
    """Returns a line for every piece and envelope of which no number is said."""
    names = [each.name for each in suite.pieces if each.quantity is None]
    names += [f"envelopes.{each.name}" for each in suite.envelopes if each.quantity is None]
    return [f"{name}: no quantity is said; write quantity = 100" for name in names]


def _no_yes(standing: Standing) -> str:
    changed: Sequence[str] = standing.changed if standing.state == "changed" else ()
    what = f" ({'; '.join(changed)})" if changed else ""
    return f"{standing.item.name}: no yes: {_NO_YES[standing.state]}{what}"
