"""The whole proof: which pages it has, in which order, and how it is written."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from mockup.artwork.raster import rasterise
from mockup.colour.plates import Plates
from mockup.output.pdf import Pdf, whole_pdf
from mockup.output.proof.aside import asides
from mockup.output.proof.bound import bound_page
from mockup.output.proof.card import card_page
from mockup.output.proof.cover import Row, draw_cover
from mockup.output.proof.envelope import envelope_pages
from mockup.output.proof.findings import finding_pages
from mockup.output.proof.grid import PAPERS_IN, draw_foot, draw_studio_mark
from mockup.output.proof.overlay import overlay_page
from mockup.output.proof.plan import Page, Telling
from mockup.output.proof.promise import promise_page
from mockup.output.proof.signoff import signoff_pages
from mockup.output.proof.watermark import draw_watermark
from mockup.output.proof.words import date_told
from mockup.progress import Progress
from mockup.reading.binding import bound
from mockup.reading.overlaid import overlays

_PLANNED = 0.2  # of the time, measured: pages read and laid out, then drawn
_TOGETHER = 8  # drawings of art held at once: two workers are kept busy, memory stays small

PageMaker = Callable[[Telling], Sequence[Page]]


def _card_pages(telling: Telling) -> list[Page]:
    sides = [(piece, side) for piece in telling.suite.pieces for side in piece.sides]
    pages = [
        card_page(telling, piece, side, aside)
        for (piece, side), aside in zip(sides, asides(telling.suite), strict=True)
    ]
    for each in overlays(telling.suite):
        own = telling.suite.piece(each.sheet.name)
        _put_after(pages, overlay_page(telling, own, each))
    for each in bound(telling.suite):
        _put_after(pages, bound_page(telling, each))
    return pages


def _put_after(pages: list[Page], page: Page) -> None:
    """Puts a page after the last one of the same piece."""
    last = max(k for k, each in enumerate(pages) if each.of is page.of)
    pages.insert(last + 1, page)


def _envelope_pages(telling: Telling) -> list[Page]:
    return [page for each in telling.suite.envelopes for page in envelope_pages(telling, each)]


def _extra_pages(telling: Telling) -> list[Page]:
    return [page for maker in telling.extra for page in maker(telling)]


def _promise_pages(telling: Telling) -> list[Page]:
    return [promise_page(telling)]


MAKERS: tuple[PageMaker, ...] = (
    _card_pages,
    _envelope_pages,
    _extra_pages,
    finding_pages,
    _promise_pages,
    signoff_pages,
)
"""What makes the pages after the cover, in the order they are bound in."""


def write_proof(telling: Telling, path: Path, progress: Progress | None = None) -> int:
    """Writes a proof as PDF, whole or not at all; returns how many pages it has.

    Cut lines, outlines and type are vector, art is raster at 300 pixels an inch of the page or
    less. The same suite, art and picture give the same bytes. Raises InputError and LimitError for
    art that cannot be drawn, OutputError for a file that cannot be written.
    """
    suite = telling.suite
    pages = planned(telling)
    if progress is not None:
        progress(_PLANNED)
    author = suite.designer or ""
    title = f"{suite.title}: proof, revision {telling.issue.told}"
    with whole_pdf(path, title, author, "Proof") as pdf:
        drawings = _drawn(pages, progress)
        for number, (page, drawn) in enumerate(zip(pages, drawings, strict=True), start=1):
            pdf.begin_page(page.width_in, page.height_in, page.title)
            _draw_page(pdf, telling, page, drawn, (number, len(pages)))
    if progress is not None:
        progress(1.0)
    return len(pages)


def planned(telling: Telling) -> list[Page]:
    """Returns all pages, the cover first. Raises what reading the art raises."""
    pages = [page for maker in MAKERS for page in maker(telling)]
    rows = _rows(telling, pages)
    width, height = PAPERS_IN[telling.suite.paper]

    def draw(pdf: Pdf, drawn: Sequence[Plates]) -> None:
        draw_cover(pdf, telling.suite, telling.flatlay, rows)

    return [Page("Proof", width, height, draw), *pages]


def _rows(telling: Telling, pages: Sequence[Page]) -> list[Row]:
    """Returns the cover's list: every piece and envelope, with the first page it is on."""
    items = (*telling.suite.pieces, *telling.suite.envelopes)
    first: dict[int, int] = {}
    for number, page in enumerate(pages, start=2):
        first.setdefault(id(page.of), number)
    return [Row(item, first[id(item)]) for item in items]


def _draw_page(
    pdf: Pdf, telling: Telling, page: Page, drawn: Sequence[Plates], place: tuple[int, int]
) -> None:
    suite = telling.suite
    if telling.for_studio:
        draw_studio_mark(pdf)
    page.draw(pdf, drawn)
    if telling.watermark:
        draw_watermark(pdf, telling.watermark)
    draw_foot(pdf, suite.title, _here(telling, page), *place)


def _here(telling: Telling, page: Page) -> str:
    """Returns what the foot says of a page: the proof's revision and day, and the fingerprint of
    what is on it; its title stands at its head."""
    issue = telling.issue
    code = None if page.of is None else telling.code(page.of)
    parts = (f"Revision {issue.told} of {date_told(issue.date)}", code)
    return "  \u00b7  ".join(part for part in parts if part)


def _drawn(pages: Sequence[Page], progress: Progress | None) -> Iterator[list[Plates]]:
    """Yields the art of every page, rasterised some pages at a time."""
    whole = max(1, sum(len(page.jobs) for page in pages))
    done = 0
    for group in _groups(pages):
        jobs = [job for page in group for job in page.jobs]

        def told(share: float, before: int = done, count: int = len(jobs)) -> None:
            if progress is not None:
                progress(_PLANNED + (1 - _PLANNED) * (before + share * count) / whole)

        arts = iter(rasterise(jobs, told) if jobs else [])
        done += len(jobs)
        for page in group:
            yield [next(arts) for _ in page.jobs]


def _groups(pages: Sequence[Page]) -> Iterator[list[Page]]:
    group: list[Page] = []
    for page in pages:
        if group and sum(len(each.jobs) for each in group) + len(page.jobs) > _TOGETHER:
            yield group
            group = []
        group.append(page)
    yield group
