"""Findings as a machine reads them, in the order they were found."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from mockup.checks.finding import Finding
from mockup.units import INCHES_PER_UNIT, in_to_mm

_LENGTHS = ("in", "mm")  # points are for type and lines, and stay points


def findings_json(findings: Iterable[Finding]) -> dict[str, Any]:
    """Returns {"findings": [...]}: place from the trim's top left, in inches and in millimetres;
    value and limit in `unit`, and in millimetres where that is a length. `side` is there only
    for a piece with a back, `accepted` where the designer gave a reason."""
    return {"findings": [_row(finding) for finding in findings]}


def _row(finding: Finding) -> dict[str, Any]:
    at = finding.at
    row: dict[str, Any] = {
        "check": finding.check,
        "severity": finding.severity.word,
        "piece": finding.piece,
        **({"side": finding.side} if finding.side else {}),
        "at_in": [round(v, 4) for v in at] if at is not None else None,
        "at_mm": [round(in_to_mm(v), 3) for v in at] if at is not None else None,
        "value": _rounded(finding.value, 4),
        "limit": _rounded(finding.limit, 4),
        "unit": finding.unit,
        "value_mm": _in_mm(finding.value, finding.unit),
        "limit_mm": _in_mm(finding.limit, finding.unit),
        "message": finding.message,
        "fix": finding.fix,
        "source": finding.source,
    }
    if finding.accepted is not None:
        row["accepted"] = finding.accepted
    return row


def _rounded(value: float | None, digits: int) -> float | None:
    return None if value is None else round(value, digits)


def _in_mm(value: float | None, unit: str) -> float | None:
    """Returns a length in millimetres; None for what is no length, and for none."""
    if value is None or unit not in _LENGTHS:
        return None
    return round(in_to_mm(value * INCHES_PER_UNIT[unit]), 3)
