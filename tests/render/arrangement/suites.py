"""Suites to arrange: plain outlines at trade sizes, and random ones from a seed."""

import math
from random import Random

import numpy as np
from numpy.typing import NDArray

from mockup.geometry.point import Box
from mockup.render.arrangement import Item

RATIOS = {"16:9": 16 / 9, "3:2": 3 / 2, "1:1": 1.0, "4:5": 4 / 5, "9:16": 9 / 16}


def rectangle(width: float, height: float) -> NDArray[np.float64]:
    return np.array([[0, 0], [width, 0], [width, height], [0, height]], dtype=np.float64)


def middle(width: float, height: float, share: float) -> Box:
    """The box around a card's middle with this share of its width and height."""
    dx, dy = width * (1 - share) / 2, height * (1 - share) / 2
    return Box(dx, dy, width - dx, height - dy)


def card(name: str, width: float, height: float, share: float, role: str = "card") -> Item:
    return Item(name, rectangle(width, height), (middle(width, height, share),), role)  # type: ignore[arg-type]


def arch(name: str = "invitation") -> Item:
    """A 5 x 7 in pointed arch: two arcs of radius 5 from the springing line to the point."""
    rise = 5 * math.sin(math.radians(60))
    turns = [math.radians(60 * k / 24) for k in range(25)]
    left = [(5 - 5 * math.cos(t), rise - 5 * math.sin(t)) for t in turns]
    right = [(5 * math.cos(t), rise - 5 * math.sin(t)) for t in reversed(turns)]
    outline = np.array([*left, *right, (5, 7), (0, 7)], dtype=np.float64)
    return Item(name, outline, (Box(1.0, 2.2, 4.0, 6.4),), "main")


def envelope(name: str, width: float = 7.25, height: float = 5.25, flap: float = 4.2) -> Item:
    """An envelope open from the back, its pointed flap up; the lining shows on the flap."""
    tip = (width / 2, -flap)
    outline = np.array([(0, 0), tip, (width, 0), (width, height), (0, height)], dtype=np.float64)
    lining = np.array([(0.6, 0), (width / 2, 0.5 - flap), (width - 0.6, 0)], dtype=np.float64)
    return Item(name, outline, (), "envelope", (lining,))


def demo() -> list[Item]:
    return [
        arch(),
        envelope("outer"),
        card("reply", 4.875, 3.5, 0.7),
        card("details", 4.25, 5.5, 0.75),
    ]


def any_suite(seed: int) -> list[Item]:
    """One to eight cards, upright and lying, with much or little type, and up to three envelopes."""
    rng = Random(seed)
    sizes = [(5, 7), (4.25, 5.5), (4.875, 3.5), (3.5, 2), (4, 9.25), (5, 5), (4.5, 6.25), (6, 4)]
    count = rng.randint(1, 8)
    items = [
        card(f"card {k}", *rng.choice(sizes), rng.uniform(0.5, 0.97), "main" if k == 0 else "card")
        for k in range(count)
    ]
    envelopes = [(7.25, 5.25, 4.2), (5.75, 4.375, 2.6), (5.125, 3.625, 1.8)]
    return items + [envelope(f"envelope {k}", *envelopes[k]) for k in range(rng.randint(0, 3))]
