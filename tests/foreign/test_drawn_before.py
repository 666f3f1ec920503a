"""What a worker drew before is not seen in what it draws next."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pymupdf

from mockup.foreign import pixmaps
from mockup.geometry.affine import Affine


def test_a_part_of_a_page_is_drawn_as_if_the_whole_never_was(art: Path) -> None:
    """MuPDF keeps an image as it decoded it, whole or in part, and takes it again where it may."""
    inks = pymupdf.mupdf.FzColorspace(pymupdf.mupdf.FzColorspace.Fixed_CMYK)

    def drawn(page: pymupdf.Page, matrix: Affine, size_px: tuple[int, int]) -> np.ndarray:
        return pixmaps.run(page, frozenset(), matrix, size_px, inks, pixmaps.NO_SPOTS())

    part = Affine(0.8, 0, 0, 0.8, -40, -20), (120, 90)
    with pymupdf.open(art / "details.pdf") as held:
        alone = drawn(held[0], *part)
    with pymupdf.open(art / "details.pdf") as held:
        drawn(held[0], Affine(1, 0, 0, 1, 0, 0), (324, 414))
        assert np.array_equal(drawn(held[0], *part), alone)
