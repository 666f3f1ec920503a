"""Pages drawn in a worker: for their press or in RGB, with white ink; and their inks by plates."""

from __future__ import annotations

import pymupdf
from pymupdf import mupdf

from mockup.artwork.art import Art
from mockup.colour.plates import InkPlates, Plates, Pressed, Spot
from mockup.errors import InputError
from mockup.foreign.document import OpenedPage, opened_page
from mockup.foreign.finishes_used import FinishesUsed, finishes_of
from mockup.foreign.library import drawing
from mockup.foreign.pixmaps import NO_SPOTS, Size, names_of, run, spots_of
from mockup.foreign.presses import in_light, on_press, press_of, space_of, without_intent
from mockup.foreign.whites import finished
from mockup.geometry.affine import Affine
from mockup.pixels import Bytes

_SPOT, _COMPOSITE = mupdf.FZ_SEPARATION_SPOT, mupdf.FZ_SEPARATION_COMPOSITE


def drawn(art: Art, matrix: Affine, width_px: int, height_px: int) -> Plates:
    """Returns a page drawn; `matrix` maps points as seen to pixels.

    One with process inks, or that names its press, is drawn into that press's space of ink, spots
    and overprint worked in, RGB separated for it, transparency blended there; so is one of grey
    alone, on the plate of black. One of RGB, with grey or not, is (h, w, 3) uint8 sRGB on white, by
    its own profiles. White ink and other finishes have plates beside it; those of varnish and
    embossing lay nothing down. As for printing, without annotations. Raises InputError for a page
    with nothing on it.
    """
    opened = _not_empty(art)
    found = finishes_of(art)
    place = (matrix, (width_px, height_px))
    look = _look(opened, art, place, found)
    return finished(opened, art, place, look, found)


def inked(art: Art, matrix: Affine, width_px: int, height_px: int) -> InkPlates:
    """Returns a page's inks, each (h, w) plate uint8, 255 a full ink: C, M, Y, K and the spots.

    CMYK and spot colours go through unchanged, overprint obeyed; RGB and Lab are separated for the
    page's press, or on a page with spots by the library's own profile. Raises InputError for a page
    with nothing on it.
    """
    opened = _not_empty(art)
    chosen = press_of(art)
    given = (art.left_out, matrix, (width_px, height_px))
    with opened.watched(), drawing():
        has_spots = spots_of(opened.page, _SPOT) is not None
        if chosen is not None and not has_spots:
            page = on_press(art, chosen)
            return InkPlates(run(page, *given, space_of(chosen), _composite(page)))
        # An output intent would convert the numbers for the library's press, and lose spot plates.
        page = opened.page if chosen is None else without_intent(art)
        spots = spots_of(page, _SPOT)
        space = mupdf.FzColorspace(mupdf.FzColorspace.Fixed_CMYK)
        # Overprint is obeyed where there is a list of inks, though none be in it.
        used = spots or mupdf.fz_new_separations(0)
        plates = run(page, *given, space, used)
        names = [] if spots is None else names_of(spots)
    named = tuple(Spot(name, plates[:, :, 4 + k]) for k, name in enumerate(names))
    return InkPlates(plates[:, :, :4], named)


def _look(
    opened: OpenedPage, art: Art, place: tuple[Affine, Size], found: FinishesUsed
) -> Bytes | Pressed:
    chosen = press_of(art)
    if chosen is None:
        colours = mupdf.FzColorspace(mupdf.FzColorspace.Fixed_RGB)
        page = in_light(art, found.quiet) if found.quiet else opened.page
        left_out = art.left_out | found.over | found.undrawn
        with opened.watched(), drawing():
            return run(page, left_out, *place, colours, NO_SPOTS())
    page = on_press(art, chosen, found.quiet)
    with opened.watched(), drawing():
        left_out = art.left_out | found.undrawn
        process = run(page, left_out, *place, space_of(chosen), _composite(page))
    return Pressed(process, chosen.condition, art.swatch)


def _composite(page: pymupdf.Page) -> mupdf.FzSeparations:
    """Returns a page's spots, to be shown by process inks. Where there are none an empty list of
    them still has overprint simulated."""
    return spots_of(page, _COMPOSITE) or mupdf.fz_new_separations(1)


def _not_empty(art: Art) -> OpenedPage:
    opened = opened_page(art)
    if not opened.marks:
        raise InputError("has nothing on it; choose another page")
    return opened
