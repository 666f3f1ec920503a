"""A press's table mended by a swatch of five measured patches, compared with all the others there.

The press is one of those that come with the program; paper, ink and machine are another's. Only the
bare paper and the four solid inks of the other were looked at.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import RegularGridInterpolator

from benchmarks.colour.papers import MEASURED, Pair
from benchmarks.colour.patches import Patches, read_patches
from mockup.colour.difference import difference
from mockup.colour.icc_reading import Condition, read_condition
from mockup.colour.lab import lab_of_xyz, rgb_of_xyz
from mockup.colour.press import COATED, UNCOATED, Press
from mockup.colour.printing import table_on
from mockup.trade.swatch import Lab, Swatch

TARGETS = (
    (COATED, "FOGRA29L"),
    (COATED, "FOGRA30L"),
    (COATED, "FOGRA40L"),
    (COATED, "FOGRA28L"),
    (COATED, "TR006"),
    (COATED, "TR005"),
    (UNCOATED, "FOGRA30L"),
    (UNCOATED, "FOGRA28L"),
    (UNCOATED, "TR003"),
)


def swatch_of(patches: Patches) -> Swatch:
    """Returns the five patches a swatch has: bare paper and the solid inks."""

    def lab(*inks: float) -> Lab:
        (k,) = np.flatnonzero((np.abs(patches.inks - np.array(inks)) < 1e-6).all(axis=1))[:1]
        one, two, three = (float(v) for v in lab_of_xyz(patches.xyz[k]))
        return one, two, three

    solids = np.eye(4).tolist()
    return Swatch(lab(0, 0, 0, 0), *(lab(*each) for each in solids))


def compare(press: Press, name: str) -> Pair:
    """Returns how well a press is predicted on another's paper, by its paper alone and mended."""
    condition = read_condition(press.profile.read_bytes())
    patches = read_patches(MEASURED / f"{name}.ti3")
    truth = lab_of_xyz(patches.xyz)
    swatch = swatch_of(patches)
    paper = rgb_of_xyz(patches.paper)
    found = [
        difference(_at(condition, table_on(condition, paper, each), patches.inks), truth)
        for each in (None, swatch)
    ]
    papers = float(difference(lab_of_xyz(condition.paper), lab_of_xyz(patches.paper)))
    return Pair(f"{condition.name} -> {name}", papers, found[0], found[1])


def _at(
    condition: Condition, table: NDArray[np.float64], inks: NDArray[np.float64]
) -> NDArray[np.float64]:
    steps = np.linspace(0, 1, condition.curves.shape[1])
    places = np.stack([np.interp(inks[:, k], steps, condition.curves[k]) for k in range(4)], axis=1)
    axis = np.linspace(0, 1, table.shape[0])
    return RegularGridInterpolator((axis,) * 4, lab_of_xyz(table))(places)


def main() -> None:
    """Prints every target."""
    for press, name in TARGETS:
        print(
            str(compare(press, name)).replace("none", "paper alone").replace("predicted", "swatch")
        )


if __name__ == "__main__":
    main()
