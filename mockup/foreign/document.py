"""Opening artwork in a worker: a PDF, or an SVG turned into one; kept open for the next job.

What MuPDF gives up on is handed to qpdf once, which rebuilds a damaged file's table of objects.
"""

from __future__ import annotations

import io
from collections import OrderedDict
from collections.abc import Generator
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any

import pymupdf
from pymupdf import mupdf

from mockup.artwork.art import Art
from mockup.errors import InputError, LimitError
from mockup.foreign.library import drawing, forget_trouble, image_trouble, refusal
from mockup.sources import read_whole, sha256_of
from mockup.trade.limits import FILE_MAX_BYTES, PAGES_MAX
from mockup.vector.pdf_ending import CUT_SHORT, lacks_its_end
from mockup.vector.stumbling import asked

KEPT_OPEN_BYTES = 256 * 1024**2  # judgement: all the files of one suite, and little beside 2 GB
# A membership may hide in an object stream, where its words are packed.
_MEMBERSHIP_SIGNS = (b"OCMD", b"/ObjStm")
_HEAD_BYTES = 1024  # a PDF's header may stand this far in (ISO 32000-1 Annex H, note 13)


@dataclass
class Opened:
    """A document kept open, and its pages as they are asked for."""

    document: pymupdf.Document
    size: int
    """Of the file, bytes."""
    known: dict[str, Any] = field(default_factory=dict[str, Any])
    """What was found out about the file."""
    copies: dict[str, Opened] = field(default_factory=dict[str, "Opened"])
    """The file with something of it changed, in memory."""

    def __post_init__(self) -> None:
        self._pages: dict[int, OpenedPage] = {}

    def page(self, number: int) -> OpenedPage:
        """Returns page `number`, from 1. Raises InputError where there is none."""
        count = self.document.page_count
        if not 1 <= number <= count:
            pages = "1 page" if count == 1 else f"{count} pages"
            raise InputError(f"there is no page {number}; the file has {pages}")
        if number not in self._pages:
            with drawing():
                page = self.document.load_page(number - 1)
            self._pages[number] = OpenedPage(page)
        return self._pages[number]

    def held(self) -> int:
        """Returns about how many bytes are kept, those of copies as well."""
        return self.size * (1 + len(self.copies))

    def close(self) -> None:
        """Closes the file and its copies."""
        for each in self.copies.values():
            each.close()
        self.document.close()


@dataclass
class OpenedPage:
    """A page kept open."""

    page: pymupdf.Page
    trouble: str = ""
    """What the library could not decode of its images, once it has drawn them."""
    known: dict[str, Any] = field(default_factory=dict[str, Any])
    """What was found out about the page."""

    @cached_property
    def marks(self) -> list[tuple[str, tuple[float, float, float, float]]]:
        """Everything the page draws, by the library's names, boxes in points, unrotated."""
        with self.watched(), drawing():
            return self.page.get_bboxlog()

    @contextmanager
    def watched(self) -> Generator[None]:
        """Draws the page and raises InputError where an image on it cannot be decoded.

        The library goes on without it, and says so once: what it decoded it keeps.
        """
        forget_trouble()
        yield
        self.trouble = self.trouble or image_trouble()
        if self.trouble:
            raise InputError(
                f"an image on it cannot be decoded ({self.trouble[:80]}); place the image again, "
                "and save the art again"
            )


_open: OrderedDict[str, Opened] = OrderedDict()
_openings: dict[str, int] = {}


def opened_page(art: Art) -> OpenedPage:
    """Returns the page of an art, open. Raises InputError and LimitError."""
    return opened_file(art).page(art.page)


def opened_file(art: Art) -> Opened:
    """Returns the file of an art, open. Raises InputError and LimitError."""
    if art.sha256 not in _open:
        content = read_whole(art.path, FILE_MAX_BYTES)
        if sha256_of(content) != art.sha256:
            raise InputError("changed while it was being read; run the command again")
        _openings[art.sha256] = _openings.get(art.sha256, 0) + 1
        _open[art.sha256] = _opened(art.path, content)
        while len(_open) > 1 and sum(each.held() for each in _open.values()) > KEPT_OPEN_BYTES:
            _open.popitem(last=False)[1].close()
    _open.move_to_end(art.sha256)
    return _open[art.sha256]


def page_count(art: Art) -> int:
    """Returns how many pages an art's file has. Raises what opened_page raises."""
    opened_page(art)
    return opened_file(art).document.page_count


def is_svg(path: Path, content: bytes) -> bool:
    """Returns whether a file is an SVG, by its ending or its first bytes."""
    head = content[:_HEAD_BYTES]
    return path.suffix.lower() in (".svg", ".svgz") or (b"<svg" in head and b"%PDF-" not in head)


def undrawn(art: Art) -> tuple[str, ...]:
    """Returns what an SVG's painted elements ask for that is not drawn, in words; nothing of a PDF.

    Raises InputError and LimitError for a file that cannot be read.
    """
    content = read_whole(art.path, FILE_MAX_BYTES)
    if not is_svg(art.path, content):
        return ()
    from mockup.foreign.svg import undrawn_of  # much to load, and most art is PDF

    return undrawn_of(content)


def times_opened(sha256: str) -> int:
    """Returns how often this worker has opened a file."""
    return _openings.get(sha256, 0)


def _opened(path: Path, content: bytes) -> Opened:
    if is_svg(path, content):
        from mockup.foreign.svg import svg_to_pdf  # much to load, and most art is PDF

        return _checked(Opened(_parsed(svg_to_pdf(str(path), content)), len(content)))
    if b"%PDF-" not in content[:_HEAD_BYTES]:
        raise InputError("is not a PDF; save the art as PDF (or SVG) and try again")
    short = lacks_its_end(content)
    try:
        opened = _checked(Opened(_parsed(_settled(content)), len(content)))
    except InputError:
        mended = None if short else _mended(content)
        if mended is None:
            raise
        return _checked(Opened(_parsed(_settled(mended)), len(mended)))
    if short and opened.document.is_repaired:
        raise InputError(CUT_SHORT)
    return opened


def _settled(content: bytes) -> bytes:
    """Returns a PDF whose layer memberships MuPDF understands."""
    if not any(sign in content for sign in _MEMBERSHIP_SIGNS):
        return content
    from mockup.foreign.memberships import settled  # loads a second PDF library

    return settled(content)


def _parsed(content: bytes) -> pymupdf.Document:
    try:
        return pymupdf.open(stream=content, filetype="pdf")
    except (RuntimeError, mupdf.FzErrorBase) as error:
        raise refusal(error, "is broken") from error


def _mended(content: bytes) -> bytes | None:
    """Returns a PDF as qpdf rebuilds it, or None where there is nothing to rebuild.

    A file under a password is left as it is: it is not ours to open.
    """
    import pikepdf  # only for what MuPDF gives up on

    rebuilt = io.BytesIO()

    def rebuild() -> bool:
        with pikepdf.open(io.BytesIO(content)) as pdf:
            if pdf.is_encrypted or not len(pdf.pages):
                return False
            pdf.save(rebuilt)
        return True

    return rebuilt.getvalue() if asked(rebuild, otherwise=False) else None


def _checked(opened: Opened) -> Opened:
    document: Any = opened.document
    if document.needs_pass:
        raise InputError("is protected by a password; save a copy without protection")
    count = asked(lambda: int(document.page_count), otherwise=0)
    if count == 0:
        raise InputError("has no pages, or is broken; save it again as PDF")
    if count > PAGES_MAX:
        raise LimitError(
            f"has {count} pages; the limit is {PAGES_MAX}; save those that are needed alone"
        )
    return opened
