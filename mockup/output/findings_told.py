"""Findings as a designer reads them on a terminal: one or two lines each, the remedy below."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Literal

from mockup.checks.finding import Finding, Severity
from mockup.checks.post import CHECK as POST
from mockup.checks.post import operator_of
from mockup.trade.postal import ADVICE
from mockup.units import INCHES_PER_UNIT, Unit, format_length

Kind = Literal["stop", "warning", "note", "accepted", "more", "remedy", "why", "head"]
"""What a line is: the first of a finding, by its word; more of it; its remedy; limit and source."""

INDENT = 4
LINES = 2  # a finding and its remedy, where they are short
NARROWEST = 40  # judgement: columns below which nothing can be read anyway


@dataclass(frozen=True)
class Told:
    """One line of a terminal."""

    kind: Kind
    text: str


def findings_told(findings: Sequence[Finding], unit: Unit, columns: int, why: bool) -> list[Told]:
    """Returns the lines that tell findings, in their order and by their numbers.

    Findings one after another with one remedy tell it once. What the post says comes by itself,
    under its own head. With `why` the check's name, the limit and the source are told as well.
    """
    if not findings:
        return [Told("head", "Nothing found.")]
    numbered = list(enumerate(findings, 1))
    lines: list[Told] = []
    for operator, own in groupby(numbered, key=lambda pair: _operator(pair[1])):
        if operator:
            lines += [Told("head", ""), Told("head", f"By post, {operator}. {ADVICE}")]
        for remedy, alike in groupby(own, key=lambda pair: _remedy(pair[1])):
            lines += _alike_lines(list(alike), remedy, unit, max(columns, NARROWEST), why)
    return [*lines, Told("head", ""), Told("head", summary(findings))]


def summary(findings: Iterable[Finding]) -> str:
    """Returns how many there are of each kind: `1 stop, 2 warnings, 0 notes`."""
    every = list(findings)
    told = [
        severity.counted(sum(f.severity is severity and f.accepted is None for f in every))
        for severity in sorted(Severity, reverse=True)
    ]
    accepted = sum(f.accepted is not None for f in every)
    return ", ".join([*told, *([f"{accepted} accepted"] if accepted else [])])


def place_told(finding: Finding, unit: Unit) -> str:
    """Returns where a finding is, from the card's top left: ` at 4.96, 3.21 in`; or nothing."""
    if finding.at is None:
        return ""
    decimals = 2 if unit == "in" else 1
    # Adding nought turns a minus nought into a plain one.
    across, down = (round(v / INCHES_PER_UNIT[unit], decimals) + 0.0 for v in finding.at)
    return f", at {across:g}, {down:g} {unit}"


def why_told(finding: Finding, unit: Unit) -> str:
    """Returns a check's name, its limit and where that comes from."""
    parts = [finding.check]
    if finding.limit is not None:
        parts.append(f"limit {_limit_told(finding.limit, finding.unit, unit)}")
    return f"{', '.join(parts)}{f': {finding.source}' if finding.source else ''}"


def _limit_told(limit: float, given: str, unit: Unit) -> str:
    if given in ("in", "mm"):
        return format_length(limit * INCHES_PER_UNIT[given], unit)
    return f"{limit:.4g} {given}".strip()


def _operator(finding: Finding) -> str:
    return operator_of(finding) if finding.check == POST else ""


def _remedy(finding: Finding) -> str:
    """Returns what is told below a finding; of the post's advice the head has said it."""
    return (finding.accepted or finding.fix).removesuffix(ADVICE).rstrip(" .")


def _alike_lines(
    alike: Sequence[tuple[int, Finding]], remedy: str, unit: Unit, columns: int, why: bool
) -> list[Told]:
    """Returns findings of one remedy: it follows in the line where that saves one, else below."""
    lines = [
        line
        for number, finding in alike
        for line in _finding_lines(number, finding, "", unit, columns, why)
    ]
    if not remedy:
        return lines
    lines += _wrapped("remedy", f"→ {remedy}", columns)
    if why or len(alike) > 1 or len(lines) <= LINES:
        return lines
    joined = _finding_lines(*alike[0], f" → {remedy}", unit, columns, why)
    return min(lines, joined, key=len)


def _finding_lines(
    number: int, finding: Finding, after: str, unit: Unit, columns: int, why: bool
) -> list[Told]:
    word = "accepted" if finding.accepted is not None else finding.severity.word
    message = finding.message.removeprefix(f"{_operator(finding)}: ")
    told = f"{word}, {finding.piece}: {message}{place_told(finding, unit)}{after}"
    first = f"{number:>{INDENT - 2}}  "
    rows = textwrap.wrap(told, columns, initial_indent=first, subsequent_indent=" " * INDENT)
    lines = [Told(word, rows[0]), *(Told("more", row) for row in rows[1:])]  # type: ignore[arg-type]
    if why:
        lines += _wrapped("why", why_told(finding, unit), columns)
    return lines


def _wrapped(kind: Kind, text: str, columns: int) -> list[Told]:
    further = " " * (INDENT + 2)
    rows = textwrap.wrap(text, columns, initial_indent=" " * INDENT, subsequent_indent=further)
    return [Told(kind, row) for row in rows]
