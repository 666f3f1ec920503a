"""Running the checks: pieces two at a time in processes of their own, then the suite as a whole."""

from __future__ import annotations

from collections.abc import Sequence

from mockup.artwork.worker import Progress, in_workers
from mockup.checks.finding import Finding, Severity, found, with_acceptances
from mockup.checks.page_reading import read_context
from mockup.checks.settings import Settings
from mockup.checks.shift import Run, run_of
from mockup.checks.suite_context import SuiteContext
from mockup.checks.table import PAGE_CHECKS, SUITE_CHECKS, WITHOUT_PLACE
from mockup.errors import InputError
from mockup.suite.suite import Piece, Suite


def check_suite(
    suite: Suite, settings: Settings, progress: Progress | None = None
) -> list[Finding]:
    """Returns what is found in a suite, the worst first, accepted findings marked.

    Raises InputError and LimitError for art that cannot be read at all.
    """
    pages = check_pieces(suite.pieces, settings, progress)
    context = SuiteContext(suite, settings)
    whole = [finding for check in SUITE_CHECKS.values() for finding in check(context)]
    findings = with_acceptances([*pages, *whole], suite.accepted)
    return sorted(findings, key=lambda f: (f.accepted is not None, -f.severity))


def check_pieces(
    pieces: Sequence[Piece], settings: Settings, progress: Progress | None = None
) -> list[Finding]:
    """Returns what is found on the pages of pieces, piece after piece."""
    jobs = [(piece, settings) for piece in pieces]
    answers = in_workers(
        check_piece, jobs, lambda job: f"{job[0].art}, page {job[0].page}", progress
    )
    return [finding for findings in answers for finding in findings]


def try_runs(
    pieces: Sequence[Piece], settings: Settings, progress: Progress | None = None
) -> list[Run]:
    """Returns a run of every piece, cut with the wander of the settings."""
    jobs = [(piece, settings) for piece in pieces]
    return in_workers(_try_run, jobs, lambda job: f"{job[0].art}, page {job[0].page}", progress)


def _try_run(piece: Piece, settings: Settings) -> Run:
    return run_of(read_context(piece, settings))


def check_piece(piece: Piece, settings: Settings) -> list[Finding]:
    """Returns what is found on one piece's page, in the order of the table, worked out here."""
    try:
        context = read_context(piece, settings)
    except InputError as error:
        if "nothing on it" not in str(error):
            raise
        return [found("pages", Severity.STOP, piece.name, str(error), "choose another page")]
    names = WITHOUT_PLACE if context.misfit is not None else tuple(PAGE_CHECKS)
    return [finding for name in names for finding in PAGE_CHECKS[name](context)]
