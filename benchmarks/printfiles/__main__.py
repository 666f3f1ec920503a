"""Runs the bench: `python -m benchmarks.printfiles [--python PROGS] [--half A] [WORD]`.

The pages are those of `benchmarks.art`, saved by ten programs, and pages of type by each of them.
They are made into print files as they are and with their type turned to outlines, and looked at
by qpdf, poppler, PDFium and a reader of processing steps written apart. Of half B only counts are
told.
"""

from __future__ import annotations

import argparse
import shutil
import sys
import tempfile
from collections import Counter
from pathlib import Path

from benchmarks.art.drawing import draw_pages
from benchmarks.art.plan import pages
from benchmarks.printfiles.judging import Judged, judge
from benchmarks.printfiles.type_pages import pages_of_type


def main() -> None:
    """Saves what is not saved yet, makes print files of it, and prints what became of it."""
    asked = _asked()
    absent = [each for each in ("qpdf", "pdftoppm", "pdffonts") if shutil.which(each) is None]
    if absent:
        sys.exit(f"{', '.join(absent)} not found: nothing can be judged")
    folder = Path(asked.folder)
    folder.mkdir(parents=True, exist_ok=True)
    every = [page for page in (*pages(), *pages_of_type()) if asked.word in page.name]
    every = [page for page in every if asked.half in (None, page.half)]
    for line in draw_pages(every, folder, asked.python):
        print(line)
    with tempfile.TemporaryDirectory() as into:
        judged: list[Judged] = []
        for page in every:
            if page.file(folder).exists():
                judged += judge(page, folder, Path(into))
                shutil.rmtree(into, ignore_errors=True)
                Path(into).mkdir(exist_ok=True)
    for half in ("A", "B"):
        _print_figures(half, [each for each in judged if each.page.half == half])


def _asked() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m benchmarks.printfiles")
    parser.add_argument("word", nargs="?", default="", help="only pages with this in their name")
    parser.add_argument("--python", default=sys.executable, help="interpreter with the libraries")
    parser.add_argument(
        "--folder",
        default=str(Path(tempfile.gettempdir()) / "art-bench"),
        help="where pages are saved and kept",
    )
    parser.add_argument("--half", choices=("A", "B"), help="this half only")
    return parser.parse_args()


def _print_figures(half: str, judged: list[Judged]) -> None:
    for asked in ("as it is", "outlined"):
        own = [each for each in judged if each.asked == asked]
        if not own:
            continue
        counts = Counter(each.outcome for each in own)
        letters, worst = sum(each.letters for each in own), max(each.mean for each in own)
        print(
            f"half {half}, {asked}: {len(own)} pages, {counts['made']} made, "
            f"{counts['refused']} refused, {counts['wrong']} wrong; {letters} letters turned, "
            f"largest mean difference {worst:.3f} of 255"
        )
        for program in sorted({each.page.program for each in own}):
            of_it = Counter(each.outcome for each in own if each.page.program == program)
            print(f"  {program}: {dict(of_it)}")
    if half == "A":
        for each in judged:
            if each.outcome != "made":
                print(f"{each.page.name} ({each.asked}): {each.outcome}: {each.said}")


if __name__ == "__main__":
    main()
