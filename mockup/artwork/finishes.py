"""What a page has beside process ink, and how it is shown: told in words."""

from __future__ import annotations

from collections.abc import Sequence

from mockup.artwork.art import Art
from mockup.artwork.page import ArtPage, Placement
from mockup.artwork.raster import RasterJob, raster_job
from mockup.colour.white_ink import OPACITY, WhiteInk
from mockup.errors import quoted
from mockup.geometry.affine import IDENTITY
from mockup.pixels import View
from mockup.trade.finishes import Finish
from mockup.workshop import crew
from mockup.workshop.job import Job

PlatesNamed = tuple[tuple[str, Finish], ...]
"""The colourants of a page that are a finish's plate, and whose."""

_NAMED = "mockup.foreign.finishes_used:plates_named"
_LOST = "mockup.foreign.whites:white_lost"
_HITS = {1: "one hit", 2: "two hits"}
_WHERE = {
    "under-art": "beneath all of the art",
    "art-as-white": "in place of the art's own inks",
}
_SHOWN = {
    "foil": "foil {name} is drawn flat in its swatch colour",
    "varnish": "varnish {name} is clear and not drawn",
    "letterpress": "letterpress {name} is drawn flat, as its ink",
    "deboss": "debossing {name} has no colour and is not drawn",
    "emboss": "embossing {name} has no colour and is not drawn",
}


def plates_named(arts: Sequence[Art]) -> list[PlatesNamed]:
    """Returns every page's plates that are no ink but a finish. Raises InputError and LimitError
    for art that cannot be read."""
    keys = [(art.sha256, art.page, art.left_out, art.white.rule, art.finishing) for art in arts]
    jobs = [Job((art,), art.where, art.sha256, key) for art, key in zip(arts, keys, strict=True)]
    return crew.done(_NAMED, jobs)


def white_lost(page: ArtPage, placement: Placement, view: View) -> float:
    """Returns the share of a page's white plates that art over them knocks out, 0 to 1, as seen in
    a view of the card. Raises what plates_named raises."""
    (lost,) = crew.done(_LOST, [raster_job(RasterJob(page, placement, IDENTITY, view))])
    return lost


def finishes_told(art: Art, named: PlatesNamed) -> tuple[str, ...]:
    """Returns how a page's white ink and the plates of other finishes are shown, in words."""
    whites = [name for name, what in named if what == "white"]
    white = (white_told(art.white, whites),) if whites or art.white.rule != "plate" else ()
    others = [_SHOWN[what].format(name=quoted(name)) for name, what in named if what != "white"]
    return *white, *others


def white_told(white: WhiteInk, plates: Sequence[str]) -> str:
    """Returns where white ink goes and how much it is taken to hide, in words."""
    where = [f"plate {quoted(name)}" for name in plates]
    if white.rule != "plate":
        where.insert(0, _WHERE[white.rule])
    of_each = "" if white.hits == 1 else " each"
    hidden = f"{_HITS[white.hits]}, {100 * OPACITY:.0f} % opaque{of_each} assumed"
    return f"white ink, {' and '.join(where)}: {hidden}"
