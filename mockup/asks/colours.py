"""A suite's colours asked for: what the art prints, and how each pair with an envelope looks."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from mockup.asks.colour import colour_told
from mockup.asks.opening import Writing, open_suite
from mockup.asks.values import PathGiven, audience_of, path_of, path_or_none, pixels
from mockup.colour.mending import Mended
from mockup.output.colours_page import write_colours
from mockup.output.colours_told import colours_sheet
from mockup.output.destination import PICTURE_OR_PDF, Destination
from mockup.progress import Progress
from mockup.reading.art_colours import FaceColours
from mockup.reading.beside import Pair, mended, pairs_of, suite_colours
from mockup.suite.audience import Audience
from mockup.trade.limits import FLATLAY_WIDTH_MAX_PX

WIDTH_MIN_PX = 600  # judgement: narrower, what is said of the colours cannot be read


@dataclass(frozen=True)
class ColoursRequest:
    """The colours of a suite.

    suite: the suite file. output: a .png, .jpg or .pdf to draw them into, None for none. width_px:
    of a picture, 600 to 12000. audience: the studio is also told figures.
    """

    suite: PathGiven
    output: PathGiven | None = None
    width_px: int = 2000
    audience: Audience | str = Audience.CLIENT


@dataclass(frozen=True, eq=False)
class ColoursAnswer:
    """The colours of every face, by the name of its piece, or of its envelope for a liner; every
    pair of them with an envelope or its liner, with what would mend a near miss; by which press
    they are shown; the file written and its pages; what of the art is not shown."""

    faces: dict[str, FaceColours]
    liners: dict[str, FaceColours]
    pairs: tuple[tuple[Pair, Mended | None], ...]
    presses: tuple[str, ...]
    written: Path | None
    pages: int
    left_out: tuple[str, ...]


def show_colours(request: ColoursRequest, progress: Progress | None = None) -> ColoursAnswer:
    """Returns a suite's colours, and draws them where that is asked.

    Raises RequestError, SuiteError, InputError, LimitError, OutputError.
    """
    path, output = path_of("suite", request.suite), path_or_none("output", request.output)
    width_px = pixels("width_px", request.width_px, WIDTH_MIN_PX, FLATLAY_WIDTH_MAX_PX)
    audience = audience_of(request.audience)
    wanted = [Destination(output, "page of colours", PICTURE_OR_PDF)] if output else []
    opened = open_suite(path, audience, Writing(lambda suite: wanted))
    colours = suite_colours(opened.suite)
    if progress is not None:
        progress(0.8)
    pages = 0
    if output is not None:
        sheet = colours_sheet(colours, audience is Audience.STUDIO)
        pages = write_colours(output, sheet, width_px)
    pairs = [pair for each in opened.suite.envelopes for pair in pairs_of(colours, each)]
    told = tuple((pair, mended(pair) if pair.found.is_near_miss else None) for pair in pairs)
    if progress is not None:
        progress(1.0)
    return ColoursAnswer(
        dict(colours.pieces),
        dict(colours.liners),
        told,
        colour_told(opened.suite),
        output,
        pages,
        opened.left_out,
    )
