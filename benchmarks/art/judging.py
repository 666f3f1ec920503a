"""What came of a page: faults told at their place with their measure, and what was told besides."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from benchmarks.art.plan import INKS, Page
from mockup.artwork.art import art_of
from mockup.checks.finding import Finding, Severity
from mockup.checks.running import check_pieces
from mockup.checks.settings import Settings
from mockup.reading.page import left_out_of_each
from mockup.suite.suite import Piece
from tests.checks.bench.case import matches

_ONE_GO = 24  # judgement: so many pieces are handed to the workers together


@dataclass(frozen=True)
class Judged:
    """One page with what was found on it, and how many of its marks a client would not see."""

    page: Page
    findings: tuple[Finding, ...]
    left_out: int

    @property
    def told(self) -> bool:
        """Whether every fault of the page is told, at its place and with its measure."""
        return all(any(matches(f, fault) for f in self.findings) for fault in self.page.faults)

    @property
    def stops(self) -> list[Finding]:
        """Stops on it, but for those its faults account for."""
        return self._besides(Severity.STOP)

    @property
    def warnings(self) -> list[Finding]:
        """Warnings on it, but for those its faults account for."""
        return self._besides(Severity.WARN)

    def _besides(self, severity: Severity) -> list[Finding]:
        known = {fault.check for fault in self.page.faults}
        if self.page.program not in INKS:
            known.add("rgb")  # true: the program saves nothing else
        return [f for f in self.findings if f.severity == severity and f.check not in known]


def judge(pages: Sequence[Page], folder: Path) -> list[Judged]:
    """Returns what came of every page that has been saved."""
    judged: list[Judged] = []
    for start in range(0, len(pages), _ONE_GO):
        own = pages[start : start + _ONE_GO]
        pieces = [_piece(page, folder) for page in own]
        findings = check_pieces(pieces, Settings())
        counts = [len(numbers) for numbers in left_out_of_each(pieces)]
        for page, count in zip(own, counts, strict=True):
            of_it = tuple(f for f in findings if f.piece == page.name)
            judged.append(Judged(page, of_it, count))
    return judged


def _piece(page: Page, folder: Path) -> Piece:
    piece = page.scene.case.piece(page.file(folder))
    return replace(piece, name=page.name, art=art_of(page.file(folder)))
