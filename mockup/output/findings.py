"""Findings as a machine reads them, in the order they were found."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from mockup.checks.finding import Finding


def findings_json(findings: Iterable[Finding]) -> dict[str, Any]:
    """Returns {"findings": [...]}: place in inches from the trim's top left, value and limit in
    `unit`. `accepted` is there only where the designer gave a reason."""
    return {"findings": [_row(finding) for finding in findings]}


def _row(finding: Finding) -> dict[str, Any]:
    row: dict[str, Any] = {
        "check": finding.check,
        "severity": finding.severity.word,
        "piece": finding.piece,
        "at_in": [round(v, 4) for v in finding.at] if finding.at is not None else None,
        "value": round(finding.value, 4) if finding.value is not None else None,
        "limit": round(finding.limit, 4) if finding.limit is not None else None,
        "unit": finding.unit,
        "message": finding.message,
        "fix": finding.fix,
        "source": finding.source,
    }
    if finding.accepted is not None:
        row["accepted"] = finding.accepted
    return row
