"""`python -m benchmarks.arrangement [--half A|B] [--draw FOLDER]`: 40 random suites, judged.

Half A (seeds 0 to 19) is told suite by suite; of half B (20 to 39) only counts are printed.
"""

from __future__ import annotations

import argparse
import time
from collections import Counter
from pathlib import Path

from benchmarks.arrangement.judge import Verdict, judged
from benchmarks.arrangement.suites import Suite, random_suite
from mockup.render.arrangement import arrange

HALVES = {"A": range(20), "B": range(20, 40)}
FILL_LEAST = 0.55


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--half", choices=tuple(HALVES), help="one half alone")
    asked.add_argument("--draw", type=Path, help="a folder for pictures of half A")
    given = asked.parse_args()
    for half in HALVES if given.half is None else (given.half,):
        counts: Counter[str] = Counter()
        fills: list[float] = []
        spent = 0.0
        for seed in HALVES[half]:
            suite = random_suite(seed)
            start = time.process_time()
            arrangement = arrange(suite.items, suite.aspect)
            took = time.process_time() - start
            verdict = judged(suite.items, arrangement)
            spent += took
            fills.append(verdict.fill)
            counts += _counted(verdict)
            if half == "A":
                _tell(suite, verdict, took)
                if given.draw is not None:
                    from benchmarks.arrangement.drawing import draw

                    given.draw.mkdir(parents=True, exist_ok=True)
                    draw(suite.items, arrangement, given.draw / f"suite-{seed:02}.png")
        told = ", ".join(
            f"{name} {counts[name]}" for name in ("hidden", "tangent", "outside", "bare")
        )
        print(
            f"half {half}: {told} of {len(fills)}; fill {min(fills):.0%} to {max(fills):.0%}; "
            f"{spent / len(fills):.2f} s each"
        )


def _counted(verdict: Verdict) -> Counter[str]:
    return Counter(
        hidden=len(verdict.hidden),
        tangent=len(verdict.tangents),
        outside=len(verdict.outside),
        bare=int(verdict.fill < FILL_LEAST),
    )


def _tell(suite: Suite, verdict: Verdict, took: float) -> None:
    faults = "; ".join((*verdict.hidden, *verdict.tangents, *verdict.outside))
    print(f"{suite.told}: fill {verdict.fill:.0%}, {took:.2f} s{': ' if faults else ''}{faults}")


main()
