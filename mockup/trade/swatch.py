"""What was measured of a paper, and of ink on it, with an instrument."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Lab = tuple[float, float, float]
"""CIELAB under D50, two degrees."""

Light = Literal["M0", "M1", "M2", "M3"]
"""The light it was measured in (ISO 13655:2017): M1 is D50, M2 is without ultraviolet."""

Backing = Literal["black", "white"]
"""What lay beneath the sheet."""


@dataclass(frozen=True)
class Measured:
    """How something was measured; None for what is not known of it."""

    condition: Light | None
    backing: Backing | None

    @property
    def told(self) -> str:
        """The way of measuring, as a reader is told."""
        backing = f"{self.backing} backing" if self.backing else "backing not said"
        return f"{self.condition or 'condition not said'}, {backing}"


@dataclass(frozen=True)
class Swatch:
    """CIELAB of a bare paper and of the four solid inks printed on it, as measured."""

    paper: Lab
    cyan: Lab
    magenta: Lab
    yellow: Lab
    black: Lab

    @property
    def solids(self) -> tuple[Lab, Lab, Lab, Lab]:
        """The solid inks in the order C, M, Y, K."""
        return self.cyan, self.magenta, self.yellow, self.black
