"""Whether a print file still holds what its art was made of, byte for byte, in a worker."""

from __future__ import annotations

import hashlib
import io
from typing import Any

import pikepdf

from mockup.artwork.art import Art
from mockup.errors import InputError
from mockup.foreign.one_page import reachable
from mockup.sources import read_whole, sha256_of
from mockup.trade.limits import FILE_MAX_BYTES
from mockup.vector.pdf_objects import entry
from mockup.vector.stumbling import asked

_PARTS = ("/Contents", "/Resources", "/Group")


def lost_streams(art: Art, written: Art) -> int:
    """Returns how many streams of an art's page a file written from it does not hold.

    Raises InputError for a file that cannot be read, or has changed.
    """
    with _opened(art) as source, _opened(written) as own:
        page, other = source.pages[art.page - 1].obj, own.pages[written.page - 1].obj
        return len(_marks(page) - _marks(other))


def _opened(art: Art) -> pikepdf.Pdf:
    content = read_whole(art.path, FILE_MAX_BYTES)
    if sha256_of(content) != art.sha256:
        raise InputError("changed while it was being read; run the command again")
    try:
        return pikepdf.open(io.BytesIO(content))
    except pikepdf.PdfError as error:
        said = " ".join(str(error).split())[-80:]
        raise InputError(f"is broken ({said}); save it again as PDF") from error


def _marks(page: Any) -> set[bytes]:
    """Returns a mark for every stream a page is made of."""
    found: set[bytes] = set()
    for key in _PARTS:
        held = reachable(entry(page, key))
        found |= {_mark(each) for each in held if isinstance(each, pikepdf.Stream)}
    return found


def _mark(stream: Any) -> bytes:
    """Returns the SHA-256 of a stream as it is packed."""
    return hashlib.sha256(asked(lambda: stream.read_raw_bytes(), otherwise=b"")).digest()
