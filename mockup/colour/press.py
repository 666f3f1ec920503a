"""Presses: by which printing condition inks are shown, and how that is told."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

_CONDITIONS = Path(__file__).resolve().parent / "conditions"


@dataclass(frozen=True)
class Press:
    """A press as its profile tells it: the file, and the SHA-256 of its bytes where it is not one
    that comes with the program. `because` is why it was chosen, as the reader is told."""

    profile: Path
    because: str
    sha256: str = ""


COATED = Press(_CONDITIONS / "FOGRA39L_coated.icc", "assumed for coated paper")
"""Sheet offset on coated paper: FOGRA39, ISO 12647-2:2004."""

UNCOATED = Press(_CONDITIONS / "FOGRA29L_uncoated.icc", "assumed for uncoated paper")
"""Sheet offset on white uncoated paper: FOGRA29, ISO 12647-2:2004."""


@dataclass(frozen=True, eq=False)
class ShownBy:
    """The condition a page is shown by: its name, why it is that one, XYZ of its own paper."""

    name: str
    because: str
    paper: NDArray[np.float64]


def assumed_press(coated: bool) -> Press:
    """Returns the press that is assumed for a paper's surface."""
    return COATED if coated else UNCOATED
