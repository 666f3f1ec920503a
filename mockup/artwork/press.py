"""The press a page is shown by: named in its file, or by the user, or assumed for its paper."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from mockup.artwork.art import Art
from mockup.colour.icc_reading import PROFILE_MAX_BYTES
from mockup.colour.press import Press, ShownBy
from mockup.colour.printing import UNSURE_DE00, paper_difference
from mockup.colour.srgb import Rgb
from mockup.sources import read_whole, sha256_of
from mockup.workshop import crew
from mockup.workshop.job import Job

_SHOWN_BY = "mockup.foreign.presses:shown_by"
_NAMED = "mockup.foreign.presses:condition_named"
BY_ITSELF = "RGB, by its own profiles"
UNSURE = "a print on this paper may differ by 3 to 6 \u0394E"  # measured between models of ink


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


def press_words(shown: ShownBy | None, stock: Rgb) -> str:
    """Returns by what a page is shown on a stock, in words, and how sure that is."""
    if shown is None:
        return BY_ITSELF
    told = f"{shown.name}, {shown.because}"
    unsure = paper_difference(shown.paper, stock) > UNSURE_DE00
    return f"{told}; {UNSURE}" if unsure else told
