"""Programs that save a page again without changing it, and what pictures suffer on the way."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import numpy as np
import pikepdf
import pymupdf
from PIL import Image

from mockup.pixels import Bytes

SECONDS = 120


def _run(*words: str | Path) -> None:
    subprocess.run(
        [str(word) for word in words],
        check=True,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        timeout=SECONDS,
    )


def ghostscript(source: Path, target: Path) -> None:
    """Ghostscript's pdfwrite, with its defaults: pictures are compressed again."""
    _run("gs", "-q", "-dNOPAUSE", "-dBATCH", "-sDEVICE=pdfwrite", f"-sOutputFile={target}", source)


def poppler(source: Path, target: Path) -> None:
    """Poppler's pdftocairo."""
    _run("pdftocairo", "-pdf", source, target)


def qpdf(source: Path, target: Path) -> None:
    """qpdf, streams packed anew."""
    _run("qpdf", "--object-streams=generate", "--recompress-flate", source, target)


def inkscape(source: Path, target: Path) -> None:
    """Inkscape, by Poppler's reading, type as type."""
    _run("inkscape", "--pdf-poppler", source, f"--export-filename={target}")


def inkscape_outlined(source: Path, target: Path) -> None:
    """Inkscape, type turned to outlines."""
    _run(
        *("inkscape", "--pdf-poppler", source),
        *("--export-text-to-path", f"--export-filename={target}"),
    )


def mupdf(source: Path, target: Path) -> None:
    """MuPDF, cleaned and packed."""
    with pymupdf.open(source) as document:
        document.save(target, garbage=4, deflate=True, clean=True)


def pikepdf_saved(source: Path, target: Path) -> None:
    """pikepdf, content streams written anew."""
    with pikepdf.open(source) as pdf:
        for page in pdf.pages:
            told = pikepdf.unparse_content_stream(pikepdf.parse_content_stream(page))
            page.Contents = pdf.make_stream(told)
        pdf.save(target)


PROGRAMS: dict[str, Callable[[Path, Path], None]] = {
    "ghostscript": ghostscript,
    "poppler": poppler,
    "qpdf": qpdf,
    "inkscape": inkscape,
    "inkscape-outlined": inkscape_outlined,
    "mupdf": mupdf,
    "pikepdf": pikepdf_saved,
}
_NEEDS = {"ghostscript": "gs", "poppler": "pdftocairo", "qpdf": "qpdf", "inkscape": "inkscape"}


def missing() -> list[str]:
    """Returns the programs that are not on this machine."""
    return [
        name
        for name in PROGRAMS
        if (need := next((c for word, c in _NEEDS.items() if name.startswith(word)), None))
        and shutil.which(need) is None
    ]


def rounded(picture: Bytes, number: int) -> Bytes:
    """Every value off by one or none, by chance."""
    chance = np.random.default_rng(number)
    off = chance.integers(-1, 2, picture.shape)
    return np.clip(picture.astype(np.int16) + off, 0, 255).astype(np.uint8)


def off_by_two(picture: Bytes, number: int) -> Bytes:
    """Every channel off by two throughout, as another colour engine rounds."""
    off = np.random.default_rng(number).choice((-2, 0, 2), 3)
    return np.clip(picture.astype(np.int16) + off, 0, 255).astype(np.uint8)


def as_jpeg(picture: Bytes, number: int) -> Bytes:
    """Kept as JPEG of quality 90."""
    encoded = BytesIO()
    Image.fromarray(picture).save(encoded, "JPEG", quality=90, subsampling=0)
    encoded.seek(0)
    return np.asarray(Image.open(encoded).convert("RGB"))


SUFFERED: dict[str, Callable[[Bytes, int], Bytes]] = {
    "rounded": rounded,
    "off-by-two": off_by_two,
    "as-jpeg": as_jpeg,
}
