"""The plan of the bench: which template is drawn how, saved by which program, and its true outline.

A seed decides all; half A may be looked at, half B is scored only.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from random import Random

from benchmarks.templates.bases import Made, Told
from benchmarks.templates.programs import PROGRAMS
from benchmarks.templates.sheet import Sheet
from benchmarks.templates.table import KINDS
from mockup.geometry.outline import Shape

SEED = 20240917
ROUNDS = 3
"""Templates of every kind."""


@dataclass(frozen=True)
class Case:
    """One template: its sheet, the program that saves it, the true cut, what the reader is told.

    `truth` is None where a printer would have to ask, and the reader should refuse.
    """

    name: str
    half: str
    kind: str
    program: str
    sheet: Sheet
    truth: Shape | None
    card_in: tuple[float, float] | None


def planned(seed: int = SEED) -> list[Case]:
    """Returns all cases."""
    chance = Random(seed)
    halves: list[str] = []
    cases: list[Case] = []
    for turn in range(ROUNDS):
        for kind, (draw, needs) in KINDS.items():
            made = _made(draw, chance)
            program = chance.choice(list(needs or PROGRAMS))
            if not halves:
                halves = ["A", "B"]
                chance.shuffle(halves)
            half = halves.pop()
            name = f"{len(cases):02d}-{kind}-{turn}-{program}"
            cases.append(Case(name, half, kind, program, made.sheet, made.truth, made.card_in))
    return cases


def _made(draw: Callable[[Random, Told], Made], chance: Random) -> Made:
    return draw(chance, Told(card=chance.random() < 0.7))
