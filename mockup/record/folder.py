"""Where a record is kept: a folder beside the suite file; looked at before anything is written."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path

from mockup.errors import Mistake, OutputError

PICTURES = "pictures"
"""The folder in it that holds small pictures of what was proofed."""


def record_folder(suite: Path) -> Path:
    """Returns the folder of a suite's record: `suite.toml` has `suite.record` beside it."""
    return suite.with_name(f"{suite.stem}.record")


def record_files(suite: Path) -> list[Path]:
    """Returns what lies in a suite's record, nothing where there is none: what is read there is
    never written over."""
    folder = record_folder(suite)
    found: list[Path] = []
    for place in (folder, folder / PICTURES):
        with suppress(OSError):  # none, or one that may not be looked into: then nothing is lost
            found += sorted(place.iterdir())
    return found


def refuse_into_record(suite: Path, wanted: Iterable[Path]) -> None:
    """Raises OutputError for every file to be written that would lie in the suite's record: there
    it would be told of for ever as an event that is none."""
    record = _followed(record_folder(suite))
    told = [
        Mistake("lies in the suite's record, which is written by the program alone; name another "
                "folder", str(path))
        for path in wanted
        if record in _followed(path).parents
    ]  # fmt: skip
    if told:
        raise OutputError(*told)


def _followed(path: Path) -> Path:
    return Path(os.path.realpath(path))  # unlike Path.resolve it goes round no ring of links


def refuse_record(suite: Path) -> None:
    """Raises OutputError where a suite's record cannot be written: a link, no folder, read only.

    A proof that the record does not know of could not be told from any other; so it is not made.
    """
    folder = record_folder(suite)
    for place in (folder, folder / PICTURES):
        reason = _unfit(place)
        if reason:  # of a folder that is none, what is in it needs no telling
            raise OutputError(Mistake(f"{reason}; the record of proofs is kept here", str(place)))


def _unfit(place: Path) -> str:
    try:
        mode = place.lstat().st_mode
    except FileNotFoundError:
        return _missing_unfit(place)
    except OSError as error:
        return f"cannot be written to ({error.strerror})"
    if stat.S_ISLNK(mode):
        return "is a link, which is not written through"
    if not stat.S_ISDIR(mode):
        return "is no folder"
    return "" if os.access(place, os.W_OK | os.X_OK) else "may not be written to"


def _missing_unfit(place: Path) -> str:
    """Returns what keeps a folder from being made; of one in another, the other is told."""
    above = place.parent
    if not above.is_dir():
        return ""  # which is told itself, or made first
    return "" if os.access(above, os.W_OK | os.X_OK) else "cannot be made: its folder is read only"
