"""Answers handed from a worker to its master: large arrays in memory that both can see.

An array is written once, into a file without a name (in memory on Linux), whose handle travels over
the socket; the master maps it and copies nothing. The file is gone when the last of the two lets
go, whatever ends them. Windows hands no such handles on: there the bytes travel themselves.
"""

from __future__ import annotations

import mmap
import os
import pickle
import sys
import tempfile
from multiprocessing import reduction
from multiprocessing.connection import Connection
from typing import Any, BinaryIO

# Arrays smaller than this travel with the rest; judgement: about what a socket holds.
APART_BYTES = 64 * 1024


def send(line: Connection, answer: Any, receiver: int) -> None:
    """Sends an answer down a line to process `receiver`. Raises OSError if nobody listens."""
    apart: list[memoryview] = []

    def keep_in(buffer: pickle.PickleBuffer) -> bool:
        view = buffer.raw()
        if view.nbytes < APART_BYTES:
            return True
        apart.append(view)
        return False

    packed = pickle.dumps(answer, protocol=5, buffer_callback=keep_in)
    line.send((packed, [view.nbytes for view in apart]))
    if not apart:
        return
    if sys.platform == "win32":
        for view in apart:
            line.send_bytes(view)
        return
    with _nameless() as file:
        for view in apart:
            file.write(view)
        file.flush()
        reduction.send_handle(line, file.fileno(), receiver)


def receive(line: Connection) -> tuple[Any, int]:
    """Returns the next answer, and its size in bytes. Raises EOFError where a worker ended."""
    packed, lengths = line.recv()
    size = len(packed) + sum(lengths)
    if not lengths:
        return pickle.loads(packed), size
    if sys.platform == "win32":
        return pickle.loads(packed, buffers=[line.recv_bytes() for _ in lengths]), size
    handle = reduction.recv_handle(line)
    try:
        # Lives for as long as an array made of it does; nobody writes to what others may hold.
        mapped = memoryview(mmap.mmap(handle, sum(lengths))).toreadonly()
    finally:
        os.close(handle)
    parts: list[memoryview] = []
    start = 0
    for length in lengths:
        parts.append(mapped[start : start + length])
        start += length
    return pickle.loads(packed, buffers=parts), size


def _nameless() -> BinaryIO:
    if hasattr(os, "memfd_create"):
        return os.fdopen(os.memfd_create("mockup"), "wb")
    return tempfile.TemporaryFile()  # pyright: ignore[reportReturnType]  # a wrapper on Windows only
