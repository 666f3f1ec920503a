"""The whole proof: which pages it has, in which order, and how it is written."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from mockup.artwork.raster import rasterise
from mockup.colour.plates import Plates
from mockup.output.pdf import Pdf, whole_pdf
from mockup.output.proof.aside import asides
from mockup.output.proof.card import CardPage, card_job, draw_card, plan_card
from mockup.output.proof.closing import FILES_WITH_TEXT, draw_closing, draw_files, file_rows
from mockup.output.proof.cover import Row, draw_cover
from mockup.output.proof.envelope import EnvelopePage, draw_envelope, liner_job, plan_envelope
from mockup.output.proof.grid import Frame, draw_foot, portrait
from mockup.pixels import Bytes
from mockup.progress import Progress
from mockup.suite.suite import Suite

_SHARE_DRAWN = 0.8  # of the time, measured: the art is rasterised, then the pages are laid out


@dataclass(frozen=True)
class _Page:
    title: str
    frame: Frame
    draw: Callable[[Pdf], None]


def write_proof(suite: Suite, path: Path, flatlay: Bytes, progress: Progress | None = None) -> int:
    """Writes a suite's proof as PDF, whole or not at all; returns how many pages it has.

    `flatlay` is the cover's picture, (h, w, 3) uint8 sRGB. Cut lines, outlines and
    type are vector, art is raster at 200 pixels an inch of the page or less. The same suite, art
    and picture give the same bytes. Raises InputError and LimitError for art that cannot be drawn,
    OutputError for a file that cannot be written.
    """
    pages = _pages(suite, flatlay, progress)
    author = suite.designer or ""
    with whole_pdf(
        path, f"{suite.title}: proof, revision {suite.revision}", author, "Proof"
    ) as pdf:
        for number, page in enumerate(pages, start=1):
            pdf.begin_page(page.frame.width_in, page.frame.height_in, page.title)
            page.draw(pdf)
            here = f"Revision {suite.revision}  \u00b7  {page.title}"
            draw_foot(pdf, suite.title, here, number, len(pages))
    if progress is not None:
        progress(1.0)
    return len(pages)


def _pages(suite: Suite, flatlay: Bytes, progress: Progress | None) -> list[_Page]:
    pairs = zip(suite.pieces, asides(suite), strict=True)
    cards = [plan_card(suite, piece, aside) for piece, aside in pairs]
    envelopes = [plan_envelope(envelope, suite.paper) for envelope in suite.envelopes]
    arts, liners = _drawn(suite, cards, envelopes, progress)
    items = (*suite.pieces, *suite.envelopes)
    rows = [Row(item, page) for page, item in enumerate(items, start=2)]
    upright = portrait(suite.paper)
    pages = [_Page("Proof", upright, lambda pdf: draw_cover(pdf, suite, flatlay, rows))]
    pages += [_card(suite, card, art) for card, art in zip(cards, arts, strict=True)]
    pages += [_envelope(suite, *each) for each in zip(envelopes, liners, strict=True)]
    files = file_rows(suite)
    if len(files) > FILES_WITH_TEXT:
        pages.append(_Page("Files", upright, lambda pdf: draw_files(pdf, files)))
    pages.append(_Page("Before you say yes", upright, lambda pdf: draw_closing(pdf, suite, files)))
    return pages


def _drawn(
    suite: Suite,
    cards: list[CardPage],
    envelopes: list[EnvelopePage],
    progress: Progress | None,
) -> tuple[list[Plates], list[Plates | None]]:
    """Returns the art of every card, and of every envelope's liner, rasterised together."""
    jobs = [card_job(card) for card in cards]
    liner_jobs = [liner_job(envelope, suite.bleed_in) for envelope in envelopes]
    present = [job for job in liner_jobs if job is not None]

    def told(share: float) -> None:
        if progress is not None:
            progress(share * _SHARE_DRAWN)

    drawn = rasterise([*jobs, *present], told)
    lined = iter(drawn[len(jobs) :])
    return drawn[: len(jobs)], [None if job is None else next(lined) for job in liner_jobs]


def _card(suite: Suite, card: CardPage, art: Plates) -> _Page:
    frame = card.place.frame
    return _Page(card.piece.title, frame, lambda pdf: draw_card(pdf, suite, card, art))


def _envelope(suite: Suite, page: EnvelopePage, liner: Plates | None) -> _Page:
    frame = page.place.frame
    return _Page(page.envelope.title, frame, lambda pdf: draw_envelope(pdf, suite, page, liner))
