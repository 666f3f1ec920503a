"""Files written whole or not at all: beside their place first, then renamed."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Generator
from contextlib import contextmanager
from pathlib import Path

from mockup.errors import OutputError


@contextmanager
def whole_file(path: Path) -> Generator[Path]:
    """Yields a temporary path in the folder of `path`, and renames it to `path` at the end.

    Nothing is left where the work fails. Raises OutputError where the folder is missing or cannot
    be written to.
    """
    if path.is_dir():
        raise OutputError(f"{path}: is a folder; name a file")
    try:
        handle, name = tempfile.mkstemp(
            prefix=f".{path.stem}-", suffix=path.suffix, dir=path.parent or Path()
        )
        os.close(handle)
    except OSError as error:
        raise OutputError(f"{path}: cannot be written ({_reason(error)})") from error
    beside = Path(name)
    try:
        yield beside
        beside.chmod(0o666 & ~_umask())
        beside.replace(path)
    except OSError as error:
        raise OutputError(f"{path}: cannot be written ({_reason(error)})") from error
    finally:
        beside.unlink(missing_ok=True)


def write_whole(path: Path, content: bytes) -> None:
    """Writes bytes to a file whole. Raises OutputError."""
    with whole_file(path) as beside:
        beside.write_bytes(content)


def made_folder(path: Path) -> Path:
    """Returns a folder that exists, made where it was missing. Raises OutputError."""
    try:
        path.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise OutputError(f"{path}: cannot be made ({_reason(error)})") from error
    return path


def _reason(error: OSError) -> str:
    if isinstance(error, FileNotFoundError):
        return "the folder does not exist"
    return error.strerror or str(error)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
