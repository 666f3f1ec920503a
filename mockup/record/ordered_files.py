"""Whether the files of the last order of each piece still lie where they were, as they were."""

from __future__ import annotations

from pathlib import Path

from mockup.errors import MockupError
from mockup.record.events import OrderedFile
from mockup.record.reading import Record
from mockup.sources import is_there, read_whole, sha256_of
from mockup.trade.limits import FILE_MAX_BYTES


def files_told(record: Record, suite: Path) -> tuple[str, ...]:
    """Returns a line for every file of the last orders that was changed, or is not there."""
    last: dict[str, list[OrderedFile]] = {}
    for order in record.orders:
        for name in {each.name for each in order.files}:
            last[name] = [each for each in order.files if each.name == name]
    found = (_told(each, suite.parent) for files in last.values() for each in files)
    return tuple(line for line in found if line)


def _told(file: OrderedFile, folder: Path) -> str:
    path = folder / file.file
    if not is_there(path):
        return f"{file.file}: ordered, and no longer there"
    try:
        mark = sha256_of(read_whole(path, FILE_MAX_BYTES))
    except MockupError as error:
        return f"{file.file}: ordered, and cannot be read: {error.mistakes[0].sentence}"
    return "" if mark == file.sha256 else f"{file.file}: changed since it was ordered"
