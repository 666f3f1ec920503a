"""Files written whole or not at all: beside their place first, then renamed."""

from __future__ import annotations

import secrets
import shutil
from collections.abc import Generator
from contextlib import contextmanager, suppress
from dataclasses import replace
from pathlib import Path

from mockup.errors import Mistake, OutputError

_STEM = 40  # letters of a name kept in the temporary one: names are limited to 255 bytes


@contextmanager
def whole_file(path: Path) -> Generator[Path]:
    """Yields a temporary path in the folder of `path`, and renames it to `path` at the end.

    Nothing is left where the work fails. Raises OutputError where the folder is missing or cannot
    be written to.
    """
    if path.is_dir():
        raise OutputError(f"{path}: is a folder; name a file")
    name = f".{path.stem[:_STEM]}-{secrets.token_hex(6)}{path.suffix}"
    beside = path.with_name(name)
    try:  # entered before the file is made: an interrupt in between leaves nothing
        beside.open("xb").close()
        yield beside
        beside.replace(path)
    except OSError as error:
        raise OutputError(f"{path}: cannot be written ({_reason(error)})") from error
    finally:
        beside.unlink(missing_ok=True)


def write_whole(path: Path, content: bytes) -> None:
    """Writes bytes to a file whole. Raises OutputError."""
    with whole_file(path) as beside:
        beside.write_bytes(content)


@contextmanager
def made_folder(path: Path) -> Generator[Path]:
    """Yields a folder, made where it was missing; one that was made goes again if work fails.

    Only while it is empty. Raises OutputError where it cannot be made.
    """
    missing = [place for place in (path, *path.parents) if not place.exists()]
    try:
        try:
            path.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise OutputError(f"{path}: cannot be made ({_reason(error)})") from error
        yield path
    except BaseException:
        for place in missing:
            with suppress(OSError):  # something else is in it by now
                place.rmdir()
        raise


@contextmanager
def whole_folder(folder: Path) -> Generator[Path]:
    """Yields an empty folder inside another, whose files are moved up at the end: all or none.

    Raises OutputError where a file cannot be moved to its place.
    """
    beside = folder / f".{secrets.token_hex(6)}"
    try:
        beside.mkdir()
        yield beside
        for file in sorted(beside.iterdir()):
            file.replace(folder / file.name)
    except OutputError as error:  # told by the name the file was to have, not by one that is gone
        raise type(error)(*(_moved(each, beside, folder) for each in error.mistakes)) from error
    except OSError as error:
        raise OutputError(f"{folder}: cannot be written to ({_reason(error)})") from error
    finally:
        shutil.rmtree(beside, ignore_errors=True)


def _moved(mistake: Mistake, place: Path, folder: Path) -> Mistake:
    sentence, file = (
        text.replace(str(place), str(folder)) for text in (mistake.sentence, mistake.file)
    )
    return replace(mistake, sentence=sentence, file=file)


def _reason(error: OSError) -> str:
    if isinstance(error, FileNotFoundError):
        return "the folder does not exist"
    return error.strerror or str(error)
