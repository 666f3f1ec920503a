"""Calls of a PDF library: what it refuses is told of the file; its chatter is kept off our output.

Only the library's own work stands inside these guards. A mistake of ours is never told as a fault
of somebody's file.
"""

from __future__ import annotations

import re
from collections.abc import Generator
from contextlib import contextmanager

import pymupdf
from pymupdf import mupdf

from mockup.errors import InputError, LimitError
from mockup.vector.stumbling import asked
from mockup.workshop.worker import TOO_MUCH_MEMORY

pymupdf.TOOLS.mupdf_display_errors(False)
pymupdf.TOOLS.mupdf_display_warnings(False)

_FAULTS = (mupdf.FzErrorBase, pymupdf.FileDataError)
# Found by giving MuPDF 1.28 images of every filter, cut short or filled with noise.
_IMAGE_WORDS = (
    *("truncated image", "premature end of file in jpeg", "jpeg error", "openjpeg error"),
    *("jbig2dec error", "1d fax", "2d fax", "unknown filter name", "treating as end of file"),
)
_KIND = re.compile(r"^(?:(?:library|format|syntax|argument) error: )+")
_CODE = re.compile(r"^code=\d+: ")
# Found by forms in forms and colours of many inks: saving the page again would change neither.
_MEANINGS = {
    "stack overflow": "groups lie in groups too deep for it; flatten them, and save the art again",
    "number of colorants": "a colour is mixed of more inks than can be drawn; use fewer",
}
_MEMORY_WORDS = ("malloc", "calloc", "realloc", "out of memory", "memory limit")


@contextmanager
def drawing() -> Generator[None]:
    """Guards a run of MuPDF over a page. Raises InputError, or LimitError for want of memory."""
    try:
        yield
    except _FAULTS as error:
        raise refusal(error, "cannot be drawn") from error


def image_trouble() -> str:
    """Returns what the library last complained of while it decoded images; empty where nothing.

    It goes on with grey or black where data is missing, and says so only among its warnings.
    """
    lines = pymupdf.TOOLS.mupdf_warnings().splitlines()
    found = next((line for line in lines if any(word in line for word in _IMAGE_WORDS)), "")
    return _KIND.sub("", found)


def forget_trouble() -> None:
    """Forgets the complaints there were."""
    mupdf.fz_flush_warnings()  # or the same complaint would be taken for a repetition of the last
    pymupdf.TOOLS.reset_mupdf_warnings()


def key_of(document: pymupdf.Document, xref: int, key: str) -> tuple[str, str]:
    """Returns the kind and text of a key of an object; ("null", "") where it cannot be read."""
    nothing: tuple[str, str] = ("null", "")
    return asked(document.xref_get_key, xref, key, otherwise=nothing)


def refusal(error: BaseException, what: str) -> InputError | LimitError:
    """Returns the error to raise for a complaint of the library."""
    said = _CODE.sub("", " ".join(str(error).split()))[:120]
    if any(word in said for word in _MEMORY_WORDS):
        return LimitError(TOO_MUCH_MEMORY)
    for word, meaning in _MEANINGS.items():
        if word in said:
            return InputError(f"{what}: {meaning}")
    return InputError(f"{what} ({said}); save it again as PDF")
