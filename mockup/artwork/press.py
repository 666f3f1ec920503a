"""The press a page is shown by: named in its file, or by the user, or assumed for its paper."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from mockup.artwork.art import Art
from mockup.colour.icc_reading import PROFILE_MAX_BYTES
from mockup.colour.lab import xyz_of_rgb
from mockup.colour.press import Press, ShownBy
from mockup.colour.printing import UNSURE_DE00, paper_difference
from mockup.colour.srgb import Rgb, parse_hex
from mockup.sources import read_whole, sha256_of
from mockup.trade.papers import PAPER_COLOURS
from mockup.trade.swatch import Swatch
from mockup.workshop import crew
from mockup.workshop.job import Job

_SHOWN_BY = "mockup.foreign.presses:shown_by"
_NAMED = "mockup.foreign.presses:condition_named"
BY_ITSELF = "RGB, by its own profiles"
UNSURE = "expect differences of 3 to 6 \u0394E on this paper"  # measured between models of ink
MENDED = "by a measured swatch of the paper; tints and mixes may differ by 2 to 5 \u0394E"
# Measured by benchmarks/colour/swatches.py: the means of nine presses, each shown by another.


def press_of_file(path: Path, because: str) -> Press:
    """Returns the press of a profile of the user's.

    Raises InputError for what is no CMYK output profile, LimitError for one over 32 MB.
    """
    press = Press(path, because, sha256_of(read_whole(path, PROFILE_MAX_BYTES)))
    crew.done(_NAMED, [Job((press,), str(path), press.sha256, press)])
    return press


def presses_of(arts: Sequence[Art]) -> list[ShownBy | None]:
    """Returns by which press every page is shown; None for one of RGB alone, shown by its own
    profiles. Raises InputError and LimitError for art that cannot be read."""
    keys = [(art.sha256, art.page, art.left_out, art.press) for art in arts]
    jobs = [Job((art,), art.where, art.sha256, key) for art, key in zip(arts, keys, strict=True)]
    return crew.done(_SHOWN_BY, jobs)


def press_words(shown: ShownBy | None, stock: Rgb, swatch: Swatch | None = None) -> str:
    """Returns by what a page is shown on a stock, in words, and how sure that is; art in RGB is
    taken to be meant for white paper."""
    told = BY_ITSELF if shown is None else f"{shown.name}, {shown.because}"
    if shown is not None and swatch is not None:
        return f"{told}; {MENDED}"
    white = parse_hex(PAPER_COLOURS["white"].colour_hex)
    paper = xyz_of_rgb(white) if shown is None else shown.paper
    unsure = paper_difference(paper, stock) > UNSURE_DE00
    return f"{told}; {UNSURE}" if unsure else told
