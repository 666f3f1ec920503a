"""Papers asked for: the stocks a suite file can name, with pictures of them."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from mockup.asks.gallery_request import GalleryRequest, looked_at
from mockup.output.gallery import Gallery, Sample, write_gallery
from mockup.progress import Progress
from mockup.render.samples import SWATCH_IN, swatch
from mockup.trade.papers import EXAMPLE, STOCKS, Stock
from mockup.units import Unit, format_caliper


class PapersRequest(GalleryRequest):
    """The papers to be listed; see GalleryRequest."""


@dataclass(frozen=True)
class PapersAnswer:
    """The papers there are, and the file written."""

    papers: tuple[Stock, ...]
    written: Path | None


def list_papers(request: PapersRequest, progress: Progress | None = None) -> PapersAnswer:
    """Returns the papers there are, and draws them where that is asked.

    Raises RequestError, LimitError, OutputError.
    """
    looked = looked_at(request)
    papers = tuple(STOCKS.values())
    if looked.output is not None:
        samples: list[Sample] = []
        for number, paper in enumerate(papers, 1):
            samples.append(Sample(paper.name, _lines(paper, looked.units), swatch(paper)))
            if progress is not None:
                progress(0.9 * number / len(papers))
        head = (
            "Generic papers, true size where the page is: colours are unmeasured examples, "
            "thicknesses common practice. Ask your printer for a swatch, and write what its maker "
            "says: stock = { gsm = 300, caliper_um = 380 }."
        )
        gallery = Gallery("Papers", head, samples, 4, SWATCH_IN[1])
        write_gallery(looked.output, gallery, looked.width_px)
    if progress is not None:
        progress(1.0)
    return PapersAnswer(papers, looked.output)


def _lines(paper: Stock, units: Unit) -> tuple[str, ...]:
    weight = f"{paper.gsm:.0f} g/m\u00b2, {format_caliper(paper.caliper_mil, units)}"
    return about(paper), weight


def about(paper: Stock) -> str:
    """Returns what a paper is, and of a coloured one that nobody measured its colour."""
    said = f"colour an {EXAMPLE}" if paper.is_coloured_example else ""
    return "; ".join(filter(None, (paper.about, said)))
