"""The studio's list of findings, numbered as they are beside the pieces."""

from __future__ import annotations

from collections.abc import Sequence

from mockup.checks.finding import Finding
from mockup.colour.plates import Plates
from mockup.geometry.point import Point
from mockup.output.pdf import Pdf
from mockup.output.proof.grid import CLOSE, LEFT_IN, PAPERS_IN, TAIL_IN, draw_title, title_end
from mockup.output.proof.plan import Page, Telling
from mockup.output.typography import QUIET, Style, wrapped

_FIX = Style("text", CLOSE.size_pt, CLOSE.leading_pt, QUIET)
_NUMBER_IN = 0.35
_AFTER_IN = 0.09


def finding_pages(telling: Telling) -> list[Page]:
    """Returns the pages of what was found; none where nothing was."""
    width, height = PAPERS_IN[telling.suite.paper]
    measure = width - 2 * LEFT_IN - _NUMBER_IN
    pages: list[list[tuple[int, Finding]]] = []
    y = height
    for number, finding in enumerate(telling.findings, 1):
        high = _height(finding, measure)
        if y + high > height - TAIL_IN:
            pages.append([])
            y = title_end(_title(len(pages)), measure) + CLOSE.leading_in
        pages[-1].append((number, finding))
        y += high
    return [_page(_title(n), width, height, listed) for n, listed in enumerate(pages, 1)]


def _title(number: int) -> str:
    return "Findings" if number == 1 else "Findings, continued"


def _page(
    title: str, width_in: float, height_in: float, listed: Sequence[tuple[int, Finding]]
) -> Page:
    def draw(pdf: Pdf, drawn: Sequence[Plates]) -> None:
        draw_title(pdf, title)
        measure = width_in - 2 * LEFT_IN - _NUMBER_IN
        at = Point(LEFT_IN + _NUMBER_IN, title_end(title, measure) + CLOSE.leading_in)
        for number, finding in listed:
            pdf.text(Point(LEFT_IN, at.y), str(number), CLOSE)
            at = pdf.paragraph(at, _told(finding), CLOSE, measure)
            at = pdf.paragraph(at, _mends(finding), _FIX, measure)
            at = Point(at.x, at.y + _AFTER_IN)

    return Page(title, width_in, height_in, draw)


def _told(finding: Finding) -> str:
    word = "accepted" if finding.accepted is not None else finding.severity.word
    return f"{word}, {finding.piece}, {finding.check}: {finding.message}"


def _mends(finding: Finding) -> str:
    return finding.accepted or finding.fix


def _height(finding: Finding, measure_in: float) -> float:
    lines = sum(
        len(wrapped(text, style, measure_in))
        for text, style in ((_told(finding), CLOSE), (_mends(finding), _FIX))
    )
    return lines * CLOSE.leading_in + _AFTER_IN
