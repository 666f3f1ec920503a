"""Water as an engraver's line screen: level lines that swell in the dark and break in the light."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from curves import Outline, swelling
from numpy.typing import NDArray

# The thinnest line that a press holds, and the thinnest of paper that stays open in a dark ground.
FINE_PT, FINE_REVERSED_PT = 0.25, 0.5

Values = NDArray[np.float64]
Tone = Callable[[Values, float], Values]


def drift(rng: np.random.Generator, x: Values, length: float) -> Values:
    """Returns smooth noise along x, about -1..1, whose hills are length inches apart."""
    count = int((x[-1] - x[0]) / length) + 4
    knots = rng.uniform(-1, 1, count)
    at = (x - x[0]) / length + rng.uniform(0, 1)
    low = at.astype(int)
    ease = (at - low) ** 2 * (3 - 2 * (at - low))
    return knots[low] * (1 - ease) + knots[low + 1] * ease


def levels(top: float, bottom: float, first: float, last: float) -> list[tuple[float, float]]:
    """Returns (y, pitch) of lines from top to bottom, the pitch growing from first to last."""
    out, y = [], top
    while y < bottom:
        pitch = first + (last - first) * (y - top) / (bottom - top)
        out.append((y, pitch))
        y += pitch
    return out


def line_screen(
    lines: list[tuple[float, float]], x: Values, tone: Tone, swell: float, seed: int
) -> list[Outline]:
    """Returns ribbons whose width follows tone (0 paper, 1 solid) along each level line.

    swell is the height of the waves as a share of the pitch. A line too fine to hold is left out;
    between two lines is either paper enough to stay open or, from 1 on, none.
    """
    rng = np.random.default_rng(seed)
    out: list[Outline] = []
    for y, pitch in lines:
        wave = drift(rng, x, 14 * pitch) + 0.5 * drift(rng, x, 5 * pitch)
        spine = np.stack([x, y + swell * pitch * wave], axis=1)
        dark = tone(x, y)
        open_ = np.clip(pitch * dark, 0, pitch - FINE_REVERSED_PT / 72)
        half = np.where(dark >= 1, (1 + swell) * pitch, open_) / 2
        out.extend(swelling(spine, half, least=FINE_PT / 72 / 2))
    return out


def moonlit(
    centre: float, top: float, bottom: float, depth: tuple[float, float], spread: float, seed: int
) -> Tone:
    """Returns a tone that darkens from depth[0] to depth[1], broken by the moon's path at centre.

    The path widens from the horizon by spread inches at the bottom.
    """
    rng = np.random.default_rng(seed)

    def tone(x: Values, y: float) -> Values:
        t = (y - top) / (bottom - top)
        reach = 0.13 + spread * t
        glint = np.exp(-(((x - centre) / reach) ** 2))
        broken = np.clip(0.5 + 1.3 * drift(rng, x, 0.07 + 0.22 * t), 0, 1)
        ripple = 0.06 * drift(rng, x, 0.3 + 0.5 * t)
        dark = depth[0] + (depth[1] - depth[0]) * t**0.7 + ripple
        return dark * (1 - np.clip(1.5 * glint, 0, 1) * broken)

    return tone
