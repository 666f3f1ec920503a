"""Reading a foreign file whole: a regular file, no larger than a limit, read once."""

from __future__ import annotations

import hashlib
import os
import stat
from pathlib import Path

from mockup.errors import InputError, LimitError, Mistake, MockupError


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
        raise refusal(Mistake("no such file", str(path))) from None
    except (OSError, ValueError) as error:
        _refuse_folder(path, refusal)  # which some systems do not open at all
        reason = f"cannot be read ({_said(error)})"
        raise refusal(Mistake(reason, str(path))) from error
    try:
        found = os.fstat(handle)
        _refuse_kind(path, found.st_mode, refusal)
        with os.fdopen(os.dup(handle), "rb") as file:
            content = file.read(limit_bytes + 1)
    except OSError as error:
        raise refusal(Mistake(f"cannot be read ({_said(error)})", str(path))) from error
    finally:
        os.close(handle)
    if len(content) > limit_bytes:
        size = max(found.st_size, len(content)) / 1024**2
        said = f"is {size:.1f} MB; the limit is {limit_bytes / 1024**2:g} MB"
        raise LimitError(Mistake(said, str(path)))
    return content


def is_there(path: Path) -> bool:
    """Returns whether a path names anything, also a link that leads nowhere; raises nothing."""
    try:
        path.lstat()
    except (OSError, ValueError):  # names that no system takes are not there either
        return False
    return True


def sha256_of(content: bytes) -> str:
    """Returns the SHA-256 of bytes (FIPS 180-4), in hexadecimal."""
    return hashlib.sha256(content).hexdigest()


def _refuse_folder(path: Path, refusal: type[MockupError]) -> None:
    try:
        _refuse_kind(path, path.stat().st_mode, refusal)
    except (OSError, ValueError):
        return


def _refuse_kind(path: Path, mode: int, refusal: type[MockupError]) -> None:
    if stat.S_ISDIR(mode):
        raise refusal(Mistake("is a folder; name the file inside it", str(path)))
    if not stat.S_ISREG(mode):
        raise refusal(Mistake("is no regular file, but a device or a pipe; name a file", str(path)))


def _said(error: Exception) -> str:
    return (error.strerror if isinstance(error, OSError) else None) or str(error)
