"""How large the drawing of a PDF page is once it is unpacked, found without unpacking more of it.

A file of 2 kB may unpack to hundreds of megabytes (ISO 32000-1 7.4: filters within filters).
"""

from __future__ import annotations

import base64
import binascii
import re
import zlib
from collections.abc import Callable
from typing import Any

import pikepdf

from mockup.errors import LimitError
from mockup.trade.limits import PDF_CONTENT_MAX_BYTES
from mockup.vector.pdf_objects import entry, identity, items_of, word
from mockup.vector.stumbling import asked

_SPACE = re.compile(rb"[\0\t\n\f\r ]+")


class Unpacked:
    """What the drawings read so far come to. One that is read again counts again."""

    def __init__(self) -> None:
        self._bytes = 0
        self._sizes: dict[tuple[int, int], int] = {}

    def take(self, contents: Any) -> None:
        """Counts a stream, or an array of them. Raises LimitError beyond what is taken on."""
        streams = items_of(contents) if isinstance(contents, pikepdf.Array) else [contents]
        for stream in streams:
            self._bytes += self._size(stream)
            if self._bytes > PDF_CONTENT_MAX_BYTES:
                raise _too_large()

    def _size(self, stream: Any) -> int:
        key = identity(stream)
        if key is None or not isinstance(stream, pikepdf.Stream):
            return 0
        if key not in self._sizes:
            self._sizes[key] = _unpacked_bytes(stream)
        return self._sizes[key]


def _unpacked_bytes(stream: pikepdf.Stream) -> int:
    """Returns the bytes a stream unpacks to, as far as its filters are ours to follow.

    The others (LZW, run lengths, images) do not multiply as these do; the worker's memory is their
    limit.
    """
    told = entry(stream, "/Filter")
    filters = items_of(told) if isinstance(told, pikepdf.Array) else [told]
    data = asked(lambda: stream.read_raw_bytes(), otherwise=b"")
    for name in map(word, filters):
        unpack = _FILTERS.get(name)
        if unpack is None:
            break
        data = unpack(data)
        if len(data) > PDF_CONTENT_MAX_BYTES:
            raise _too_large()
    return len(data)


def _inflated(data: bytes) -> bytes:
    try:
        return zlib.decompressobj().decompress(data, PDF_CONTENT_MAX_BYTES + 1)
    except zlib.error:
        return b""  # what the reader makes of it is small


def _from_hex(data: bytes) -> bytes:
    digits = _SPACE.sub(b"", data.partition(b">")[0])
    try:
        return binascii.unhexlify(digits + b"0" * (len(digits) % 2))
    except binascii.Error:
        return b""


def _from_base85(data: bytes) -> bytes:
    try:
        return base64.a85decode(data.partition(b"~")[0], ignorechars=b"\0\t\n\f\r ")
    except ValueError:
        return b""


_FILTERS: dict[str, Callable[[bytes], bytes]] = {
    "FlateDecode": _inflated,
    "Fl": _inflated,
    "ASCIIHexDecode": _from_hex,
    "AHx": _from_hex,
    "ASCII85Decode": _from_base85,
    "A85": _from_base85,
}


def _too_large() -> LimitError:
    megabytes = PDF_CONTENT_MAX_BYTES // 1024**2
    return LimitError(f"its drawing unpacks to over {megabytes} MB, the limit; simplify it")
