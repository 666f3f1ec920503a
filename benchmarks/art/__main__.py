"""Runs the bench: `python -m benchmarks.art [--python PROGS] [--half A] [--wrong] [WORD]`.

PROGS is an interpreter with cairocffi, ReportLab, fpdf2, matplotlib, typst and WeasyPrint;
Inkscape, LibreOffice and Scribus are called by name. What a program could not save is said and
left out.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from pathlib import Path

from benchmarks.art.drawing import draw_pages
from benchmarks.art.judging import Judged, judge
from benchmarks.art.plan import pages


def main() -> None:
    """Saves what is not saved yet, judges it, and prints the figures of each half."""
    asked = _asked()
    folder = Path(asked.folder)
    folder.mkdir(parents=True, exist_ok=True)
    every = [
        page for page in pages() if asked.half in (None, page.half) and asked.word in page.name
    ]
    for line in draw_pages(every, folder, asked.python):
        print(line)
    began = time.perf_counter()
    judged = judge([page for page in every if page.file(folder).exists()], folder)
    for half in ("A", "B"):
        _print_figures(half, [each for each in judged if each.page.half == half])
    print(f"{len(judged)} pages judged in {time.perf_counter() - began:.0f} s")
    if asked.wrong:
        for each in judged:
            if each.page.half != "B":
                _print_wrong(each)


def _asked() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m benchmarks.art")
    parser.add_argument("word", nargs="?", default="", help="only pages with this in their name")
    parser.add_argument("--python", default=sys.executable, help="interpreter with the libraries")
    parser.add_argument(
        "--folder",
        default=str(Path(tempfile.gettempdir()) / "art-bench"),
        help="where pages are saved and kept",
    )
    parser.add_argument("--half", choices=("A", "B"), help="this half only")
    parser.add_argument("--wrong", action="store_true", help="tell what is wrong in half A")
    return parser.parse_args()


def _print_figures(half: str, judged: list[Judged]) -> None:
    clean = [each for each in judged if not each.page.faults]
    faulty = [each for each in judged if each.page.faults]
    if not judged:
        return
    told = sum(each.told for each in faulty)
    stops = sum(bool(each.stops) for each in clean)
    warned = sum(bool(each.warnings) and not each.stops for each in clean)
    taken = sum(each.left_out > 0 for each in clean)
    beside = sum(bool(each.stops or each.warnings) for each in faulty)
    print(
        f"half {half}: {told} of {len(faulty)} faults told; {len(clean)} clean files: "
        f"{stops} with a false stop, {warned} with a false warning, {taken} with art left out of "
        f"the picture; {beside} faulty files with something else told"
    )


def _print_wrong(each: Judged) -> None:
    besides = [*each.stops, *each.warnings]
    taken = each.left_out and not each.page.faults
    if each.told and not besides and not taken:
        return
    print(f"{each.page.name}{'' if each.told else ' MISSED'} (left out: {each.left_out})")
    if not each.told:
        for fault in each.page.faults:
            print(f"    wanted {fault.check} {fault.value} {fault.at!s:.100} {fault.least.word}")
    for f in besides if each.told else each.findings:
        print(f"    {f.severity.word} {f.check} {f.at} {f.value} {f.message}")


if __name__ == "__main__":
    main()
