"""Random suites: cards and envelopes of trade sizes, dies, holes, borders and type, from a seed."""

from __future__ import annotations

import math
from dataclasses import dataclass
from random import Random

from mockup.dies import Die
from mockup.dies.making import make_die
from mockup.envelopes.spec import FLAPS, envelope_spec
from mockup.envelopes.views import closed_back, open_back
from mockup.errors import MockupError
from mockup.geometry.flatten import ring
from mockup.geometry.point import Box
from mockup.render.arrangement import Item
from mockup.render.items import laid_envelope
from mockup.trade.sizes import CARDS, ENVELOPES

COARSE_IN = 0.01
MAINS = ("a7", "a7", "a7", "a8", "iso-a5", "square-6", "lee", "a6")
CARDS_USED = ("a1", "a2", "a2", "4-bar", "a6", "iso-a6", "business", "square-4", "square-5", "a7")
ENVELOPES_USED = ("a7", "a7", "a2", "4-bar", "c6", "a6", "square-6.5", "a1")
DIES = ("rectangle",) * 7 + (
    "rounded-corner",
    "ticket-corner",
    "lancet-arch",
    "round-arch",
    "scalloped-edge",
    "circle",
    "tag",
)
RATIOS = {"16:9": 16 / 9, "3:2": 3 / 2, "4:3": 4 / 3, "1:1": 1.0, "4:5": 4 / 5, "9:16": 9 / 16}
COUNTS = (1, 2, 2, 3, 4, 4, 5, 5, 6, 6, 7, 8, 9, 10, 12, 14)


@dataclass(frozen=True)
class Suite:
    """What is laid out: items, the picture's width to height, and what sort of suite it is."""

    seed: int
    items: list[Item]
    aspect: float
    ratio: str

    @property
    def told(self) -> str:
        """The suite in one line."""
        envelopes = sum(item.role == "envelope" for item in self.items)
        return f"{self.seed:3}: {len(self.items)} pieces, {envelopes} envelopes, {self.ratio}"


def random_suite(seed: int) -> Suite:
    """Returns the suite of a seed."""
    rng = Random(f"suite {seed}")
    count = COUNTS[seed % len(COUNTS)] if seed < 2 * len(COUNTS) else rng.choice(COUNTS)
    envelopes = min(rng.randint(0, 3), max(0, count - 1))
    items = [_card(rng, k) for k in range(count - envelopes)]
    items += [_envelope(rng, k) for k in range(envelopes)]
    ratio = rng.choice(list(RATIOS))
    if count <= 2:
        ratio = _shaped_like(items)
    return Suite(seed, items, RATIOS[ratio], ratio)


def _shaped_like(items: list[Item]) -> str:
    """Returns the ratio nearest to the shape one or two pieces make side by side: one upright card
    in a wide picture leaves over half of it bare wherever it lies."""
    width = sum(item.box.width for item in items)
    height = max(item.box.height for item in items)
    return min(RATIOS, key=lambda ratio: abs(math.log(RATIOS[ratio] * height / width)))


def _card(rng: Random, number: int) -> Item:
    known = [name for name in (MAINS if number == 0 else CARDS_USED) if name in CARDS]
    size = CARDS[rng.choice(known)]
    width, height = size.width_in, size.height_in
    if number and rng.random() < 0.4:
        width, height = height, width
    die = _die(rng, width, height)
    clear = _type(rng, width, height)
    if rng.random() < 0.25:
        clear = [Box(0.25, 0.25, width - 0.25, height - 0.25)]  # a border
    holes = [ring(hole, COARSE_IN) for hole in die.shape.holes]
    regions = (*clear, *(Box(*h.min(axis=0), *h.max(axis=0)) for h in holes))
    role = "main" if number == 0 else "card"
    return Item(f"card {number}", ring(die.shape.outer, COARSE_IN), regions, role)


def _die(rng: Random, width: float, height: float) -> Die:
    name = rng.choice(DIES)
    if name == "circle" and width != height:
        name = "rectangle"
    try:
        return make_die(name, width, height)
    except MockupError:
        return make_die("rectangle", width, height)


def _type(rng: Random, width: float, height: float) -> list[Box]:
    """Returns lines of type about the middle, in one to four blocks."""
    inset = rng.uniform(0.1, 0.22)
    top, bottom = inset * height, (1 - inset) * height
    blocks = rng.randint(1, 4)
    step = (bottom - top) / blocks
    boxes: list[Box] = []
    for block in range(blocks):
        half = width * rng.uniform(0.2, 0.5 - inset)
        start = top + block * step
        boxes.append(Box(width / 2 - half, start, width / 2 + half, start + 0.8 * step))
    return boxes


def _envelope(rng: Random, number: int) -> Item:
    known = [name for name in ENVELOPES_USED if name in ENVELOPES]
    size = ENVELOPES[rng.choice(known)]
    flap = rng.choice(FLAPS)
    return envelope_of(number, size.width_in, size.height_in, flap, rng.random() >= 0.5)


def envelope_of(number: int, width: float, height: float, flap: str, lies_open: bool) -> Item:
    """Returns an envelope as the program lays it."""
    spec = envelope_spec(width, height, flap)
    back = open_back(spec) if lies_open else closed_back(spec)
    return laid_envelope(f"envelope {number}", spec, back)
