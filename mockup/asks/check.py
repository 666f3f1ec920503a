"""A check asked for: what would spoil the print, where, by how much, and what mends it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from pathlib import Path

from mockup.asks.opening import Writing, open_suite
from mockup.asks.values import (
    SEED_MAX,
    PathGiven,
    length_of,
    path_of,
    path_or_none,
    real,
    texts_of,
    whole,
)
from mockup.checks import running
from mockup.checks.finding import Finding, exit_code
from mockup.checks.settings import Settings
from mockup.errors import ExitCode
from mockup.output.destination import PDF, PICTURE, Destination
from mockup.output.marked import write_marked
from mockup.output.shifted import write_shifted
from mockup.printers.catalogue import Printer, find_printers
from mockup.progress import Progress, part
from mockup.suite.audience import Audience
from mockup.suite.suite import Suite
from mockup.trade.postal_tables import likely_operator, postal_operator
from mockup.trade.tolerances import SAFE, SAFE_MM
from mockup.units import Unit

MARGIN_MAX_IN = 2.0  # judgement: no card keeps more than that free
WANDER_MAX_IN = 0.5  # judgement: a cut that far off is no cut of this card
TURN_MAX_DEG = 5.0  # judgement: as far as a sheet can lie askew and be cut
USUAL_SAFE: dict[Unit, str] = {"in": f"{SAFE.value} in", "mm": f"{SAFE_MM} mm"}
RUN_MAX = 100_000  # judgement: more tells nothing new and takes minutes

_CHECKED, _MARKED = 0.6, 0.8  # shares of the time, about: checked, marked, a run cut


@dataclass(frozen=True)
class CheckRequest:
    """A suite to be checked, for the studio.

    suite: the suite file. safe, wander, near: lengths, `"0.125 in"` or a number in the suite's
    units: the margin type keeps from the cut, how far cutting wanders, what looks wrong. turn_deg:
    how far a sheet turns, to 5 degrees. run: how many cuts are tried, 1 to 100000, by chance from
    `seed`. post: postal tables, of us, uk, canada, germany, france, upu; empty for no post, None
    for the suite's own, which are guessed where it says none. safe is 1/8 in where it is None, 3 mm
    in a metric suite. marked: a .pdf of every piece with
    its findings. shifted: a .png or .jpg of the best, typical and worst piece of the run.
    printers: names of those asked, all where none is given. catalogues: their folder, else
    `printers` beside the suite; without either no printer's minimum is known.
    """

    suite: PathGiven
    safe: str | float | None = None
    wander: str | float = "0.0625 in"
    turn_deg: float = 0.25
    near: str | float = "0.03125 in"
    run: int = 1000
    seed: int = 1
    post: Iterable[str] | None = None
    marked: PathGiven | None = None
    shifted: PathGiven | None = None
    printers: Iterable[str] = ()
    catalogues: PathGiven | None = None


@dataclass(frozen=True)
class CheckAnswer:
    """What was found, the worst first and what the post says last; the unit lengths are told in;
    and the files written.

    `cuts` has a line for every die from a template: which path of it is the cut.
    """

    findings: tuple[Finding, ...]
    units: Unit
    marked: Path | None
    shifted: Path | None
    cuts: tuple[str, ...] = ()

    @property
    def exit_code(self) -> ExitCode:
        """0 where nothing is found, 10 with warnings, 20 with stops that are not accepted."""
        return ExitCode(exit_code(self.findings))


def check_suite(request: CheckRequest, progress: Progress | None = None) -> CheckAnswer:
    """Returns what would spoil the print of a suite.

    Raises RequestError, SuiteError, InputError, LimitError, OutputError.
    """
    settings = _settings(request)
    marked = path_or_none("marked", request.marked)
    shifted = path_or_none("shifted", request.shifted)
    wanted = [Destination(marked, "marked sheet", PDF)] if marked else []
    wanted += [Destination(shifted, "picture of the run", PICTURE)] if shifted else []
    path = path_of("suite", request.suite)
    printers = _printers(request, path)
    opened = open_suite(path, Audience.STUDIO, Writing(lambda read: wanted))
    suite = opened.suite
    settings = _posted(_in_units(settings, request, suite.units), suite, request.post)
    drawing = marked is not None or shifted is not None
    checked = part(progress, 0.0, _CHECKED if drawing else 1.0)
    findings = tuple(running.check_suite(suite, settings, checked, printers))
    _draw(suite, findings, settings, (marked, shifted), progress)
    return CheckAnswer(findings, suite.units, marked, shifted, opened.cuts)


def usual_settings(suite: Suite) -> Settings:
    """Returns what a suite is checked against where nothing is asked for."""
    request = CheckRequest(suite.path)
    return _posted(_in_units(_settings(request), request, suite.units), suite, None)


def _printers(request: CheckRequest, suite: Path) -> tuple[Printer, ...]:
    """Returns the printers asked: of the folder given, or of the one beside the suite."""
    names = texts_of("printers", request.printers)
    folder = path_or_none("catalogues", request.catalogues)
    beside = suite.parent / "printers"
    if folder is None and not names and not beside.is_dir():
        return ()  # the demo's printers say nothing of a suite of her own
    return find_printers(folder, names, suite)


def _posted(settings: Settings, suite: Suite, asked: Iterable[str] | None) -> Settings:
    """Returns settings with the suite's own postal tables where none were asked for."""
    if asked is not None:
        return settings
    if suite.post_from is not None:
        return replace(settings, operators=(suite.post_from,))
    paper = {"a4": "A4", "letter": "letter"}[suite.paper]
    because = f'guessed from {paper} paper; another is named by [post] from = "germany"'
    guess = likely_operator(suite.paper, suite.units)
    return replace(settings, operators=(guess,), operators_because=because)


def _settings(request: CheckRequest) -> Settings:
    """Returns what needs no suite to be looked at: it is told before the work."""
    operators = texts_of("post", request.post or ())
    for name in operators:
        postal_operator(name)
    return Settings(
        turn_deg=real("turn_deg", request.turn_deg, 0.0, TURN_MAX_DEG),
        run=whole("run", request.run, 1, RUN_MAX),
        seed=whole("seed", request.seed, 0, SEED_MAX),
        operators=operators,
    )


def _in_units(settings: Settings, request: CheckRequest, units: Unit) -> Settings:
    """Returns settings with the lengths asked, bare numbers in the suite's units."""
    safe = USUAL_SAFE[units] if request.safe is None else request.safe
    return replace(
        settings,
        safe_in=length_of("safe", safe, 0.0, MARGIN_MAX_IN, units),
        cut_shift_in=length_of("wander", request.wander, 0.0, WANDER_MAX_IN, units),
        near_in=length_of("near", request.near, 0.0, MARGIN_MAX_IN, units),
        units=units,
    )


def _draw(
    suite: Suite,
    findings: tuple[Finding, ...],
    settings: Settings,
    places: tuple[Path | None, Path | None],
    progress: Progress | None,
) -> None:
    marked, shifted = places
    if marked is not None:
        write_marked(marked, suite, findings, settings, part(progress, _CHECKED, _MARKED))
    if shifted is not None:
        write_shifted(shifted, suite, settings, part(progress, _MARKED, 1.0))
