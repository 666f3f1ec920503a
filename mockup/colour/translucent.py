"""Paper one sees through, laid on something: Kubelka and Munk's sheet on a ground.

Opacity is ISO 2471's, which paper is sold by: the reflectance of one sheet over black, as a share
of that of a pad too thick to see through. In linear light, a channel at a time.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.colour.srgb import LINEAR, Rgb

Light = NDArray[np.floating]


@dataclass(frozen=True)
class Film:
    """A translucent sheet: its opacity, 0 to 1, and the linear reflectance of a thick pad of it,
    red, green, blue."""

    opacity: float
    body: tuple[float, float, float]

    @property
    def over_black(self) -> Light:
        """The reflectance of the sheet by itself, R0, (3,): over nothing that sends light back."""
        return self.opacity * np.array(self.body, np.float32)

    @property
    def passed(self) -> Light:
        """The share of light that goes through it once, T, (3,).

        T^2 = (1 - R0 / Roo) (1 - R0 Roo) (Kubelka 1948, "New contributions to the optics of
        intensely light-scattering materials": T^2 = (a - R0)^2 - b^2).
        """
        return np.sqrt((1 - self.opacity) * (1 - self.over_black * np.array(self.body, np.float32)))

    def between(self, ground: Light) -> Light:
        """Returns by how much light grows that is thrown to and fro between the sheet and a ground
        of a reflectance, whose last axis is the channel."""
        return 1 / (1 - self.over_black * ground)

    def over(self, printed: Light, ground: Light) -> Light:
        """Returns what is seen of the sheet over a ground, both (..., 3) linear reflectance.

        `printed` is the sheet as it looks on a pad of its own paper, with its ink: what comes from
        below goes through that ink both ways. R = R0 + T^2 Rg / (1 - R0 Rg), as above.
        """
        ink = np.clip(printed / np.array(self.body, np.float32), 0, 1)
        below = self.passed**2 * ground * self.between(ground)
        return printed * self.opacity + ink * below


def film_of(translucency: float, colour: Rgb) -> Film | None:
    """Returns a paper of a colour as a film; None for one that is not seen through."""
    if translucency <= 0:
        return None
    red, green, blue = (float(LINEAR[value]) for value in colour)
    return Film(1 - translucency, (red, green, blue))
