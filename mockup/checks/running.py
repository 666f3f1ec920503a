"""Running the checks: pieces two at a time in processes of their own, then the suite as a whole."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from mockup.checks.die_sense import CHECK as DIE
from mockup.checks.finding import Finding, Severity, found, with_acceptances
from mockup.checks.page_context import PageContext
from mockup.checks.post import CHECK as POST
from mockup.checks.post import operator_of
from mockup.checks.settings import Settings
from mockup.checks.shift import Run, run_of
from mockup.checks.suite_context import SuiteContext
from mockup.checks.table import PAGE_CHECKS, SUITE_CHECKS, WITHOUT_PLACE
from mockup.errors import InputError
from mockup.printers.catalogue import Printer
from mockup.progress import Progress
from mockup.reading.page import read_facts
from mockup.suite.suite import Piece, Suite, all_sides
from mockup.trade.tolerances import SAFE
from mockup.workshop import crew
from mockup.workshop.job import Job

_CHECK = "mockup.checks.running:check_piece"
_TRY = "mockup.checks.running:try_run"


def check_suite(
    suite: Suite,
    settings: Settings,
    progress: Progress | None = None,
    printers: Sequence[Printer] = (),
) -> list[Finding]:
    """Returns what is found in a suite, the worst first, then what the designer accepted; what the
    post says comes last.

    Raises InputError and LimitError for art that cannot be read at all.
    """
    pages = check_pieces(suite.pieces, settings, progress)
    context = SuiteContext(suite, settings, tuple(printers))
    whole = [finding for check in SUITE_CHECKS.values() for finding in check(context)]
    findings = with_acceptances([*pages, *whole], suite.accepted)
    return sorted(findings, key=_order)


def _order(finding: Finding) -> tuple[str, bool, int]:
    """Returns what findings are sorted by: the post's come last, one operator after another."""
    operator = operator_of(finding) if finding.check == POST else ""
    return operator, finding.accepted is not None, -finding.severity


def check_pieces(
    pieces: Sequence[Piece], settings: Settings, progress: Progress | None = None
) -> list[Finding]:
    """Returns what is found on the pages of pieces, piece after piece, front before back."""
    jobs = _jobs(all_sides(pieces), settings)
    answers: list[list[Finding]] = crew.done(_CHECK, jobs, progress)
    return [finding for findings in answers for finding in findings]


def try_runs(
    pieces: Sequence[Piece], settings: Settings, progress: Progress | None = None
) -> list[Run]:
    """Returns a run of every piece, cut with the wander of the settings."""
    return crew.done(_TRY, _jobs(pieces, settings), progress)


def _jobs(pieces: Sequence[Piece], settings: Settings) -> list[Job]:
    return [Job((p, settings), p.art.where, p.art.sha256) for p in pieces]


def try_run(piece: Piece, settings: Settings) -> Run:
    """Returns a run of one piece, worked out in this process."""
    settings = _with_template(piece, settings)
    return run_of(PageContext(read_facts(piece, settings.safe_in), settings))


def check_piece(piece: Piece, settings: Settings) -> list[Finding]:
    """Returns what is found on one piece's page, in the order of the table, worked out here.

    What is found on a back, or inside, says so, and where as that side is seen.
    """
    findings = [replace(each, side=piece.side) for each in _found_on(piece, settings)]
    if not piece.is_second:
        return findings
    # One die cuts both sides: it is asked about once.
    own = [each for each in findings if each.check != DIE]
    return [replace(each, message=f"{piece.side}: {each.message}") for each in own]


def _found_on(piece: Piece, settings: Settings) -> list[Finding]:
    settings = _with_template(piece, settings)
    try:
        context = PageContext(read_facts(piece, settings.safe_in), settings)
    except InputError as error:
        if "nothing on it" not in str(error):
            raise
        return [found("pages", Severity.STOP, piece.name, str(error), "choose another page")]
    names = WITHOUT_PLACE if context.page.misfit is not None else tuple(PAGE_CHECKS)
    return [finding for name in names for finding in PAGE_CHECKS[name](context)]


def _with_template(piece: Piece, settings: Settings) -> Settings:
    """Returns settings with the safe margin that a piece's template draws, where it draws one.

    A margin asked for that is wider still stands: the studio's own.
    """
    drawn = piece.die.safe_in
    if drawn is None or (settings.safe_in != SAFE.value and settings.safe_in > drawn):
        return settings
    return replace(settings, safe_in=drawn)
