"""Writing our own ICC profiles: version 2, tables of 16 bits (ICC.1:2001-04)."""

from __future__ import annotations

import struct

import numpy as np
from numpy.typing import NDArray

from mockup.colour.lab import D50

Numbers = NDArray[np.float64]

_DATE = (2026, 1, 1, 0, 0, 0)  # fixed: the same table makes the same bytes
_LAB_TO_16 = 65280.0  # ICC.1:2001-04, 6.3.4.2: L* 100 is 0xFF00, a* and b* of 0 are 0x8000


def encoded_lab(lab: Numbers) -> Numbers:
    """Returns CIELAB, (..., 3), as shares 0 to 1 of 16 bits; what lies outside is clipped."""
    shares = (lab + np.array([0, 128, 128])) / np.array([100, 255, 255]) * (_LAB_TO_16 / 65535)
    return np.clip(shares, 0, 1)


def table_tag(curves: Numbers, table: Numbers) -> bytes:
    """Returns an `mft2` tag: (inputs, n) curves of shares 0 to 1, then a grid (g, ..., outputs)."""
    inputs, entries = curves.shape
    grid, outputs = table.shape[0], table.shape[-1]
    head = struct.pack(">4s4xBBBx", b"mft2", inputs, outputs, grid)
    matrix = struct.pack(">9i", *(np.eye(3).ravel() * 65536).astype(int))
    straight = np.tile(np.array([0.0, 1.0]), (outputs, 1))
    parts = [_sixteen(each) for each in (curves, table, straight)]
    return b"".join([head, matrix, struct.pack(">HH", entries, 2), *parts])


def press_profile(
    name: str, rights: str, white: Numbers, from_ink: bytes, to_ink: bytes | None = None
) -> bytes:
    """Returns a CMYK output profile; `from_ink` and `to_ink` are its tables for every intent.

    `white` is XYZ of its paper. Without `to_ink` nothing can be separated for it.
    """
    tags: list[tuple[bytes, bytes]] = [
        (b"desc", _description(name)),
        (b"cprt", b"text" + bytes(4) + rights.encode("ascii") + b"\0"),
        (b"wtpt", b"XYZ " + bytes(4) + struct.pack(">3i", *(round(v * 65536) for v in white))),
    ]
    tags += [(key, from_ink) for key in (b"A2B0", b"A2B1", b"A2B2")]
    if to_ink is not None:
        tags += [(key, to_ink) for key in (b"B2A0", b"B2A1", b"B2A2")]
    return _whole(tags)


def _whole(tags: list[tuple[bytes, bytes]]) -> bytes:
    start = 128 + 4 + 12 * len(tags)
    placed: dict[bytes, int] = {}
    rows, body = b"", b""
    for key, content in tags:
        if content not in placed:
            placed[content] = start + len(body)
            body += content + bytes(-len(content) % 4)
        rows += struct.pack(">4sII", key, placed[content], len(content))
    size = start + len(body)
    head = struct.pack(
        ">I4xI4s4s4s6H4s", size, 0x02400000, b"prtr", b"CMYK", b"Lab ", *_DATE, b"acsp"
    )
    light = struct.pack(">3i", *(round(value * 65536) for value in D50))
    head = head.ljust(64, b"\0") + struct.pack(">I", 1) + light
    return head.ljust(128, b"\0") + struct.pack(">I", len(tags)) + rows + body


def _description(name: str) -> bytes:
    text = name.encode("ascii") + b"\0"
    # No Unicode and no Macintosh text follows: counts of nought, and 67 bytes that stay empty.
    return b"desc" + bytes(4) + struct.pack(">I", len(text)) + text + bytes(4 + 4 + 2 + 1 + 67)


def _sixteen(shares: Numbers) -> bytes:
    return np.rint(np.clip(shares, 0, 1) * 65535).astype(">u2").tobytes()
