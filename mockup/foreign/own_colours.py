"""A page in RGB by its own profiles, before any press has taken it, drawn in a worker."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from pymupdf import mupdf

from mockup.artwork.art import Art
from mockup.foreign.document import opened_page
from mockup.foreign.library import drawing
from mockup.foreign.pixmaps import NO_SPOTS, run
from mockup.foreign.presses import printed_by, without_intent
from mockup.geometry.affine import Affine


def in_own_colours(
    art: Art, matrix: Affine, width_px: int, height_px: int
) -> tuple[NDArray[np.uint8], bytes]:
    """Returns a page as (h, w, 3) uint8 sRGB on white, and the profile of the press it goes to."""
    page, opened = without_intent(art), opened_page(art)
    colours = mupdf.FzColorspace(mupdf.FzColorspace.Fixed_RGB)
    with opened.watched(), drawing():
        picture = run(page, art.left_out, matrix, (width_px, height_px), colours, NO_SPOTS())
    return picture, printed_by(art).profile
