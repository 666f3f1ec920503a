"""What a page has beside process ink, and how it is shown: told in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mockup.artwork.art import Art, FinishSaid
from mockup.artwork.own_pages import UNSAID
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
_FLAT: dict[Finish, str] = {"foil": "foil", "letterpress": "letterpress"}
_CLEAR: dict[Finish, str] = {
    "varnish": "spot gloss",
    "deboss": "debossing",
    "emboss": "embossing",
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
    return *white, *others, *_said_told(art, named)


def finishes_in_short(art: Art, named: PlatesNamed) -> tuple[str, ...]:
    """Returns how a page's white ink is shown, and in one sentence how its other finishes are."""
    there = {what for _, what in named} | {said.finish for said in art.finishing if not said.plate}
    flat, clear = (
        [words for what, words in kinds.items() if what in there] for kinds in (_FLAT, _CLEAR)
    )
    parts = [f"{_listed(flat)} drawn flat"] if flat else []
    parts += [f"{_listed(clear)} not drawn"] if clear else []
    whites = tuple(told for told in finishes_told(art, named) if told.startswith("white ink"))
    missing = (_missing_told(said) for said in unknown_plates(art, named))
    return *whites, *((", ".join(parts),) if parts else ()), *missing


def finishes_lit(art: Art, named: PlatesNamed) -> tuple[str, ...]:
    """Returns how a page's white ink is shown in a window's light, and its other finishes."""
    there = {what for _, what in named if what != "white"}
    there |= {said.finish for said in art.finishing if not said.plate}
    words = {**_FLAT, **_CLEAR}
    kinds = [words[what] for what in words if what in there]
    whites = tuple(told for told in finishes_told(art, named) if told.startswith("white ink"))
    missing = (_missing_told(said) for said in unknown_plates(art, named))
    assumed = "as the window lights it; how deep and how bright is assumed"
    return *whites, *((f"{_listed(kinds)} {assumed}",) if kinds else ()), *missing


def unknown_plates(art: Art, named: PlatesNamed) -> tuple[FinishSaid, ...]:
    """Returns what the suite says of plates or layers that the art does not have."""
    there = {_plain(name) for name, _ in named}
    return tuple(s for s in art.finishing if s.plate and _plain(s.plate) not in there)


def _said_told(art: Art, named: PlatesNamed) -> Iterator[str]:
    """Yields how finishes are shown that have a page of their own, or are of all the inks; and of
    which there is no plate."""
    for said in art.finishing:
        if said.art is not None:
            yield _of_own_page(said, said.art)
    pressed = any(said.finish == "letterpress" and said.is_of_all for said in art.finishing)
    if pressed and "letterpress" not in {what for _, what in named}:
        yield "letterpress: all inks are pressed in, drawn flat"
    for said in unknown_plates(art, named):
        yield _missing_told(said)


def _missing_told(said: FinishSaid) -> str:
    return f"{said.finish} is not shown: the art has no plate or layer {quoted(said.plate)}"


def _listed(words: Sequence[str]) -> str:
    *first, last = words
    return f"{', '.join(first)} and {last}" if first else last


def _of_own_page(said: FinishSaid, page: Art) -> str:
    name = f"{said.finish} by {page.path.name}, page {page.page},"
    if said.finish != "foil":
        return f"{name} is not drawn" if said.finish in _CLEAR else f"{name} is drawn flat"
    if said.metal is None:
        return f"{name} is drawn flat, as {UNSAID}: its metal is not said"
    return f"{name} is drawn flat, as {said.metal.replace('-', ' ')}"


def _plain(name: str) -> str:
    return " ".join(name.casefold().split())


def white_told(white: WhiteInk, plates: Sequence[str]) -> str:
    """Returns where white ink goes and how much it is taken to hide, in words."""
    where = [f"plate {quoted(name)}" for name in plates]
    if white.rule != "plate":
        where.insert(0, _WHERE[white.rule])
    of_each = "" if white.hits == 1 else " each"
    hidden = f"{_HITS[white.hits]}, {100 * OPACITY:.0f} % opaque{of_each} assumed"
    return f"white ink, {' and '.join(where)}: {hidden}"
