"""How a suite stands: what is approved, what changed since, what was ordered."""

from __future__ import annotations

from dataclasses import dataclass

from mockup.asks.values import PathGiven, path_of
from mockup.errors import ExitCode
from mockup.progress import Progress
from mockup.record.fingerprint import fingerprints
from mockup.record.ordered_files import files_told
from mockup.record.reading import read_record
from mockup.record.revisions import revision_of
from mockup.record.status import Status, status_of
from mockup.suite.reading import read_suite


@dataclass(frozen=True)
class StatusRequest:
    """A suite whose record is asked. suite: the suite file."""

    suite: PathGiven


@dataclass(frozen=True)
class StatusAnswer:
    """How the suite stands. `revision` is that of the last proof, None where there is none;
    `next_revision` what a proof made now would bear, the same while nothing changed."""

    title: str
    status: Status
    revision: int | None
    next_revision: int
    files: tuple[str, ...] = ()
    """A line for every file of the last orders that was changed since, or is not there."""

    @property
    def exit_code(self) -> ExitCode:
        """0 where all is approved as it is, 10 where something is not, 20 where something changed
        after it was ordered."""
        changed = any(each.endswith("changed since it was ordered") for each in self.files)
        if changed or not self.status.order_holds:
            return ExitCode.STOPS
        return ExitCode.DONE if self.status.approved else ExitCode.WARNINGS


def tell_status(request: StatusRequest, progress: Progress | None = None) -> StatusAnswer:
    """Returns how a suite stands by its record; nothing is written.

    Raises RequestError, SuiteError, InputError, LimitError.
    """
    suite = read_suite(path_of("suite", request.suite))
    record = read_record(suite.path)
    items = fingerprints(suite)
    last = max((each.revision for each in record.proofs), default=None)
    if progress is not None:
        progress(1.0)
    files = files_told(record, suite.path)
    following = revision_of(record, items, suite.revision)
    return StatusAnswer(suite.title, status_of(items, record), last, following, files)
