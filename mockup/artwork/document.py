"""Opening artwork: a PDF, or an SVG turned into one; what cannot be used is refused in a line."""

from __future__ import annotations

from collections.abc import Generator
from contextlib import contextmanager
from pathlib import Path

import pymupdf

from mockup.artwork.svg import svg_to_pdf
from mockup.errors import InputError, LimitError
from mockup.trade.limits import FILE_MAX_BYTES, PAGES_MAX

# MuPDF writes its complaints to standard output, where they would spoil a machine answer.
pymupdf.TOOLS.mupdf_display_errors(False)
pymupdf.TOOLS.mupdf_display_warnings(False)


@contextmanager
def open_document(path: Path) -> Generator[pymupdf.Document]:
    """Yields an open PDF document with at least one page; the file is only read.

    Raises InputError for a file that is missing, not a PDF or SVG, broken, encrypted or without
    pages, LimitError for one beyond the limits.
    """
    document = _opened(path)
    try:
        _refuse_unusable(path, document)
        yield document
    finally:
        document.close()


@contextmanager
def open_page(path: Path, number: int) -> Generator[pymupdf.Page]:
    """Yields page `number` (from 1) of a document.

    Raises InputError where there is no such page, and what open_document raises.
    """
    with open_document(path) as document:
        count = document.page_count
        if not 1 <= number <= count:
            pages = "1 page" if count == 1 else f"{count} pages"
            raise InputError(f"{path}: there is no page {number}; the file has {pages}")
        try:
            page = document.load_page(number - 1)
        except RuntimeError as error:
            raise InputError(f"{path}, page {number}: cannot be read ({_said(error)})") from error
        yield page


def page_count(path: Path) -> int:
    """Returns how many pages a document has. Raises what open_document raises."""
    with open_document(path) as document:
        return document.page_count


def _opened(path: Path) -> pymupdf.Document:
    if not path.exists():
        raise InputError(f"{path}: no such file")
    if path.is_dir():
        raise InputError(f"{path}: is a folder; name the PDF inside it")
    try:
        size = path.stat().st_size
        with path.open("rb") as file:
            head = file.read(1024)
    except OSError as error:
        raise InputError(f"{path}: cannot be read ({error.strerror})") from error
    if size > FILE_MAX_BYTES:
        limit_mb = FILE_MAX_BYTES // 1024**2
        raise LimitError(f"{path}: is {size / 1024**2:.0f} MB; the limit is {limit_mb} MB")
    if path.suffix.lower() == ".svg" or (b"<svg" in head and b"%PDF-" not in head):
        return pymupdf.open(stream=svg_to_pdf(path), filetype="pdf")
    if b"%PDF-" not in head:
        raise InputError(f"{path}: is not a PDF; save the art as PDF (or SVG) and try again")
    try:
        return pymupdf.open(path, filetype="pdf")
    except (RuntimeError, ValueError) as error:
        raise InputError(f"{path}: is broken ({_said(error)}); save it again as PDF") from error


def _refuse_unusable(path: Path, document: pymupdf.Document) -> None:
    if document.needs_pass:
        raise InputError(f"{path}: is protected by a password; save a copy without protection")
    if document.page_count == 0:
        raise InputError(f"{path}: has no pages, or is broken; save it again as PDF")
    if document.page_count > PAGES_MAX:
        raise LimitError(
            f"{path}: has {document.page_count} pages; the limit is {PAGES_MAX}; "
            "save the pieces' pages alone"
        )


def _said(error: Exception) -> str:
    return " ".join(str(error).split())[:120]
