"""Runs the bench of print pages and prints how often each kind of fault is found.

`python benchmarks/check_bench.py [--wrong]`; with --wrong, every page that came out wrong is told.
"""

from __future__ import annotations

import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))

from tests.checks.bench.case import Case, Outcome, run_case
from tests.checks.bench.clean import CLEAN
from tests.checks.bench.faults_cut import FAULTS as AT_THE_CUT
from tests.checks.bench.faults_file import FAULTS as IN_THE_FILE

PAGES: list[Case] = [*AT_THE_CUT, *IN_THE_FILE, *CLEAN]


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


def main() -> None:
    began = time.perf_counter()
    outcomes = run_all(PAGES)
    print("\n".join(confusion(outcomes)))
    print(f"{len(outcomes)} pages in {time.perf_counter() - began:.1f} s")
    if "--wrong" in sys.argv:
        for outcome in outcomes:
            if not outcome.right:
                print("\n".join(told(outcome)))


if __name__ == "__main__":
    main()
