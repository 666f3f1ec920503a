"""`python -m benchmarks.changes [FOLDER] [--half A]`: pairs of proofs made, compared, scored.

Right: every planted change is met by a place, and no place lies outside what was altered. Missed:
one is not met. Invented: a place where nothing was altered. Half A is told pair by pair.
"""

from __future__ import annotations

import argparse
import json
import time
from collections import Counter
from pathlib import Path

from benchmarks.changes.drawing import PPI, pictures_of
from benchmarks.changes.plan import SEED, Pair, planned
from benchmarks.changes.programs import missing
from mockup.comparing.comparison import Comparison, compare
from mockup.geometry.point import Box

FOLDER = Path("build/changes")
NEAR_IN = 0.06
"""How far a place may reach beyond what was altered: cells, and letters that overhang."""


def arguments(about: str | None) -> argparse.Namespace:
    """Returns what was asked of a bench of pairs."""
    asked = argparse.ArgumentParser(description=about)
    asked.add_argument("folder", nargs="?", type=Path, default=FOLDER)
    asked.add_argument("--half", choices=("A", "B"), help="one half alone; A is told pair by pair")
    asked.add_argument("--seed", type=int, default=SEED)
    asked.add_argument("--like", default="", help="only pairs with this in their name")
    return asked.parse_args()


def main() -> None:
    given = arguments(__doc__)
    gone = missing()
    if gone:
        print(f"not on this machine: {', '.join(gone)}")
    given.folder.mkdir(parents=True, exist_ok=True)
    counts: dict[str, Counter[str]] = {"A": Counter(), "B": Counter()}
    spent: list[float] = []
    for pair in planned(given.seed):
        if given.half not in (None, pair.half) or given.like not in pair.name:
            continue
        if pair.way in gone:
            counts[pair.half]["not made"] += 1
            continue
        before, after = pictures_of(pair, given.folder)
        begun = time.perf_counter()
        found = compare(before, after, PPI)
        spent.append(time.perf_counter() - begun)
        told = verdict(pair, found)
        counts[pair.half][told] += 1
        if given.half == "A":
            print(f"{told:8} {pair.name:48} {said(found)}")
    print(json.dumps({half: dict(count) for half, count in counts.items() if count}))
    if spent:
        print(
            f"{max(spent):.2f} s the longest comparison, {sum(spent) / len(spent):.2f} s the mean"
        )


def verdict(pair: Pair, found: Comparison) -> str:
    """Returns whether a pair's answer is right, misses something, or invents something."""
    altered = pair.altered
    if pair.alteration == "nothing":
        return "right" if found.same else "invented"
    if altered.throughout and found.throughout:
        return "right"
    boxes = [place.box for place in found.places]
    if altered.throughout and not altered.found:
        return "missed"
    if found.throughout and not altered.throughout and not _is_most(pair):
        return "invented"
    if any(not any(_meet(each, box) for box in boxes) for each in altered.found):
        return "missed"
    if altered.within and any(not _inside(box, altered.within) for box in boxes):
        return "invented"
    return "right"


def said(found: Comparison) -> str:
    """Returns an answer in short."""
    whole = [
        f"moved {found.moved_in.x:.3f} {found.moved_in.y:.3f}" * (found.moved_in != (0, 0)),
        f"scaled {found.scaled:.4f}" * (found.scaled != 1),
        f"recoloured {found.recoloured:.1f}" * (found.recoloured > 0),
        "redrawn" * found.redrawn,
    ]
    places = [
        f"{p.kind}@{p.box.left:.2f},{p.box.top:.2f}+{p.box.width:.2f}x{p.box.height:.2f}"
        for p in found.places
    ]
    return "; ".join(filter(None, [*whole, *places]))[:150] or "same"


def _is_most(pair: Pair) -> bool:
    """Returns whether what was altered is most of what is on the card: all over is right then."""
    return len(pair.before.things) < 4


def _meet(one: Box, other: Box) -> bool:
    across = min(one.right, other.right) - max(one.left, other.left)
    down = min(one.bottom, other.bottom) - max(one.top, other.top)
    return across > 0 and down > 0


def _inside(box: Box, allowed: tuple[Box, ...]) -> bool:
    around = Box(
        min(each.left for each in allowed),
        min(each.top for each in allowed),
        max(each.right for each in allowed),
        max(each.bottom for each in allowed),
    ).grown(NEAR_IN)
    return (
        box.left >= around.left
        and box.top >= around.top
        and box.right <= around.right
        and box.bottom <= around.bottom
    )


if __name__ == "__main__":
    main()
