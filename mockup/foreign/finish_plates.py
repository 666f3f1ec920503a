"""Plates of foil, varnish, letterpress, deboss and emboss, in a worker: where each of them lies."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray
from pymupdf import mupdf

from mockup.artwork.art import Art
from mockup.colour.plates import FinishPlate, Plate
from mockup.errors import InputError
from mockup.foreign.document import OpenedPage, opened_page
from mockup.foreign.finishes_used import FinishesUsed, LayerPlate, finishes_of, plain
from mockup.foreign.library import drawing
from mockup.foreign.pixmaps import NO_SPOTS, Size, covered, names_of, run, spots_of
from mockup.foreign.presses import press_of, without_intent
from mockup.geometry.affine import Affine
from mockup.trade.finishes import Finish
from mockup.trade.metals import Metal, metal_named

_KINDS: tuple[Finish, ...] = ("foil", "varnish", "letterpress", "deboss", "emboss")

Spots = Sequence[tuple[str, Plate]]
"""The plates of a page's spots, by name."""
_Kind = tuple[Finish, Metal | None]


def finish_plates(
    opened: OpenedPage, art: Art, place: tuple[Affine, Size], found: FinishesUsed, spots: Spots
) -> tuple[FinishPlate, ...]:
    """Returns a page's finishes but white: of each kind and metal one plate, where any is seen.

    Letterpress that the suite says of no plate, on a page where none is called so, is where any
    ink of the art lies, in full however light its tint.
    """
    plates: dict[_Kind, list[Plate]] = {}
    what = dict(found.names)
    for name, plate in spots:
        if name in what:
            plates.setdefault((what[name], _metal(art, name, what[name])), []).append(plate)
    for layer in found.layers:
        kind = (layer.finish, _metal(art, layer.name, layer.finish))
        plates.setdefault(kind, []).append(layer_plate(opened, art, place, found, layer))
    if _is_all_pressed(art) and not any(kind == "letterpress" for kind, _ in plates):
        plates["letterpress", None] = [_inked(opened, art, place, found)]
    made = [(kind, np.maximum.reduce(each)) for kind, each in plates.items()]
    made.sort(key=lambda each: _order(each[0]))
    return tuple(
        FinishPlate(finish, plate, metal)
        for (finish, metal), plate in made
        if finish in _KINDS and plate.any()
    )


def plates_drawn(
    art: Art, matrix: Affine, width_px: int, height_px: int
) -> tuple[FinishPlate, ...]:
    """Returns a page's finishes but white, as finish_plates does, and draws nothing else of it."""
    opened, found = opened_page(art), finishes_of(art)
    place = (matrix, (width_px, height_px))
    spots = inks_of(art, place)[1] if found.names else ()
    return finish_plates(opened, art, place, found, spots)


def layer_plate(
    opened: OpenedPage,
    art: Art,
    place: tuple[Affine, Size],
    found: FinishesUsed,
    layer: LayerPlate,
) -> Plate:
    """Returns the plate of a layer in ink: what its marks cover, whatever lies on them."""
    others = frozenset(range(found.count)) - layer.marks
    return _covered(opened, art.left_out | others, place)


def plate_alone(art: Art, matrix: Affine, width_px: int, height_px: int) -> Plate:
    """Returns a page that is one plate, by its heaviest ink, whatever that is called: (h, w) uint8.

    Raises InputError for a page with nothing on it, and what opened_page raises.
    """
    opened = opened_page(art)
    if not opened.marks:
        raise InputError("has nothing on it; choose another page")
    place = (matrix, (width_px, height_px))
    inks, spots = inks_of(art, place)
    if press_of(art) is None:
        inks = 255 - _in_rgb(opened, art.left_out, place)
    return np.maximum.reduce([inks.max(axis=2), *(plate for _, plate in spots)])


def inks_of(art: Art, place: tuple[Affine, Size]) -> tuple[NDArray[np.uint8], Spots]:
    """Returns the plates of C, M, Y and K, (h, w, 4) uint8, and those of a page's spots.

    All of them, and without an output intent: else the library mixes them up.
    """
    page = without_intent(art)
    with drawing():
        spots = spots_of(page, mupdf.FZ_SEPARATION_SPOT)
        names = [] if spots is None else names_of(spots)
        space = mupdf.FzColorspace(mupdf.FzColorspace.Fixed_CMYK)
        plates = run(page, art.left_out, *place, space, spots or mupdf.fz_new_separations(0))
    return plates[:, :, :4], [(name, plates[:, :, 4 + k]) for k, name in enumerate(names)]


def _inked(opened: OpenedPage, art: Art, place: tuple[Affine, Size], found: FinishesUsed) -> Plate:
    """Returns where ink lies, of no finish: as much as of each pixel is painted, where that is not
    in white."""
    left_out = art.left_out | found.uninked | found.marks | found.grounds
    inks, spots = inks_of(replace(art, left_out=left_out), place)
    if press_of(art) is None:
        inks = 255 - _in_rgb(opened, left_out, place)
    heaviest = np.maximum.reduce([inks.max(axis=2), *(plate for _, plate in spots)])
    return np.where(heaviest > 0, _covered(opened, left_out, place), np.uint8(0))


def _in_rgb(
    opened: OpenedPage, left_out: frozenset[int], place: tuple[Affine, Size]
) -> NDArray[np.uint8]:
    colours = mupdf.FzColorspace(mupdf.FzColorspace.Fixed_RGB)
    with opened.watched(), drawing():
        return run(opened.page, left_out, *place, colours, NO_SPOTS())


def _covered(opened: OpenedPage, left_out: frozenset[int], place: tuple[Affine, Size]) -> Plate:
    with opened.watched(), drawing():
        return covered(opened.page, left_out, *place)


def _is_all_pressed(art: Art) -> bool:
    return any(each.finish == "letterpress" and each.is_of_all for each in art.finishing)


def _metal(art: Art, name: str, finish: Finish) -> Metal | None:
    """Returns the metal of a plate: the suite's word for it, its name's, or the one that the suite
    says of foil without saying of which."""
    if finish != "foil":
        return None
    of_foil = [each for each in art.finishing if each.finish == "foil" and each.art is None]
    own = _first(each.metal for each in of_foil if plain(each.plate) == plain(name))
    return own or metal_named(name) or _first(each.metal for each in of_foil if not each.plate)


def _first(metals: Iterable[Metal | None]) -> Metal | None:
    return next((each for each in metals if each is not None), None)


def _order(kind: _Kind) -> tuple[int, str]:
    finish, metal = kind
    return _KINDS.index(finish) if finish in _KINDS else len(_KINDS), metal or ""
