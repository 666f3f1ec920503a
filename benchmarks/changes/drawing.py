"""A pair drawn as the program draws a piece: two pictures of the card, in sRGB, at some ppi."""

from __future__ import annotations

from pathlib import Path

from benchmarks.changes.card import BLEED_IN, write
from benchmarks.changes.plan import Pair
from benchmarks.changes.programs import PROGRAMS, SUFFERED
from mockup.artwork.art import art_of
from mockup.artwork.page import place_card, read_page
from mockup.artwork.raster import RasterJob, rasterise
from mockup.geometry.affine import IDENTITY, translation
from mockup.pixels import Bytes, view_around

PPI = 300.0


def files_of(pair: Pair, folder: Path) -> tuple[Path, Path]:
    """Returns the two files of a pair, made where they are not there yet."""
    before, after = (folder / f"{pair.name}-{which}.pdf" for which in ("before", "after"))
    if not before.exists():
        write(pair.before, before)
    if not after.exists():
        if pair.way in PROGRAMS:
            first = write(pair.altered.card, folder / f"{pair.name}-first.pdf")
            PROGRAMS[pair.way](first, after)
            first.unlink()
        else:
            write(pair.altered.card, after)
    return before, after


def pictures_of(pair: Pair, folder: Path, ppi: float = PPI) -> tuple[Bytes, Bytes]:
    """Returns both pictures of a pair, (h, w, 3)."""
    size = (pair.before.width_in, pair.before.height_in)
    before, after = files_of(pair, folder)
    aside = 0.4 / ppi if pair.way == "shifted" else 0.0
    first, second = _drawn(before, size, ppi, 0.0), _drawn(after, size, ppi, aside)
    if pair.way in SUFFERED:
        second = SUFFERED[pair.way](second, pair.number)
    return first, second


def _drawn(path: Path, size_in: tuple[float, float], ppi: float, aside_in: float) -> Bytes:
    page = read_page(art_of(path))
    placement = place_card(page, *size_in, BLEED_IN, "in")
    view = view_around((0, 0, *size_in), ppi)
    to_view = translation(aside_in, -aside_in) if aside_in else IDENTITY
    return rasterise([RasterJob(page, placement, to_view, view)])[0].on_white
