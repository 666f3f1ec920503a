"""`python -m benchmarks.templates make|score [FOLDER] [--half A]`: templates made, read, scored.

Right: the outline lies within 0.002 in of the true one, with as many holes. Where nothing tells the
cut, a refusal is right. Wrong: another outline is accepted. Refused: the cut could have been told.
"""

from __future__ import annotations

import argparse
import json
import time
from collections import Counter
from pathlib import Path

from benchmarks.templates.plan import SEED, Case, planned
from benchmarks.templates.programs import PROGRAMS, missing
from mockup.dies.importing import import_die
from mockup.errors import MockupError
from mockup.geometry.affine import translation
from mockup.geometry.flatten import polygon

NEAR_IN = 0.002
FOLDER = Path("build/templates")


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("what", choices=("make", "score"))
    asked.add_argument("folder", nargs="?", type=Path, default=FOLDER)
    asked.add_argument("--half", choices=("A", "B"), help="one half alone, told case by case")
    asked.add_argument("--seed", type=int, default=SEED)
    asked.add_argument("--like", default="", help="only cases with this in their name")
    given = asked.parse_args()
    gone = missing()
    if gone:
        print(f"not on this machine: {', '.join(gone)}")
    cases = [case for case in planned(given.seed) if given.like in case.name]
    if given.what == "make":
        _make([case for case in cases if case.program not in gone], given.folder)
    else:
        _score(cases, given.folder, given.half)


def _make(cases: list[Case], folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    for case in cases:
        if _file(case, folder) is None:
            PROGRAMS[case.program](case.sheet, (folder / case.name).absolute())
    print(f"{len(cases)} templates in {folder}")


def _file(case: Case, folder: Path) -> Path | None:
    found = [folder / f"{case.name}.{kind}" for kind in ("pdf", "svg")]
    return next((path for path in found if path.exists()), None)


def _score(cases: list[Case], folder: Path, half: str | None) -> None:
    begun = time.perf_counter()
    counts: dict[str, Counter[str]] = {"A": Counter(), "B": Counter()}
    for case in cases:
        if half not in (None, case.half):
            continue
        path = _file(case, folder)
        if path is None:
            counts[case.half]["not made"] += 1
            continue
        verdict, said = _verdict(case, path)
        counts[case.half][verdict] += 1
        if half == "A" and verdict != "right":
            print(f"{verdict:8} {path.name}\n         {said}")
    print(json.dumps({key: dict(count) for key, count in counts.items() if count}))
    print(f"{time.perf_counter() - begun:.1f} s")


def _verdict(case: Case, path: Path) -> tuple[str, str]:
    try:
        found = import_die(path, case.card_in)
    except MockupError as error:
        return ("right" if case.truth is None else "refused"), str(error)
    said = found.die.because
    if case.truth is None:
        return "wrong", said
    if len(found.die.shape.holes) != len(case.truth.holes):
        return "wrong", f"{len(found.die.shape.holes)} holes; {said}"
    box = case.truth.box
    truth = polygon(case.truth.mapped(translation(-box.left, -box.top)), 5e-5)
    away = polygon(found.die.shape, 5e-5).boundary.hausdorff_distance(truth.boundary)
    return ("right" if away <= NEAR_IN else "wrong"), f"{away:.4f} in away; {said}"


if __name__ == "__main__":
    main()
