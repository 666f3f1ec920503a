"""The door to every file that is written: looked at before the work, so that nothing is lost."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from mockup.errors import Mistake, OutputError

PICTURE = (".png", ".jpg", ".jpeg")
PICTURE_OR_PDF = (*PICTURE, ".pdf")
CUT_OUT = (".png",)  # transparent round the cut, which JPEG cannot be
PDF = (".pdf",)
TOML = (".toml",)


@dataclass(frozen=True)
class Destination:
    """A file to be written: what it holds, as a reader says it, and the endings it may have."""

    path: Path
    what: str
    endings: tuple[str, ...]


def refuse_unfit(wanted: Sequence[Destination], folder: Path | None = None) -> None:
    """Raises OutputError with a line for every place that cannot be written to.

    A place is a file, or nothing yet, of an ending that is written, in a folder that can be written
    to; no link, pipe or device. `folder` is one that will be made where it is missing.
    """
    told = [] if folder is None else _folder_mistakes(folder)
    told += [Mistake(reason, str(each.path)) for each in wanted if (reason := _unfit(each, folder))]
    seen: set[Path] = set()
    for each in wanted:
        if each.path in seen:
            told.append(Mistake("would be written twice; give two names", str(each.path)))
        seen.add(each.path)
    if told:
        raise OutputError(*told)


def refuse_inputs(wanted: Sequence[Destination], inputs: Iterable[Path]) -> None:
    """Raises OutputError where a file to be written is one that is read, also by another link."""
    read = list(inputs)
    told = [
        Mistake(f"is read for this ({own}); give the {each.what} another name", str(each.path))
        for each in wanted
        if (own := next((path for path in read if _same(each.path, path)), None)) is not None
    ]
    if told:
        raise OutputError(*told)


def _unfit(wanted: Destination, made: Path | None) -> str | None:
    path = wanted.path
    if path.suffix.lower() not in wanted.endings and not path.is_dir():
        endings = " or ".join(wanted.endings)
        return f"a {wanted.what} is written as {endings}; name the file so"
    try:
        kind = path.lstat().st_mode
    except (FileNotFoundError, NotADirectoryError):
        return None if made in path.parents else _folder_unfit(path.parent)
    except OSError as error:
        return f"cannot be written ({error.strerror})"
    return _kind_unfit(kind) or _folder_unfit(path.parent)


def _kind_unfit(mode: int) -> str | None:
    if stat.S_ISLNK(mode):
        return "is a link, which is not written through; name the file itself"
    if stat.S_ISDIR(mode):
        return "is a folder; name a file"
    if stat.S_ISFIFO(mode):
        return "is a pipe; name a file"
    return None if stat.S_ISREG(mode) else "is a device or a socket; name a file"


def _folder_unfit(folder: Path) -> str | None:
    if not folder.exists():
        return "cannot be written (the folder does not exist)"
    if not folder.is_dir():
        return f"cannot be written ({folder} is no folder)"
    if not os.access(folder, os.W_OK | os.X_OK):
        return f"cannot be written (the folder {folder} may not be written to)"
    return None


def _folder_mistakes(folder: Path) -> list[Mistake]:
    """Returns what keeps a folder from being made, or written to where it is there."""
    there = next(place for place in (folder, *folder.absolute().parents) if place.exists())
    if folder.is_symlink() and not folder.exists():
        return [Mistake("is a link to nothing; name a folder", str(folder))]
    if there == folder and not folder.is_dir():
        return [Mistake("is no folder; name one", str(folder))]
    reason = _folder_unfit(there)
    return [Mistake(reason, str(folder))] if reason else []


def _same(path: Path, other: Path) -> bool:
    try:
        return path.samefile(other)
    except OSError:
        return False  # one of them is not there: nothing can be lost
