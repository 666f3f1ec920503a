"""Writing an event: whole, on the disk, and never over another."""

from __future__ import annotations

import os
import secrets
from pathlib import Path

from mockup.errors import Mistake, OutputError
from mockup.record.events import Event
from mockup.record.reading import Record
from mockup.record.text import written


def write_event(record: Record, event: Event) -> Path:
    """Returns the file an event stands in, written as the next of its record.

    An event the record has already is not written twice. Whatever stops the program, the record
    holds the event whole or not at all, and all that it held before. Raises OutputError.
    """
    known = next((each.file for each in record.entries if each.event == event), None)
    if known is not None:
        return record.folder / known
    file = written(event, record.last_number + 1, record.ends)
    return write_lasting(record.folder, file.name, file.content)


def write_lasting(folder: Path, name: str, content: bytes) -> Path:
    """Returns a file of a folder once its bytes are on the disk, and its name with them.

    The folder is made where it is missing, not where the one above it is; a link is not followed.
    Raises OutputError.
    """
    beside = folder / f".{secrets.token_hex(8)}"
    try:
        make_lasting(folder)
        try:
            _write_through(beside, content)
            beside.replace(folder / name)  # of a link, the link itself
        finally:
            beside.unlink(missing_ok=True)
        _settle(folder)
    except OSError as error:
        said = f"cannot be written ({error.strerror or error})"
        raise OutputError(Mistake(said, str(folder / name))) from error
    return folder / name


def make_lasting(folder: Path) -> None:
    """Makes a folder, where it is missing; refuses a link to one."""
    if folder.is_symlink():
        raise OutputError(Mistake("is a link, which is not written through", str(folder)))
    if not folder.is_dir():
        folder.mkdir(exist_ok=True)
        _settle(folder.parent)


def _write_through(path: Path, content: bytes) -> None:
    """Writes bytes to a new file, and waits until the disk has them."""
    with path.open("xb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _settle(folder: Path) -> None:
    """Waits until the disk has a folder's names; systems that cannot be asked keep them anyway."""
    if os.name == "nt":
        return  # folders cannot be opened there; its file system writes names in order
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
