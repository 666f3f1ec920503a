"""White ink and finishes in a worker: where a page's plates, or a rule of the suite, lay them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from mockup.artwork.art import Art
from mockup.colour.plates import Plate, Plates, Pressed, WhitePlate
from mockup.foreign.document import OpenedPage
from mockup.foreign.finish_plates import finish_plates, inks_of, layer_plate
from mockup.foreign.finishes_used import FinishesUsed, finishes_of
from mockup.foreign.library import drawing
from mockup.foreign.pixmaps import Size, covered
from mockup.geometry.affine import Affine
from mockup.pixels import Bytes


def finished(
    opened: OpenedPage,
    art: Art,
    place: tuple[Affine, Size],
    look: Bytes | Pressed,
    found: FinishesUsed,
) -> Plates:
    """Returns a page with its white ink, by its white plates and by the rule of its art, and its
    other finishes.

    `place` is the matrix that maps points as seen to pixels, and the size in pixels; `look` is the
    page drawn so. Beneath the art white is solid, whatever tint lies on it; in its place there is
    as much white as the heaviest of its inks.
    """
    rule = art.white.rule
    spots = inks_of(art, place)[1] if found.names or rule == "art-as-white" else ()
    what = dict(found.names)
    whites = [plate for name, plate in spots if what.get(name) == "white"]
    whites += [
        layer_plate(opened, art, place, found, each)
        for each in found.layers
        if each.finish == "white"
    ]
    plates = finish_plates(opened, art, place, found, spots)
    foils = [each.plate for each in plates if each.finish == "foil"]
    foil = np.maximum.reduce(foils) if foils else None
    if rule == "under-art":
        with opened.watched(), drawing():
            none = found.marks | found.grounds | found.undrawn
            whites.append(covered(opened.page, art.left_out | none, *place))
    elif rule == "art-as-white":
        others = [plate for name, plate in spots if name not in what]
        whites.append(_heaviest(look, others))
        look = _without_inks(look, foil)
    white = WhitePlate(np.maximum.reduce(whites), art.white.hits) if whites else None
    return Plates(look, white, foil, plates)


def _heaviest(look: Bytes | Pressed, spots: list[Plate]) -> Plate:
    """Returns the heaviest ink of every pixel; of a page of RGB what it lacks of white."""
    if isinstance(look, Pressed):
        return np.maximum.reduce([look.process.max(axis=2), *spots])
    return 255 - look.min(axis=2)


def _without_inks(look: Bytes | Pressed, foil: Plate | None) -> Bytes | Pressed:
    """Returns the look of a page on which nothing but white is printed, and foil stamped."""
    kept = np.zeros((1, 1, 1), bool) if foil is None else (foil > 0)[:, :, None]
    if isinstance(look, Pressed):
        process = np.where(kept, look.process, np.uint8(0))
        return Pressed(process, look.condition, look.swatch)
    return np.where(kept, look, np.uint8(255))


def white_lost(art: Art, matrix: Affine, width_px: int, height_px: int) -> float:
    """Returns the share of a page's white plates that art painted over them knocks out, 0 to 1.

    A colour that does not overprint leaves nothing of other inks beneath it (ISO 32000-1, 8.6.7).
    """
    found = finishes_of(art)
    names = found.plates_of("white")
    place = (matrix, (width_px, height_px))
    others = frozenset(range(found.count)) - found.marks
    alone = replace(art, left_out=art.left_out | others)
    meant, left = (
        sum(float(plate.sum()) for name, plate in inks_of(each, place)[1] if name in names)
        for each in (alone, art)
    )
    return max(0.0, 1 - left / meant) if meant else 0.0
