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

from mockup.errors import LimitError

# Arrays smaller than this travel with the rest; judgement: about what a socket holds.
APART_BYTES = 64 * 1024
_NO_ROOM = "this system has no room to hand its pixels on"
_FREE = "raise its limits, or close other programs"


def send(line: Connection, answer: Any, receiver: int) -> None:
    """Sends an answer down a line to process `receiver`.

    Raises OSError if nobody listens, LimitError where the system has no room for large arrays:
    nothing is sent then.
    """
    apart: list[memoryview] = []

    def keep_in(buffer: pickle.PickleBuffer) -> bool:
        view = buffer.raw()
        if view.nbytes < APART_BYTES:
            return True
        apart.append(view)
        return False

    packed = pickle.dumps(answer, protocol=5, buffer_callback=keep_in)
    message = (packed, [view.nbytes for view in apart])
    if not apart:
        line.send(message)
    elif sys.platform == "win32":
        line.send(message)
        for view in apart:
            line.send_bytes(view)
    else:
        with _laid_apart(apart) as file:
            line.send(message)
            reduction.send_handle(line, file.fileno(), receiver)


def _laid_apart(arrays: list[memoryview]) -> BinaryIO:
    """Returns a file without a name that holds the arrays. Raises LimitError."""
    try:
        file = _nameless()
        for view in arrays:
            file.write(view)
        file.flush()
    except OSError as error:
        raise LimitError(f"{_NO_ROOM} ({error.strerror}); {_FREE}") from error
    return file


def receive(line: Connection) -> tuple[Any, int]:
    """Returns the next answer, and its size in bytes.

    Raises EOFError or OSError where a worker ended, LimitError where the system does not let its
    arrays be taken.
    """
    packed, lengths = line.recv()
    size = len(packed) + sum(lengths)
    if not lengths:
        return pickle.loads(packed), size
    if sys.platform == "win32":
        return pickle.loads(packed, buffers=[line.recv_bytes() for _ in lengths]), size
    mapped = _taken(line, sum(lengths))
    parts: list[memoryview] = []
    start = 0
    for length in lengths:
        parts.append(mapped[start : start + length])
        start += length
    return pickle.loads(packed, buffers=parts), size


def _taken(line: Connection, length: int) -> memoryview:
    """Returns the bytes whose handle comes next. Raises EOFError and LimitError."""
    try:
        handle = reduction.recv_handle(line)
    except RuntimeError as error:  # a message without its handle: no more files may be open
        raise LimitError(f"{_NO_ROOM} (too many open files); {_FREE}") from error
    try:
        # Lives for as long as an array made of it does; nobody writes to what others may hold.
        return memoryview(mmap.mmap(handle, length)).toreadonly()
    except OSError as error:
        raise LimitError(f"{_NO_ROOM} ({error.strerror}); {_FREE}") from error
    finally:
        os.close(handle)


def _nameless() -> BinaryIO:
    if hasattr(os, "memfd_create"):
        return os.fdopen(os.memfd_create("mockup"), "wb")
    return tempfile.TemporaryFile()  # pyright: ignore[reportReturnType]  # a wrapper on Windows only
