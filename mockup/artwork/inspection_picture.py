"""The pixels a check reads: a page that is already open, as seen and as inked."""

from __future__ import annotations

import numpy as np
import pymupdf
from numpy.typing import NDArray
from pymupdf import mupdf

from mockup.artwork.page import Placement, trim_matrix
from mockup.geometry.affine import Affine
from mockup.pixels import Bytes, View


def seen_picture(opened: pymupdf.Page, placement: Placement, view: View) -> Bytes:
    """Returns the page on white as an opaque (h, w, 3) uint8 sRGB picture, card inches in view."""
    colours = mupdf.FzColorspace(mupdf.FzColorspace.Fixed_RGB)
    return _drawn(opened, placement, view, colours, 3)


def inked_picture(opened: pymupdf.Page, placement: Placement, view: View) -> NDArray[np.uint8]:
    """Returns the page's process inks, (h, w, 4) uint8, 255 a full ink of C, M, Y, K.

    CMYK goes through unchanged; other colours as the library's profiles convert them.
    """
    colours = mupdf.FzColorspace(mupdf.FzColorspace.Fixed_CMYK)
    return _drawn(opened, placement, view, colours, 4)


def _drawn(
    opened: pymupdf.Page,
    placement: Placement,
    view: View,
    colours: mupdf.FzColorspace,
    channels: int,
) -> Bytes:
    frame = mupdf.FzIrect(0, 0, view.width_px, view.height_px)
    pixmap = mupdf.fz_new_pixmap_with_bbox(colours, frame, mupdf.FzSeparations(), 0)
    if channels == 4:
        mupdf.fz_clear_pixmap(pixmap)
    else:
        mupdf.fz_clear_pixmap_with_value(pixmap, 255)
    to_pixels = Affine(view.ppi, 0, 0, view.ppi, -view.left_in * view.ppi, -view.top_in * view.ppi)
    matrix = to_pixels @ trim_matrix(placement).inverse()
    device = mupdf.fz_new_draw_device(mupdf.FzMatrix(*matrix), pixmap)
    pdf_page = mupdf.pdf_page_from_fz_page(opened.this)
    mupdf.pdf_run_page_contents_with_usage(
        pdf_page, device, mupdf.FzMatrix(), "Print", mupdf.FzCookie()
    )
    mupdf.fz_close_device(device)
    samples = mupdf.fz_pixmap_samples_memoryview(pixmap)
    shape = (view.height_px, view.width_px, channels)
    return np.frombuffer(samples, np.uint8).reshape(shape).copy()
