"""The demo's art as a page of light, for a second renderer that knows no press."""

from __future__ import annotations

import io
import math
import re
from pathlib import Path

import pikepdf
from pikepdf import Dictionary, Name

_BUILD = re.compile(rb"([\d.]+) ([\d.]+) ([\d.]+) ([\d.]+) (k|K)\b")


def in_rgb(art: Path, path: Path) -> Path:
    """Writes a copy of a demo page whose builds and pictures are plain RGB; names no press."""
    with pikepdf.open(art) as pdf:
        page = pdf.pages[0]
        page.Contents = pdf.make_stream(_BUILD.sub(_light, page.Contents.read_bytes()))
        for name, picture in page.images.items():
            data = io.BytesIO()
            pixels = pikepdf.PdfImage(picture).as_pil_image().convert("RGB")
            pixels.save(data, "JPEG", quality=95, subsampling=0)
            keys = {"Width": pixels.width, "Height": pixels.height, "BitsPerComponent": 8}
            kept = Dictionary(
                Type=Name.XObject, Subtype=Name.Image, ColorSpace=Name.DeviceRGB, **keys
            )
            kept.Filter = Name.DCTDecode
            page.Resources.XObject[name] = pikepdf.Stream(pdf, data.getvalue(), kept)
        del pdf.Root.OutputIntents
        pdf.save(path)
    return path


def _light(build: re.Match[bytes]) -> bytes:
    *inks, black = (float(build[i]) for i in range(1, 5))
    shares = [round((1 - ink) * (1 - black) * 255) / 255 for ink in inks]
    # Rounded up: a renderer that cuts where another rounds must land on the same byte.
    channels = " ".join(f"{math.ceil(share * 1e4) / 1e4:g}" for share in shares)
    return f"{channels} {'rg' if build[5] == b'k' else 'RG'}".encode()
