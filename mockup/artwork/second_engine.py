"""Pages drawn by a second engine, that shares nothing with the one that proofs are drawn by."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from mockup.artwork.art import Art
from mockup.workshop import crew
from mockup.workshop.job import Job

_DRAWN_AGAIN = "mockup.foreign.second_engine:drawn_again"


def drawn_again(arts: Sequence[Art], width_px: int) -> list[NDArray[np.uint8]]:
    """Returns each page whole as PDFium draws it for printing, (h, w, 3) uint8 on white, `width_px`
    wide.

    Layers as for printing, no annotations; CMYK by plain numbers, no press. Nothing is left out.
    Raises InputError for what that engine cannot read, LimitError beyond 30 s or 2 GB.
    """
    jobs = [
        Job((str(art.path), art.sha256, art.page, width_px), art.where, art.sha256) for art in arts
    ]
    return crew.done(_DRAWN_AGAIN, jobs)
