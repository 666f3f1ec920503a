"""JPEG for websites: full colour resolution, sRGB profile and resolution embedded."""

from __future__ import annotations

import io
from pathlib import Path

from PIL import Image

from mockup.output.files import write_whole
from mockup.output.png import srgb_profile
from mockup.pixels import Bytes

QUALITY = 92


def write_jpeg(path: Path, picture: Bytes, ppi: float) -> None:
    """Writes an (h, w, 3) sRGB picture. Raises OutputError."""
    write_whole(path, jpeg_bytes(picture, ppi))


def jpeg_bytes(picture: Bytes, ppi: float) -> bytes:
    """Returns a JPEG file of an (h, w, 3) sRGB picture; the same picture gives the same bytes."""
    written = io.BytesIO()
    Image.fromarray(picture).save(
        written,
        "JPEG",
        quality=QUALITY,
        subsampling="4:4:4",
        dpi=(round(ppi), round(ppi)),
        icc_profile=srgb_profile(),
    )
    return written.getvalue()
