"""A finding: what is wrong with a piece, where, how much, the limit and its source, the fix."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import IntEnum

from mockup.errors import ExitCode
from mockup.geometry.point import Point
from mockup.suite.suite import Acceptance, SideName
from mockup.trade.tolerances import Limit


class Severity(IntEnum):
    """How much a finding matters: a note is good to know, a stop spoils the print."""

    NOTE = 0
    WARN = 1
    STOP = 2

    @property
    def word(self) -> str:
        """The word a reader sees, and a machine."""
        return _WORDS[self]

    def counted(self, count: int) -> str:
        """Returns the word with a number: `1 stop`, `2 warnings`."""
        return f"{count} {self.word}{'' if count == 1 else 's'}"


_WORDS = {Severity.NOTE: "note", Severity.WARN: "warning", Severity.STOP: "stop"}


@dataclass(frozen=True)
class Finding:
    """One thing found. `at` is in inches from the top left of the piece's trim, where it has one
    place; `value` and `limit` are in `unit`. `accepted` is the designer's reason, once given."""

    check: str
    severity: Severity
    piece: str
    message: str
    fix: str
    at: Point | None = None
    value: float | None = None
    limit: float | None = None
    unit: str = ""
    source: str = ""
    accepted: str | None = None
    side: SideName = ""
    """Which side of the piece it is on, where it has two; `at` is then as that side is seen."""


def found(
    check: str,
    severity: Severity,
    piece: str,
    message: str,
    fix: str,
    limit: Limit | None = None,
    value: float | None = None,
    at: Point | None = None,
) -> Finding:
    """Returns a finding measured against one of the trade's limits, in that limit's unit."""
    if limit is None:
        return Finding(check, severity, piece, message, fix, at, value)
    return Finding(
        check, severity, piece, message, fix, at, value, limit.value, limit.unit, limit.source
    )


def with_acceptances(findings: Iterable[Finding], accepted: Iterable[Acceptance]) -> list[Finding]:
    """Returns the findings, those the designer accepted marked with her reason."""
    reasons = {(each.check, each.piece): each.reason for each in accepted}

    def reason(finding: Finding) -> str | None:
        return reasons.get((finding.check, finding.piece)) or reasons.get((finding.check, "*"))

    return [replace(finding, accepted=reason(finding)) for finding in findings]


def exit_code(findings: Iterable[Finding]) -> ExitCode:
    """Returns what the process answers: the worst of what is not accepted."""
    worst = max((f.severity for f in findings if f.accepted is None), default=Severity.NOTE)
    return {Severity.STOP: ExitCode.STOPS, Severity.WARN: ExitCode.WARNINGS}.get(
        worst, ExitCode.DONE
    )
