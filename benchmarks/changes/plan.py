"""The plan of the bench: which card, altered how, saved again by what. Half B is scored only."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from benchmarks.changes.alterations import ALTERATIONS, Altered, nothing
from benchmarks.changes.bases import BASES, SIZES
from benchmarks.changes.card import Card
from benchmarks.changes.programs import PROGRAMS, SUFFERED

SEED = 20251103
WAYS = (*PROGRAMS, *SUFFERED, "shifted", "as-it-was")
"""How the second picture comes to be; `shifted` draws it 0.4 of a pixel aside."""


@dataclass(frozen=True)
class Pair:
    """A card before and after, and the way the second comes to be a picture."""

    name: str
    half: str
    base: str
    alteration: str
    way: str
    before: Card
    altered: Altered
    number: int


def planned(seed: int = SEED) -> list[Pair]:
    """Returns every base with every alteration, half of them saved again by some program, and every
    base with nothing altered in every way."""
    chance = Random(seed)
    pairs: list[Pair] = []
    halves: list[str] = []
    for base, draw in BASES.items():
        plans = [(name, alter, None) for name, alter in ALTERATIONS.items()]
        plans += [("nothing", nothing, way) for way in WAYS[:-1]]
        for name, alter, given in plans:
            card = draw(chance, *chance.choice(SIZES))
            altered = alter(chance, card)
            way = given or (chance.choice(WAYS[:-1]) if chance.random() < 0.5 else "as-it-was")
            if altered is None:
                continue
            if not halves:
                halves = ["A", "B"]
                chance.shuffle(halves)
            pair = f"{len(pairs):03d}-{base}-{name}-{way}"
            number = chance.randrange(10**6)
            pairs.append(Pair(pair, halves.pop(), base, name, way, card, altered, number))
    return pairs
