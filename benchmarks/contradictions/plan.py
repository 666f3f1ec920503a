"""The plan of the bench: suites that go at a printer, and suites with one thing each that does not.
Half B is counted only."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from random import Random

SEED = 20261127
CLEAN = "clean"


@dataclass(frozen=True)
class Card:
    """What the suite says of its card, as TOML values; "" where it says nothing."""

    card: str
    die: str
    stock: str
    quantity: int
    finishes: str = ""
    back: str = ""


@dataclass(frozen=True)
class Outer:
    """What the suite says of its envelope."""

    size: str
    flap: str
    colour: str
    quantity: int
    lined: bool = False


@dataclass(frozen=True)
class Plan:
    """A suite: at which printer, what is planted, the words that the line of it must have."""

    name: str
    half: str
    kind: str
    printer: str
    words: tuple[str, ...]
    card: Card
    outer: Outer
    bleed: float
    units: str


_ARCH = Card('"A7"', '"lancet-arch"', '"cotton-110-white"', 100)
_SMALL = Card('"A2"', '"rectangle"', '"smooth-120-white"', 75)
_WIDE = Card('"A7"', '{ shape = "chamfered-corner", cut = 0.5 }', '"cotton-110-white"', 150)
_FOIL = replace(_ARCH, finishes='["foil"]')
_A7 = Outer("A7", "pointed", "white", 125)
_A7_BLUE = Outer("A7", "straight", "#22385a", 150)
_ROUNDED = '{ shape = "rounded-corner", radius = 4 }'
_POST = Card(
    '"105 x 148"', '{ shape = "rounded-corner", radius = 4 }', '"smooth-300-gsm-white"', 100
)
_KRAFT = Card('"105 x 148"', '"round-arch"', '"kraft-300-gsm"', 90)
_PLAIN = Card('"105 x 148"', '"rectangle"', '"smooth-350-gsm-white"', 33, '["varnish"]')
_C6 = Outer("C6", "straight", "white", 110)
_C5 = Outer("C5", "pointed", "white", 95, lined=True)

GOING: Mapping[str, tuple[tuple[Card, ...], tuple[Outer, ...]]] = {
    "groyne": ((_ARCH, _WIDE, _FOIL), (_A7, _A7_BLUE)),
    "sallow": ((_POST, _KRAFT, _PLAIN), (_C6, _C5)),
}
"""Cards and envelopes that go, any with any."""

Change = tuple[str, str, dict[str, object], dict[str, object], tuple[str, ...]]
CHANGES: tuple[Change, ...] = (  # printer, kind, of the card, of the envelope, words
    ("groyne", "angled corners on thick stock",
     {"die": _WIDE.die, "stock": '"cotton-220-white"', "card": '"A7"'}, {},
     ("chamfered", "over 24")),
    ("groyne", "hole", {"card": '"A2"', "die": '"tag"'}, {}, ("no hole is drilled",)),
    ("groyne", "liner", {}, {"lined": True}, ("no liner",)),
    ("groyne", "die to be made, of which too few",
     {"die": '"ogee-arch"', "quantity": 50}, {}, ("made for you", "from 60 on")),
    ("groyne", "die, stock too thick",
     {"die": '"lancet-arch"', "card": '"A7"', "stock": '"cotton-220-white"'}, {}, ("stock to 36",)),
    ("groyne", "stock not at that size", {"card": '"A7"', "stock": '"smooth-100-white"',
                                          "finishes": ""}, {}, ("at A2 only",)),
    ("groyne", "stock too thin",
     {"stock": '"text-80-white"', "finishes": "", "die": '"rectangle"'}, {},
     ("they print on stock from 11",)),
    ("groyne", "paper not carried", {"stock": '"eggshell-110-oat"', "finishes": ""}, {},
     ("is not printed on there",)),
    ("groyne", "too few of a stock", {"stock": '"cotton-110-white"', "die": '"rectangle"',
                                      "quantity": 12, "finishes": ""}, {}, ("from 20 on",)),
    ("groyne", "too few of a die", {"die": '"lancet-arch"', "card": '"A7"', "quantity": 24,
                                    "finishes": ""}, {}, ("from 30 on",)),
    ("groyne", "too few of a finish",
     {"finishes": '["foil"]', "quantity": 45, "die": _WIDE.die}, {}, ("foil is laid from 50 on",)),
    ("groyne", "finish not on that stock",
     {"finishes": '["foil"]', "stock": '"smooth-120-white"'}, {}, ("foil goes on",)),
    ("groyne", "finish not offered", {"finishes": '["varnish"]'}, {}, ("varnish is not offered",)),
    ("groyne", "white ink", {"finishes": '["white"]'}, {}, ("white is not offered",)),
    ("groyne", "bleed", {}, {}, ("they ask for 0.125 in of bleed",)),
    ("groyne", "envelope's colour", {}, {"colour": "kraft"}, ("colour kraft",)),
    ("groyne", "envelope's flap", {}, {"flap": "deep-pointed"}, ("deep-pointed flap",)),
    ("groyne", "envelope's size", {"card": '"A6"', "die": '"lancet-arch"'}, {"size": "A8"},
     ("no envelope of size A8",)),
    ("groyne", "envelopes not in steps", {}, {"quantity": 130}, ("steps of 25",)),
    ("sallow", "die not there at all", {"die": '"gable"'}, {}, ("no gable", "none is made")),
    ("sallow", "card size without that die",
     {"card": '"148 x 148"', "die": '"round-arch"'}, {"size": "C5", "flap": "straight"},
     ("no round-arch",)),
    ("sallow", "die, stock too thick", {"die": _POST.die, "stock": '"kraft-300-gsm"'}, {},
     ("rounded-corner cuts stock to",)),
    ("sallow", "stock too thick", {"stock": '"cotton-600-gsm-white"', "die": '"rectangle"'}, {},
     ("they print on stock to",)),
    ("sallow", "stock not in steps", {"stock": '"smooth-300-gsm-white"', "quantity": 90}, {},
     ("steps of 20",)),
    ("sallow", "back", {"back": '"card.pdf"'}, {}, ("nothing is printed on a back",)),
    ("sallow", "bleed", {}, {}, ("they ask for 3 mm of bleed",)),
    ("sallow", "liner", {}, {"size": "C6", "flap": "straight", "lined": True}, ("no liner",)),
    ("sallow", "finish not offered", {"finishes": '["emboss"]'}, {}, ("emboss is not offered",)),
    ("sallow", "envelope's size", {}, {"size": "B6"}, ("no envelope of size B6",)),
    ("sallow", "envelope's flap", {}, {"size": "C6", "flap": "pointed"}, ("pointed flap",)),
    ("sallow", "too few of a stock",
     {"stock": '"kraft-300-gsm"', "die": '"rectangle"', "quantity": 30}, {}, ("from 40 on",)),
    ("sallow", "too few of a die", {"die": '"round-arch"', "quantity": 40}, {}, ("from 50 on",)),
)  # fmt: skip


def planned(seed: int = SEED) -> list[Plan]:
    """Returns a suite for every change, and every card with every envelope as it goes."""
    chance = Random(seed)
    plans: list[Plan] = []
    for printer, (cards, outers) in GOING.items():
        units, bleed = ("in", 0.125) if printer == "groyne" else ("mm", 3)
        for card in cards:
            plans += [Plan("", "", CLEAN, printer, (), card, each, bleed, units) for each in outers]
        for at, kind, of_card, of_outer, words in CHANGES:
            if at != printer:
                continue
            own = bleed / 2 if kind == "bleed" else bleed
            card = replace(chance.choice(cards), **of_card)
            outer = replace(chance.choice(outers), **of_outer)
            plans.append(Plan("", "", kind, printer, words, card, outer, own, units))
    halves = ["A", "B"] * (len(plans) // 2 + 1)
    chance.shuffle(halves)
    return [
        replace(each, name=f"{number:02d}-{each.printer}-{each.kind}", half=halves[number])
        for number, each in enumerate(plans)
    ]
