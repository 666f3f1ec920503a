"""Pages of live type, the same ones saved by every program that can."""

from __future__ import annotations

from random import Random

from benchmarks.art.kinds import CLEAN
from benchmarks.art.plan import PROGRAMS, Page, able

_KINDS = ("menu", "words-of-the-trade")


def pages_of_type() -> list[Page]:
    """Returns the pages, all of half A: always the same ones."""
    found: list[Page] = []
    for kind in _KINDS:
        for program in PROGRAMS:
            scene = CLEAN[kind](Random(kind))
            if program != "svg" and program in able(scene):
                found.append(Page(f"A-type-{kind}-{program}", "A", program, scene, ()))
    return found
