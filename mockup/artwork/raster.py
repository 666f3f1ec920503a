"""From a page to pixels, drawn straight through the matrix that places it: nothing is resampled."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from pymupdf import mupdf

from mockup.artwork.document import open_page
from mockup.artwork.leaving_out import LeavingOut
from mockup.artwork.page import ArtPage, Placement, trim_matrix
from mockup.artwork.worker import Progress, in_workers
from mockup.errors import InputError, LimitError
from mockup.geometry.affine import Affine
from mockup.pixels import Bytes, View
from mockup.trade.limits import PICTURE_MAX_PX


@dataclass(frozen=True)
class RasterJob:
    """One card's page, where the card lies on it, where the card goes, and the pixels wanted."""

    page: ArtPage
    placement: Placement
    to_view: Affine
    """From card inches (origin top left of the trim) to the inches of the view."""
    view: View


def rasterise(jobs: Sequence[RasterJob], progress: Progress | None = None) -> list[Bytes]:
    """Returns an opaque (h, w, 3) uint8 sRGB picture for every job, the page drawn on white.

    MuPDF draws with ICC colour on; untagged CMYK is shown by its built-in profile (a web offset
    press). Layers, overprint-free, as for printing; annotations are left out. Raises InputError
    for a page with nothing on it, LimitError beyond 150 megapixels, 30 s or 2 GB.
    """
    for job in jobs:
        pixels = job.view.width_px * job.view.height_px
        if pixels > PICTURE_MAX_PX:
            raise LimitError(
                f"{job.page.where}: {job.view.width_px} x {job.view.height_px} px is over the "
                f"limit of {PICTURE_MAX_PX // 10**6} megapixels; ask for fewer pixels an inch"
            )
    tuples = [
        (job.page, _page_to_pixels(job), job.view.width_px, job.view.height_px) for job in jobs
    ]
    return in_workers(_draw, tuples, lambda job: job[0].where, progress)


def _page_to_pixels(job: RasterJob) -> Affine:
    view = job.view
    to_pixels = Affine(view.ppi, 0, 0, view.ppi, -view.left_in * view.ppi, -view.top_in * view.ppi)
    return to_pixels @ job.to_view @ trim_matrix(job.placement).inverse()


def _draw(art: ArtPage, matrix: Affine, width_px: int, height_px: int) -> Bytes:
    with open_page(art.path, art.number) as page:
        if not page.get_bboxlog():
            raise InputError(f"{art.where}: has nothing on it; choose another page")
        colours = mupdf.FzColorspace(mupdf.FzColorspace.Fixed_RGB)
        frame = mupdf.FzIrect(0, 0, width_px, height_px)
        pixmap = mupdf.fz_new_pixmap_with_bbox(colours, frame, mupdf.FzSeparations(), 0)
        mupdf.fz_clear_pixmap_with_value(pixmap, 255)
        device = mupdf.fz_new_draw_device(mupdf.FzMatrix(*matrix), pixmap)
        drawn_on = LeavingOut(device, art.leave_out) if art.leave_out else device
        pdf_page = mupdf.pdf_page_from_fz_page(page.this)
        mupdf.pdf_run_page_contents_with_usage(
            pdf_page, drawn_on, mupdf.FzMatrix(), "Print", mupdf.FzCookie()
        )
        if drawn_on is not device:
            mupdf.fz_close_device(drawn_on)
        mupdf.fz_close_device(device)
        samples = mupdf.fz_pixmap_samples_memoryview(pixmap)
        return np.frombuffer(samples, np.uint8).reshape(height_px, width_px, 3).copy()
