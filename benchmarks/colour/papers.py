"""Ink on another paper, predicted from measured patches and compared with those measured there.

Nothing was fitted to these pairs but the floor of the formula, chosen once after seeing them; they
differ in press and ink as well as in paper. The pair under CIEDE2000 2 between papers shows what
leaving the ink alone costs.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from benchmarks.colour.patches import Patches, read_patches
from mockup.colour.difference import difference
from mockup.colour.ink import on_paper
from mockup.colour.lab import WIDE_TO_XYZ, lab_of_xyz

MEASURED = Path(__file__).parent / "measured"
PAIRS = (
    ("FOGRA29L", "FOGRA30L"),
    ("FOGRA30L", "FOGRA29L"),
    ("TR003", "TR005"),
    ("TR006", "TR003"),
    ("TR006", "TR005"),
    ("FOGRA39L", "FOGRA40L"),
    ("FOGRA39L", "FOGRA28L"),
)
_TO_WIDE = np.linalg.inv(WIDE_TO_XYZ)


@dataclass(frozen=True)
class Pair:
    """CIEDE2000 of the patches two conditions share, without a correction and with it."""

    name: str
    papers: float
    without: NDArray[np.float64]
    predicted: NDArray[np.float64]

    def __str__(self) -> str:
        told = " ".join(
            f"{word} {off.mean():.2f}/{np.quantile(off, 0.95):.2f}"
            for word, off in (("none", self.without), ("predicted", self.predicted))
        )
        apart = f"papers {self.papers:.1f} apart"
        return f"{self.name}, {apart}, mean/95 %: {told} ({len(self.without)})"


def compare(first: str, second: str) -> Pair:
    """Returns how well one condition's inks are predicted on the other's paper."""
    one, other = (read_patches(MEASURED / f"{name}.ti3") for name in (first, second))
    here, there = _shared(one, other)
    wide, own, paper = (each @ _TO_WIDE.T for each in (one.xyz[here], one.paper, other.paper))
    predicted = lab_of_xyz(np.maximum(on_paper(wide, own, paper) @ WIDE_TO_XYZ.T, 0))
    truth = lab_of_xyz(other.xyz[there])
    papers = float(difference(lab_of_xyz(one.paper), lab_of_xyz(other.paper)))
    return Pair(
        f"{first} -> {second}",
        papers,
        difference(lab_of_xyz(one.xyz[here]), truth),
        difference(predicted, truth),
    )


def _shared(one: Patches, other: Patches) -> tuple[list[int], list[int]]:
    where = {tuple(ink): k for k, ink in enumerate(np.round(other.inks, 4).tolist())}
    pairs = [
        (k, where[tuple(ink)])
        for k, ink in enumerate(np.round(one.inks, 4).tolist())
        if tuple(ink) in where
    ]
    return [k for k, _ in pairs], [k for _, k in pairs]


def main() -> None:
    """Prints every pair."""
    for names in PAIRS:
        print(compare(*names))


if __name__ == "__main__":
    main()
