"""Measured patches: CMYK numbers and the XYZ and CIELAB that were measured (CGATS.17, `.ti3`)."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True)
class Patches:
    """inks: (n, 4) shares 0 to 1. xyz: (n, 3), Y = 1 for perfect white under D50. lab: (n, 3)."""

    inks: NDArray[np.float64]
    xyz: NDArray[np.float64]
    lab: NDArray[np.float64]

    @property
    def paper(self) -> NDArray[np.float64]:
        """XYZ of the bare paper: the mean of the patches without ink."""
        return self.xyz[(self.inks == 0).all(axis=1)].mean(axis=0)


def read_patches(path: Path) -> Patches:
    """Returns the patches of a CGATS file."""
    text = path.read_text("latin-1")
    fields = text.split("BEGIN_DATA_FORMAT")[1].split("END_DATA_FORMAT")[0].split()
    words = text.split("BEGIN_DATA\n")[1].split("END_DATA")[0].split()
    rows = np.array(words).reshape(-1, len(fields))

    def columns(*names: str) -> NDArray[np.float64]:
        return rows[:, [fields.index(name) for name in names]].astype(np.float64)

    inks = columns("CMYK_C", "CMYK_M", "CMYK_Y", "CMYK_K") / 100
    xyz = columns("XYZ_X", "XYZ_Y", "XYZ_Z") / 100
    return Patches(inks, xyz, columns("LAB_L", "LAB_A", "LAB_B"))
