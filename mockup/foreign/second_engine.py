"""Pages drawn by PDFium, in a worker: an engine that shares nothing with the one that proofs are
drawn by, so that what both agree on is in the file."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pypdfium2
from numpy.typing import NDArray

from mockup.errors import InputError
from mockup.sources import read_whole, sha256_of
from mockup.trade.limits import FILE_MAX_BYTES

_STREAM = "its second reader"


def drawn_again(path: str, sha256: str, page: int, width_px: int) -> NDArray[np.uint8]:
    """Returns page `page` (from 1) of a file, (h, w, 3) uint8, on white, `width_px` wide.

    As for printing, without annotations; CMYK by plain numbers. Raises InputError where it cannot
    be read.
    """
    content = read_whole(Path(path), FILE_MAX_BYTES)
    if sha256_of(content) != sha256:
        raise InputError("changed while it was being read; run the command again")
    try:
        with pypdfium2.PdfDocument(content) as document:
            drawn = document[page - 1]
            bitmap = drawn.render(
                scale=width_px / drawn.get_width(),
                may_draw_forms=False,
                draw_annots=False,
                optimize_mode="print",
                rev_byteorder=True,
            )
            return np.ascontiguousarray(bitmap.to_numpy()[:, :, :3])
    except (pypdfium2.PdfiumError, IndexError) as error:
        said = " ".join(str(error).split())[:80]
        raise InputError(f"cannot be read by {_STREAM} ({said}); save it again as PDF") from error
