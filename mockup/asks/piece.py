"""One piece asked for: its art, cut to its die, transparent round it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from mockup.asks.colour import colour_told
from mockup.asks.opening import Writing, open_piece
from mockup.asks.values import (
    PAGE_MAX,
    PathGiven,
    audience_of,
    choice_of,
    length_of,
    path_of,
    real,
    text_of,
    text_or_none,
    whole,
    yes_or_no,
)
from mockup.colour.srgb import parse_hex
from mockup.colour.white_ink import HITS_MOST, RULES, WhiteInk
from mockup.output.destination import CUT_OUT, Destination
from mockup.output.png import write_png
from mockup.progress import Progress
from mockup.render.piece import piece_picture
from mockup.suite.audience import Audience
from mockup.suite.single import single_piece
from mockup.suite.suite import CutLineChoice
from mockup.units import PT_PER_INCH, pt_to_in

PPI_MIN, PPI_MAX = 18.0, 2400.0  # judgement: a thumbnail, and more than any plate is exposed at
LINE_MIN_PT, LINE_MAX_PT = 0.01, 36.0  # judgement: what can be seen, and half an inch


@dataclass(frozen=True)
class PieceRequest:
    """A piece to be cut.

    art: the print PDF or SVG, with its bleed. output: the .png to write. die: a die's name, or a
    template PDF or SVG. card: `"A7"`, `"5 x 7 in"`, None to read it from the art. page: from 1.
    stock: a paper's name. ppi: pixels an inch, 18 to 2400. line_colour: `"#rrggbb"`, None for one
    that stays visible. line_width: `"0.5 pt"`, a bare number is points. audience: the client is not
    shown a template's lines left in the art. pick: which outline of a template is the cut, by
    name, colour, size or number; None for the one that all speaks for. press: the ICC profile of
    the press, for art that names none itself; None for the usual one of the paper. white: where
    white ink goes, "plate", "under-art" or "art-as-white"; None for the art's own white plate.
    hits: how often white ink is printed, 1 or 2. from_behind: whether the page is a card's back,
    cut by the die's mirror image; None takes the second of two pages of one size for one.
    """

    art: PathGiven
    output: PathGiven
    die: str = "rectangle"
    card: str | None = None
    page: int = 1
    stock: str = "smooth-120-white"
    ppi: float = 300.0
    line_colour: str | None = None
    line_width: str | float = "0.5 pt"
    audience: Audience | str = Audience.CLIENT
    pick: str | None = None
    press: PathGiven | None = None
    white: str | None = None
    hits: int = 1
    from_behind: bool | None = None


@dataclass(frozen=True)
class PieceAnswer:
    """The file written, its size, its die's name and, for a template, why that path is the cut;
    what is not shown, how a name with two meanings was taken, by which press colours are shown."""

    written: Path
    width_px: int
    height_px: int
    ppi: float
    die: str
    because: str
    left_out: tuple[str, ...]
    taken: tuple[str, ...] = ()
    others: str = ""
    """For a template, which outlines came next."""
    colour: tuple[str, ...] = ()


def cut_piece(request: PieceRequest, progress: Progress | None = None) -> PieceAnswer:
    """Writes a piece cut to its die and returns what was written.

    Raises RequestError, SuiteError, DieError, InputError, LimitError, OutputError.
    """
    output = path_of("output", request.output)
    ppi = real("ppi", request.ppi, PPI_MIN, PPI_MAX)
    line = _line(request)
    single = single_piece(
        path_of("art", request.art),
        whole("page", request.page, 1, PAGE_MAX),
        text_or_none("card", request.card),
        text_of("die", request.die),
        text_of("stock", request.stock),
        text_or_none("pick", request.pick),
        None if request.press is None else path_of("press", request.press),
        None if request.from_behind is None else yes_or_no("from_behind", request.from_behind),
    )
    single = replace(single, art=replace(single.art, white=_white(request)))
    destination = Destination(output, "piece", CUT_OUT)
    audience = audience_of(request.audience)
    opened = open_piece(single, line, audience, Writing(lambda suite: [destination]))
    (piece,) = opened.suite.pieces
    picture = piece_picture(piece, ppi, line)
    write_png(output, picture, ppi)
    if progress is not None:
        progress(1.0)
    height_px, width_px = picture.shape[:2]
    die = piece.die
    size = (width_px, height_px)
    told = (opened.left_out, opened.taken, die.others, colour_told(opened.suite))
    return PieceAnswer(output, *size, ppi, die.name, die.because, *told)


def _white(request: PieceRequest) -> WhiteInk:
    hits = whole("hits", request.hits, 1, HITS_MOST)
    if request.white is None:
        return WhiteInk(hits=hits)
    chosen = choice_of("white", request.white, RULES)
    return WhiteInk(next(rule for rule in RULES if rule == chosen), hits)


def _line(request: PieceRequest) -> CutLineChoice:
    colour = text_or_none("line_colour", request.line_colour)
    least_in, most_in = pt_to_in(LINE_MIN_PT), pt_to_in(LINE_MAX_PT)
    width_in = length_of("line_width", request.line_width, least_in, most_in, "pt")
    return CutLineChoice(None if colour is None else parse_hex(colour), width_in * PT_PER_INCH)
