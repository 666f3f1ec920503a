"""A page run into pixels of the library's own, straight through the matrix that places it."""

from __future__ import annotations

import numpy as np
import pymupdf
from numpy.typing import NDArray
from pymupdf import mupdf

from mockup.foreign.leaving_out import LeavingOut
from mockup.geometry.affine import Affine

Size = tuple[int, int]
"""Width and height in pixels."""

NO_SPOTS = mupdf.FzSeparations


def run(
    page: pymupdf.Page,
    left_out: frozenset[int],
    matrix: Affine,
    size_px: Size,
    colours: mupdf.FzColorspace,
    separations: mupdf.FzSeparations,
) -> NDArray[np.uint8]:
    """Returns a page in a space's channels and the plates of spots, (h, w, n) uint8; as for
    printing, without annotations, on white light or no ink."""
    pixmap = mupdf.fz_new_pixmap_with_bbox(colours, _frame(size_px), separations, 0)
    mupdf.fz_clear_pixmap_with_value(pixmap, 255)
    _run(page, left_out, matrix, pixmap)
    return _pixels(pixmap, size_px)


def covered(
    page: pymupdf.Page, left_out: frozenset[int], matrix: Affine, size_px: Size
) -> NDArray[np.uint8]:
    """Returns how much of each pixel a page paints, whatever its colour: (h, w) uint8."""
    grey = mupdf.FzColorspace(mupdf.FzColorspace.Fixed_GRAY)
    pixmap = mupdf.fz_new_pixmap_with_bbox(grey, _frame(size_px), NO_SPOTS(), 1)
    mupdf.fz_clear_pixmap(pixmap)
    _run(page, left_out, matrix, pixmap)
    return _pixels(pixmap, size_px)[:, :, 1].copy()


def spots_of(page: pymupdf.Page, shown: int) -> mupdf.FzSeparations | None:
    """Returns a page's spots, each treated as `shown` says; None where it has none."""
    separations = mupdf.fz_page_separations(page.this)
    count = mupdf.fz_count_separations(separations) if separations.m_internal else 0
    for k in range(count):
        mupdf.fz_set_separation_behavior(separations, k, shown)
    return separations if count else None


def names_of(separations: mupdf.FzSeparations) -> list[str]:
    """Returns the names of spots, in the order of their plates."""
    count = mupdf.fz_count_separations(separations)
    return [mupdf.fz_separation_name(separations, k) for k in range(count)]


def _frame(size_px: Size) -> mupdf.FzIrect:
    return mupdf.FzIrect(0, 0, *size_px)


def _run(
    page: pymupdf.Page, left_out: frozenset[int], matrix: Affine, pixmap: mupdf.FzPixmap
) -> None:
    # An image decoded finer for an earlier picture would be taken again, and be sampled otherwise:
    # what was drawn before must not be seen.
    pymupdf.TOOLS.store_shrink(100)
    device = mupdf.fz_new_draw_device(mupdf.FzMatrix(*matrix), pixmap)
    drawn_on = LeavingOut(device, left_out) if left_out else device
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


def _pixels(pixmap: mupdf.FzPixmap, size_px: Size) -> NDArray[np.uint8]:
    width_px, height_px = size_px
    samples = mupdf.fz_pixmap_samples_memoryview(pixmap)
    return np.frombuffer(samples, np.uint8).reshape(height_px, width_px, -1).copy()


def _is_cropped(page: pymupdf.Page) -> bool:
    """Returns whether a CropBox hides part of the sheet (ISO 32000-1 14.11.2)."""
    return page.cropbox != page.mediabox
