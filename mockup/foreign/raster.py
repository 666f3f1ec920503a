"""Pages drawn in a worker, straight through the matrix that places them: nothing is resampled."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pymupdf
from numpy.typing import NDArray
from pymupdf import mupdf

from mockup.artwork.art import Art
from mockup.colour.plates import InkPlates, Spot
from mockup.errors import InputError
from mockup.foreign.document import OpenedPage, opened_page
from mockup.foreign.leaving_out import LeavingOut
from mockup.foreign.library import drawing
from mockup.geometry.affine import Affine
from mockup.pixels import Bytes

_NONE = mupdf.FzSeparations
_SPOT = mupdf.FZ_SEPARATION_SPOT


def seen(art: Art, matrix: Affine, width_px: int, height_px: int) -> Bytes:
    """Returns a page on white, (h, w, 3) uint8 sRGB; `matrix` maps points as seen to pixels.

    Colours go by the file's own profiles; untagged CMYK by MuPDF's built-in one. Drawn as for
    printing, without annotations. Raises InputError for a page with nothing on it.
    """
    opened = _not_empty(art)
    colours = mupdf.FzColorspace(mupdf.FzColorspace.Fixed_RGB)

    def on_white(pixmap: mupdf.FzPixmap) -> None:
        mupdf.fz_clear_pixmap_with_value(pixmap, 255)

    with opened.watched(), drawing():
        return _drawn(opened, art, matrix, (width_px, height_px), colours, _NONE(), on_white)


def inked(art: Art, matrix: Affine, width_px: int, height_px: int) -> InkPlates:
    """Returns a page's inks, each (h, w) plate uint8, 255 a full ink: C, M, Y, K and the spots.

    CMYK and spot colours go through unchanged, overprint obeyed; RGB and Lab are converted by the
    library's profiles. Raises InputError for a page with nothing on it.
    """
    opened = _not_empty(art)
    colours = mupdf.FzColorspace(mupdf.FzColorspace.Fixed_CMYK)
    with opened.watched(), drawing():
        separations = mupdf.fz_page_separations(opened.page.this)
        count = mupdf.fz_count_separations(separations) if separations.m_internal else 0
        for k in range(count):
            mupdf.fz_set_separation_behavior(separations, k, _SPOT)
        names = [mupdf.fz_separation_name(separations, k) for k in range(count)]
        # Overprint is obeyed where there is a list of inks, though none be in it.
        used = separations if count else mupdf.fz_new_separations(0)
        size = (width_px, height_px)
        plates = _drawn(opened, art, matrix, size, colours, used, mupdf.fz_clear_pixmap)
    spots = tuple(Spot(name, plates[:, :, 4 + k]) for k, name in enumerate(names))
    return InkPlates(plates[:, :, :4], spots)


def _not_empty(art: Art) -> OpenedPage:
    opened = opened_page(art)
    if not opened.marks:
        raise InputError("has nothing on it; choose another page")
    return opened


def _drawn(
    opened: OpenedPage,
    art: Art,
    matrix: Affine,
    size_px: tuple[int, int],
    colours: mupdf.FzColorspace,
    separations: mupdf.FzSeparations,
    clear: Callable[[mupdf.FzPixmap], object],
) -> NDArray[np.uint8]:
    width_px, height_px = size_px
    frame = mupdf.FzIrect(0, 0, width_px, height_px)
    pixmap = mupdf.fz_new_pixmap_with_bbox(colours, frame, separations, 0)
    clear(pixmap)
    device = mupdf.fz_new_draw_device(mupdf.FzMatrix(*matrix), pixmap)
    drawn_on = LeavingOut(device, art.left_out) if art.left_out else device
    cropped = _is_cropped(opened.page)
    if cropped:
        bounds = opened.page.rect
        path = mupdf.FzPath()
        mupdf.fz_rectto(path, bounds.x0, bounds.y0, bounds.x1, bounds.y1)
        everywhere = mupdf.FzRect(mupdf.FzRect.Fixed_INFINITE)
        mupdf.fz_clip_path(device, path, 0, mupdf.FzMatrix(), everywhere)
    pdf_page = mupdf.pdf_page_from_fz_page(opened.page.this)
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
