"""Reading a record: every event in its order, and by name every file that is none."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from pathlib import Path

from mockup.errors import InputError, LimitError, Mistake, MockupError, SuiteError
from mockup.record.events import Answer, Entry, Order, Proof
from mockup.record.folder import PICTURES, record_folder
from mockup.record.text import NAME, entry_of
from mockup.sources import is_there, read_whole
from mockup.trade.limits import TOML_MAX_BYTES

ENTRIES_MAX = 10_000  # judgement: a suite has some ten


@dataclass(frozen=True)
class Record:
    """A suite's record: its folder, its events in their order, and what of it cannot be read.

    The order is by the numbers events were written under, not by a clock. `mistakes` tells each
    file that does not count, by name; `last_number` and `last_revision` are the highest of all,
    those of files that cannot be read included, nought where there is none.
    """

    folder: Path
    entries: tuple[Entry, ...] = ()
    mistakes: tuple[Mistake, ...] = ()
    last_number: int = 0
    last_revision: int = 0
    ends: tuple[str, ...] = ()
    """The marks of all files that no event follows: one, but where two people wrote apart."""

    @property
    def proofs(self) -> tuple[Proof, ...]:
        """The proofs that were made, the oldest first."""
        return tuple(each.event for each in self.entries if isinstance(each.event, Proof))

    @property
    def answers(self) -> tuple[Answer, ...]:
        """The answers that came, the oldest first."""
        return tuple(each.event for each in self.entries if isinstance(each.event, Answer))

    @property
    def orders(self) -> tuple[Order, ...]:
        """The orders that were made, the oldest first."""
        return tuple(each.event for each in self.entries if isinstance(each.event, Order))

    def proof(self, revision: int, mark: str | None = None) -> Proof | None:
        """Returns the newest proof of a revision, of its mark where one is given; else None."""
        fitting = (
            each
            for each in reversed(self.proofs)
            if each.revision == revision and mark in (None, each.mark)
        )
        return next(fitting, None)

    def followed(self, entry: Entry, later: Entry) -> bool:
        """Returns whether who wrote `later` had `entry` before them."""
        by_mark = {each.mark: each for each in self.entries}
        known: set[str] = set()
        marks = [*later.after]
        while marks:
            mark = marks.pop()
            if mark not in known:
                known.add(mark)
                marks += by_mark[mark].after if mark in by_mark else ()
        return entry.mark in known

    @property
    def told(self) -> tuple[str, ...]:
        """A line for every file that does not count and every revision that stands for two."""
        return (*map(str, self.mistakes), *self._twice())

    def _twice(self) -> list[str]:
        """Returns a line for each revision that two people gave to different proofs."""
        files: defaultdict[int, dict[str, str]] = defaultdict(dict)
        for each in self.entries:
            if isinstance(each.event, Proof):
                files[each.event.revision].setdefault(each.event.mark, each.file)
        return [
            f"{self.folder}: revision {revision} stands for {len(found)} different proofs "
            f"({', '.join(found.values())}); a yes counts for the one it names; the next proof has "
            "a number of its own"
            for revision, found in sorted(files.items())
            if len(found) > 1
        ]


def read_record(suite: Path) -> Record:
    """Returns the record of a suite file, an empty one where none is kept yet.

    A broken or foreign file in it is told in `mistakes` and hides nothing else. Raises InputError
    where the record is no folder or cannot be looked into, LimitError over 10,000 files.
    """
    folder = record_folder(suite)
    if not is_there(folder):
        return Record(folder)
    entries: list[Entry] = []
    mistakes: list[Mistake] = []
    numbers, revisions, marks = [0], [0], list[str]()
    for path in _files(folder):
        if name := NAME.fullmatch(path.name):
            numbers.append(int(name["number"]))
            revisions.append(int(name["revision"] or 0))
            marks.append(name["mark"])
        try:
            entries.append(_entry(path))
        except MockupError as error:
            mistakes += error.mistakes
    entries.sort(key=lambda each: (each.number, each.file))
    followed = {mark for each in entries for mark in each.after}
    ends = tuple(sorted(set(marks) - followed))
    return Record(folder, tuple(entries), tuple(mistakes), max(numbers), max(revisions), ends)


def _files(folder: Path) -> list[Path]:
    """Returns what lies in a record, but for its pictures and for hidden files."""
    try:
        found = sorted(folder.iterdir())
    except OSError as error:
        why = "it is no folder" if isinstance(error, NotADirectoryError) else error.strerror
        said = f"the record cannot be read ({why})"
        raise InputError(Mistake(said, str(folder))) from error
    if len(found) > ENTRIES_MAX:
        said = f"holds {len(found)} files; a record of at most {ENTRIES_MAX} is read"
        raise LimitError(Mistake(said, str(folder)))
    return [path for path in found if path.name != PICTURES and not path.name.startswith(".")]


def _entry(path: Path) -> Entry:
    if path.is_symlink():
        raise SuiteError(Mistake("is a link, so it does not count; put the file here", str(path)))
    return entry_of(path, read_whole(path, TOML_MAX_BYTES, SuiteError))
