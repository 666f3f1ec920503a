"""Reading a foreign file whole: a regular file, no larger than a limit, read once."""

from __future__ import annotations

import hashlib
import os
import stat
from pathlib import Path

from mockup.errors import InputError, LimitError, MockupError


def read_whole(path: Path, limit_bytes: int, refusal: type[MockupError] = InputError) -> bytes:
    """Returns the bytes of a regular file of at most `limit_bytes`.

    Devices, pipes and folders are refused before anything is read of them: they may never end.
    Raises `refusal` for a file that cannot be read, LimitError for one that is too large.
    """
    try:
        # A pipe without a writer would hold the opening for ever; this way it is looked at first.
        handle = os.open(
            path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
        )
    except FileNotFoundError:
        raise refusal(f"{path}: no such file") from None
    except (OSError, ValueError) as error:
        folder = Path(path).is_dir() if "\0" not in str(path) else False
        reason = (
            "is a folder; name the file inside it" if folder else f"cannot be read ({_said(error)})"
        )
        raise refusal(f"{path}: {reason}") from error
    try:
        found = os.fstat(handle)
        _refuse_kind(path, found.st_mode, refusal)
        with os.fdopen(os.dup(handle), "rb") as file:
            content = file.read(limit_bytes + 1)
    except OSError as error:
        raise refusal(f"{path}: cannot be read ({_said(error)})") from error
    finally:
        os.close(handle)
    if len(content) > limit_bytes:
        size = max(found.st_size, len(content)) / 1024**2
        raise LimitError(f"{path}: is {size:.1f} MB; the limit is {limit_bytes / 1024**2:g} MB")
    return content


def sha256_of(content: bytes) -> str:
    """Returns the SHA-256 of bytes (FIPS 180-4), in hexadecimal."""
    return hashlib.sha256(content).hexdigest()


def _refuse_kind(path: Path, mode: int, refusal: type[MockupError]) -> None:
    if stat.S_ISDIR(mode):
        raise refusal(f"{path}: is a folder; name the file inside it")
    if not stat.S_ISREG(mode):
        raise refusal(f"{path}: is no regular file, but a device or a pipe; name a file")


def _said(error: Exception) -> str:
    return (error.strerror if isinstance(error, OSError) else None) or str(error)
