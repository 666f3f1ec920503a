"""Runs the bench of print pages and prints how often each kind of fault is found.

`python benchmarks/check_bench.py [--wrong]`; with --wrong, every page that came out wrong is told.
"""

from __future__ import annotations

import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))

from mockup.artwork.raster import RasterJob, rasterise
from mockup.checks.running import check_suite
from mockup.checks.settings import Settings
from mockup.geometry.affine import IDENTITY
from mockup.pixels import view_around
from mockup.reading.page import placed
from mockup.suite.reading import read_suite
from tests.checks.bench.case import Case, Outcome, run_case
from tests.checks.bench.clean import CLEAN
from tests.checks.bench.faults_cut import FAULTS as AT_THE_CUT
from tests.checks.bench.faults_file import FAULTS as IN_THE_FILE
from tests.checks.bench.faults_ink import FAULTS as OF_INK
from tests.checks.bench.ornament import CLEAN as ORNAMENT

PAGES: list[Case] = [*AT_THE_CUT, *IN_THE_FILE, *OF_INK, *CLEAN, *ORNAMENT]


def run_all(pages: list[Case]) -> list[Outcome]:
    """Returns what came of every page."""
    with tempfile.TemporaryDirectory() as folder:
        return [run_case(case, Path(folder)) for case in pages]


def confusion(outcomes: list[Outcome]) -> list[str]:
    """Returns the lines of the confusion table: the fault a page has against what is said of it."""
    rows: dict[str, Counter[str]] = {}
    for outcome in outcomes:
        true = outcome.fault.check if outcome.fault else "none"
        row = rows.setdefault(true, Counter())
        row["pages"] += 1
        row["found, at its place, with its measure" if outcome.fault else "silent"] += outcome.right
        row["missed" if outcome.fault else "false alarm"] += not outcome.right
        others = {f.check for f in outcome.alarms} - {true}
        if outcome.fault and others:
            row["also told"] += 1
    columns = ("pages", "found, at its place, with its measure", "missed", "also told",
               "silent", "false alarm")  # fmt: skip
    lines = [f"{'fault':<12}" + "".join(f"{c:>{max(9, len(c) + 2)}}" for c in columns)]
    for true, row in rows.items():
        cells = (f"{row.get(c, ''):>{max(9, len(c) + 2)}}" for c in columns)
        lines.append(f"{true:<12}" + "".join(cells))
    return lines


def told(outcome: Outcome) -> list[str]:
    """Returns what was expected of a page and what was found instead."""
    lines = [f"{outcome.case.name}: wanted {outcome.fault or 'nothing'}"]
    for f in outcome.findings:
        lines.append(f"    {f.severity.word} {f.check} {f.at} {f.value} {f.message}")
    return lines


def demo_ratio(times: int = 7) -> tuple[float, float]:
    """Returns the seconds, the least of some tries, to rasterise the demo's cards at 300 pixels an
    inch, and to check them; both two at a time."""
    suite = read_suite(Path(__file__).parent.parent / "assets_demo" / "suite.toml")
    jobs = [
        RasterJob(
            *placed(piece)[:2],
            IDENTITY,
            view_around((0, 0, piece.die.width_in, piece.die.height_in), 300, piece.bleed_in),
        )
        for piece in suite.pieces
    ]
    return least(lambda: rasterise(jobs), times), least(
        lambda: check_suite(suite, Settings()), times
    )


def least(work: Callable[[], object], times: int) -> float:
    """Returns the least seconds that some work took."""
    taken = []
    for _ in range(times):
        began = time.perf_counter()
        work()
        taken.append(time.perf_counter() - began)
    return min(taken)


def main() -> None:
    began = time.perf_counter()
    outcomes = run_all(PAGES)
    print("\n".join(confusion(outcomes)))
    print(f"{len(outcomes)} pages in {time.perf_counter() - began:.1f} s")
    raster_s, check_s = demo_ratio()
    print(f"demo suite: raster {raster_s:.3f} s, check {check_s:.3f} s, {check_s / raster_s:.2f} x")
    if "--wrong" in sys.argv:
        for outcome in outcomes:
            if not outcome.right:
                print("\n".join(told(outcome)))


if __name__ == "__main__":
    main()
