"""Pages drawn in a worker, straight through the matrix that places them: nothing is resampled."""

from __future__ import annotations

import numpy as np
import pymupdf
from numpy.typing import NDArray
from pymupdf import mupdf

from mockup.artwork.art import Art
from mockup.colour.plates import InkPlates, Pressed, Spot
from mockup.errors import InputError
from mockup.foreign.document import OpenedPage, opened_page
from mockup.foreign.leaving_out import LeavingOut
from mockup.foreign.library import drawing
from mockup.foreign.presses import on_press, press_of, space_of, without_intent
from mockup.geometry.affine import Affine
from mockup.pixels import Bytes

_NONE = mupdf.FzSeparations
_SPOT, _COMPOSITE = mupdf.FZ_SEPARATION_SPOT, mupdf.FZ_SEPARATION_COMPOSITE


def drawn(art: Art, matrix: Affine, width_px: int, height_px: int) -> Bytes | Pressed:
    """Returns a page drawn; `matrix` maps points as seen to pixels.

    One with process inks, or that names its press, is drawn into that press's space of ink, spots
    and overprint worked in, RGB separated for it, transparency blended there. One of RGB and greys
    alone is (h, w, 3) uint8 sRGB on white, by its own profiles. As for printing, without
    annotations. Raises InputError for a page with nothing on it.
    """
    opened = _not_empty(art)
    chosen = press_of(art)
    size = (width_px, height_px)
    if chosen is None:
        return _in_rgb(opened, art, matrix, size)
    page = on_press(art, chosen)
    with opened.watched(), drawing():
        process = _drawn(page, art, matrix, size, space_of(chosen), _composite(page))
    return Pressed(process, chosen.condition)


def inked(art: Art, matrix: Affine, width_px: int, height_px: int) -> InkPlates:
    """Returns a page's inks, each (h, w) plate uint8, 255 a full ink: C, M, Y, K and the spots.

    CMYK and spot colours go through unchanged, overprint obeyed; RGB and Lab are separated for the
    page's press, or on a page with spots by the library's own profile. Raises InputError for a page
    with nothing on it.
    """
    opened = _not_empty(art)
    chosen = press_of(art)
    size = (width_px, height_px)
    with opened.watched(), drawing():
        has_spots = _separations(opened.page, _SPOT) is not None
        if chosen is not None and not has_spots:
            page = on_press(art, chosen)
            return InkPlates(_drawn(page, art, matrix, size, space_of(chosen), _composite(page)))
        # An output intent would convert the numbers for the library's press, and lose spot plates.
        page = opened.page if chosen is None else without_intent(art)
        spots = _separations(page, _SPOT)
        space = mupdf.FzColorspace(mupdf.FzColorspace.Fixed_CMYK)
        # Overprint is obeyed where there is a list of inks, though none be in it.
        used = spots or mupdf.fz_new_separations(0)
        plates = _drawn(page, art, matrix, size, space, used)
        names = [] if spots is None else _names(spots)
    named = tuple(Spot(name, plates[:, :, 4 + k]) for k, name in enumerate(names))
    return InkPlates(plates[:, :, :4], named)


def _in_rgb(
    opened: OpenedPage, art: Art, matrix: Affine, size_px: tuple[int, int]
) -> NDArray[np.uint8]:
    colours = mupdf.FzColorspace(mupdf.FzColorspace.Fixed_RGB)
    with opened.watched(), drawing():
        return _drawn(opened.page, art, matrix, size_px, colours, _NONE())


def _composite(page: pymupdf.Page) -> mupdf.FzSeparations:
    """Returns a page's spots, to be shown by process inks. Where there are none an empty list of
    them still has overprint simulated."""
    return _separations(page, _COMPOSITE) or mupdf.fz_new_separations(1)


def _separations(page: pymupdf.Page, behaviour: int) -> mupdf.FzSeparations | None:
    """Returns a page's spots, each shown as `behaviour` says; None where it has none."""
    separations = mupdf.fz_page_separations(page.this)
    count = mupdf.fz_count_separations(separations) if separations.m_internal else 0
    for k in range(count):
        mupdf.fz_set_separation_behavior(separations, k, behaviour)
    return separations if count else None


def _names(separations: mupdf.FzSeparations) -> list[str]:
    count = mupdf.fz_count_separations(separations)
    return [mupdf.fz_separation_name(separations, k) for k in range(count)]


def _not_empty(art: Art) -> OpenedPage:
    opened = opened_page(art)
    if not opened.marks:
        raise InputError("has nothing on it; choose another page")
    return opened


def _drawn(
    page: pymupdf.Page,
    art: Art,
    matrix: Affine,
    size_px: tuple[int, int],
    colours: mupdf.FzColorspace,
    separations: mupdf.FzSeparations,
) -> NDArray[np.uint8]:
    width_px, height_px = size_px
    frame = mupdf.FzIrect(0, 0, width_px, height_px)
    pixmap = mupdf.fz_new_pixmap_with_bbox(colours, frame, separations, 0)
    mupdf.fz_clear_pixmap_with_value(pixmap, 255)  # white light, or no ink
    device = mupdf.fz_new_draw_device(mupdf.FzMatrix(*matrix), pixmap)
    drawn_on = LeavingOut(device, art.left_out) if art.left_out else device
    cropped = _is_cropped(page)
    if cropped:
        bounds = page.rect
        path = mupdf.FzPath()
        mupdf.fz_rectto(path, bounds.x0, bounds.y0, bounds.x1, bounds.y1)
        everywhere = mupdf.FzRect(mupdf.FzRect.Fixed_INFINITE)
        mupdf.fz_clip_path(device, path, 0, mupdf.FzMatrix(), everywhere)
    pdf_page = mupdf.pdf_page_from_fz_page(page.this)
    mupdf.pdf_run_page_contents_with_usage(
        pdf_page, drawn_on, mupdf.FzMatrix(), "Print", mupdf.FzCookie()
    )
    if cropped:
        mupdf.fz_pop_clip(device)
    if drawn_on is not device:
        mupdf.fz_close_device(drawn_on)
    mupdf.fz_close_device(device)
    samples = mupdf.fz_pixmap_samples_memoryview(pixmap)
    return np.frombuffer(samples, np.uint8).reshape(height_px, width_px, -1).copy()


def _is_cropped(page: pymupdf.Page) -> bool:
    """Returns whether a CropBox hides part of the sheet (ISO 32000-1 14.11.2)."""
    return page.cropbox != page.mediabox
