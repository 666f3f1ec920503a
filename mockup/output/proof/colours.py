"""The proof's pages of colours, there when asked for: every face's, and each envelope's match."""

from __future__ import annotations

from collections.abc import Sequence

from mockup.colour.plates import Plates
from mockup.geometry.point import Box
from mockup.output.colours_page import ColoursPage, colours_pages
from mockup.output.colours_told import colours_sheet
from mockup.output.pdf import Pdf
from mockup.output.proof.grid import LEFT_IN, PAPERS_IN, TAIL_IN, TOP_IN
from mockup.output.proof.plan import Page, Telling
from mockup.reading.beside import suite_colours

TITLE = "Colours"


def colour_pages(telling: Telling) -> list[Page]:
    """Returns the pages of colours. Raises what reading the art raises."""
    width, height = PAPERS_IN[telling.suite.paper]
    room = Box(LEFT_IN, TOP_IN, width - LEFT_IN, height - TAIL_IN)
    sheet = colours_sheet(suite_colours(telling.suite), telling.for_studio)
    return [_page(each, width, height, n) for n, each in enumerate(colours_pages(sheet, room))]


def _page(page: ColoursPage, width_in: float, height_in: float, number: int) -> Page:
    def draw(pdf: Pdf, drawn: Sequence[Plates]) -> None:
        page.draw(pdf)

    title = f"{TITLE}, continued" if number else TITLE
    return Page(title, width_in, height_in, draw)
