"""White ink in a worker: where a page's white plate, or a rule of the suite, lays it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from pymupdf import mupdf

from mockup.artwork.art import Art
from mockup.colour.plates import Plate, Pressed, WhitePlate
from mockup.foreign.document import OpenedPage
from mockup.foreign.finishes_used import FinishesUsed, finishes_of
from mockup.foreign.library import drawing
from mockup.foreign.pixmaps import Size, covered, names_of, run, spots_of
from mockup.foreign.presses import without_intent
from mockup.geometry.affine import Affine
from mockup.pixels import Bytes


def white_plate(
    opened: OpenedPage,
    art: Art,
    place: tuple[Affine, Size],
    look: Bytes | Pressed,
    found: FinishesUsed,
) -> WhitePlate | None:
    """Returns a page's white ink, by its white plates and by the rule of its art; None without any.

    `place` is the matrix that maps points as seen to pixels, and the size in pixels; `look` is the
    page drawn so. Beneath the art white is solid, whatever tint lies on it; in its place there is
    as much white as the heaviest of its inks.
    """
    plates: list[Plate] = []
    names = found.plates_of("white")
    if names:
        plates += [plate for name, plate in _spots(art, place) if name in names]
    if art.white.rule == "under-art":
        with opened.watched(), drawing():
            plates.append(covered(opened.page, art.left_out | found.marks | found.grounds, *place))
    elif art.white.rule == "art-as-white":
        plates.append(_heaviest(art, place, look, found))
    if not plates:
        return None
    return WhitePlate(np.maximum.reduce(plates), art.white.hits)


def without_inks(look: Bytes | Pressed) -> Bytes | Pressed:
    """Returns the look of a page on which nothing but white is printed."""
    if isinstance(look, Pressed):
        return Pressed(np.zeros_like(look.process), look.condition, look.swatch)
    return np.full_like(look, 255)


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
        sum(float(plate.sum()) for name, plate in _spots(each, place) if name in names)
        for each in (alone, art)
    )
    return max(0.0, 1 - left / meant) if meant else 0.0


def _heaviest(
    art: Art, place: tuple[Affine, Size], look: Bytes | Pressed, found: FinishesUsed
) -> Plate:
    if not isinstance(look, Pressed):
        return 255 - look.min(axis=2)
    finishes = {name for name, _ in found.names}
    others = [plate for name, plate in _spots(art, place) if name not in finishes]
    return np.maximum.reduce([look.process.max(axis=2), *others])


def _spots(art: Art, place: tuple[Affine, Size]) -> list[tuple[str, Plate]]:
    """Returns the plates of a page's spots. All of them, and without an output intent: else the
    library mixes them up."""
    page = without_intent(art)
    with drawing():
        spots = spots_of(page, mupdf.FZ_SEPARATION_SPOT)
        if spots is None:
            return []
        space = mupdf.FzColorspace(mupdf.FzColorspace.Fixed_CMYK)
        plates = run(page, art.left_out, *place, space, spots)
    return [(name, plates[:, :, 4 + k]) for k, name in enumerate(names_of(spots))]
