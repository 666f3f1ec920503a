"""One piece without a suite file: what the command line says of it, the rest read from the art."""

from __future__ import annotations

from pathlib import Path

from mockup.artwork.art import art_of
from mockup.artwork.page import read_page
from mockup.artwork.press import press_of_file
from mockup.colour.press import assumed_press
from mockup.colour.srgb import parse_hex
from mockup.dies import Die, make_die
from mockup.errors import SuiteError, quoted
from mockup.suite.backs import TAKEN, cut_from_behind, is_back
from mockup.suite.card_reading import CardRead, read_card
from mockup.suite.die_reading import read_die
from mockup.suite.inference import infer_card
from mockup.suite.reading import title_of
from mockup.suite.schema import CUT_LINE_MAX_IN
from mockup.suite.suite import CutLineChoice, Piece
from mockup.trade.papers import stock
from mockup.trade.sizes import CardSize
from mockup.units import PT_PER_INCH, parse_length

TEMPLATE_ENDINGS = (".pdf", ".svg", ".svgz")


def single_piece(
    art: Path,
    page: int,
    card: str | None,
    die: str,
    paper: str,
    pick: str | None = None,
    profile: Path | None = None,
    from_behind: bool | None = None,
) -> Piece:
    """Returns the piece on a page of art; its card is read from the page where none is given.
    `profile` is the ICC profile of its press, where that is not the usual one for its paper.
    `from_behind` says whether the page is a card's back, cut by the die's mirror image; None judges
    it by the file.

    Raises InputError for art that cannot be read, SuiteError for a name that means nothing.
    """
    stock_of_it = stock(paper)
    assumed = assumed_press(stock_of_it.coated)
    press = assumed if profile is None else press_of_file(profile, "the press asked for")
    source = art_of(art, page, press)
    art_page = read_page(source)
    inferred = infer_card(art_page)
    read = read_card(card, "in", source) if card is not None else CardRead(inferred.card)
    size = read.card
    piece = Piece(
        art.stem,
        title_of(art.stem),
        source,
        size,
        die_of(die, size, pick),
        stock_of_it,
        None,
        inferred.bleed_in,
        units="mm" if inferred.leans > 0 else "in",
        card_told=read.told,
    )
    if from_behind is None:
        return cut_from_behind(piece, TAKEN) if is_back(art_page) else piece
    return cut_from_behind(piece) if from_behind else piece


def die_of(text: str, card: CardSize, pick: str | None = None) -> Die:
    """Returns a die by its name, or from a template file, where `pick` says which outline.

    Raises DieError and InputError.
    """
    size = (card.width_in, card.height_in)
    if text.lower().endswith(TEMPLATE_ENDINGS):
        picked = {} if pick is None else {"pick": pick}
        return read_die({"file": text, **picked}, size, Path())
    if pick is not None:
        raise SuiteError(f"{quoted(text)} is no template to pick from; give a PDF or SVG")
    return make_die(text, *size)


def line_choice(colour: str | None, width: str) -> CutLineChoice:
    """Returns what the command line says of the cut line. Raises SuiteError."""
    width_in = parse_length(width, "pt")
    if width_in > CUT_LINE_MAX_IN:
        raise SuiteError(f"{quoted(width)} is too wide for a cut line; write at most 18 pt")
    width_pt = width_in * PT_PER_INCH
    return CutLineChoice(parse_hex(colour) if colour else None, width_pt)
