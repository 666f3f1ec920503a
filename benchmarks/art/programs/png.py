"""Gray pictures as PNG, by the standard library alone."""

import struct
import zlib


def png(wide, high, gray):
    """Returns (high x wide) bytes of gray as PNG."""

    def chunk(kind, data):
        body = kind + data
        return struct.pack(">I", len(data)) + body + struct.pack(">I", zlib.crc32(body))

    rows = b"".join(b"\0" + gray[y * wide : (y + 1) * wide] for y in range(high))
    head = struct.pack(">IIBBBBB", wide, high, 8, 0, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(rows))
        + chunk(b"IEND", b"")
    )  # fmt: skip
