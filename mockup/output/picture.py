"""A picture as the ending of its file's name says: PNG or JPEG."""

from __future__ import annotations

from pathlib import Path

from mockup.output.jpeg import write_jpeg
from mockup.output.png import write_png
from mockup.pixels import Bytes

JPEG_ENDINGS = (".jpg", ".jpeg")


def write_picture(path: Path, picture: Bytes, ppi: float) -> None:
    """Writes a picture as JPEG, where it has to be opaque, (h, w, 3), or else as PNG.

    Raises OutputError.
    """
    write = write_jpeg if path.suffix.lower() in JPEG_ENDINGS else write_png
    write(path, picture, ppi)
