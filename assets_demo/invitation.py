"""The invitation, 5 x 7 in, composed for a lancet arch; type outlined."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
from lettering import DISPLAY_ITALIC, ITALIC, SMALL_CAPS, centred
from motifs import far_shore, lugger, mill, phase, wheel_moon
from palette import INK, MIST, OAT, RUST
from pdf import BLEED, Page
from typeset import Style
from water import Tone, Values, drift, levels, line_screen, moonlit

WIDTH, HEIGHT = 5.0, 7.0
MIDDLE = WIDTH / 2
HORIZON = 5.58
MILL, SCALE = 1.33, 0.90


def draw(path: Path) -> None:
    """Writes the invitation's PDF."""
    page = Page(WIDTH, HEIGHT)
    page.flood(OAT)
    _moons(page)
    _wording(page)
    _creek(page)
    page.save(path, "Tide Mill Supper: invitation")


def _moons(page: Page) -> None:
    """The moon waxes up one arm of the arch, is full at the top, wanes down the other."""
    wheel_moon(page, MIDDLE, 1.30, 0.43, RUST, OAT)
    spring, radius = WIDTH * math.sqrt(3) / 2, WIDTH - 0.42
    for i, share in enumerate((0.08, 0.27, 0.5, 0.73, 0.92)):
        a = math.radians(183 + 8.6 * i)
        x, y, r = WIDTH + radius * math.cos(a), spring + radius * math.sin(a), 0.072 + 0.009 * i
        phase(page, x, y, r, share, 1, INK)
        phase(page, WIDTH - x, y, r, share, -1, INK)


def _wording(page: Page) -> None:
    title = Style(DISPLAY_ITALIC, 45, 0, ("swsh",))
    centred(page, "the millers of samphire hard", SMALL_CAPS, MIDDLE, 2.24, INK)
    centred(page, "request the pleasure of your company at the", ITALIC, MIDDLE, 2.47, INK)
    centred(page, "Tide Mill", title, MIDDLE, 3.08, INK)
    centred(page, "Supper", title, MIDDLE, 3.64, INK)
    centred(page, "a harvest dinner between two tides", ITALIC, MIDDLE, 4.02, RUST)
    centred(page, "saturday, the twenty-sixth of september", SMALL_CAPS, MIDDLE, 4.34, INK)
    centred(page, "on the flood, at half past five o’clock", ITALIC, MIDDLE, 4.56, INK)


def _creek(page: Page) -> None:
    left, right = -BLEED, WIDTH + BLEED
    bottom = HEIGHT + BLEED
    far_shore(page, HORIZON, left, right, MIST)
    x = np.arange(left - 0.02, right + 0.05, 0.035)
    lines = levels(HORIZON + 0.012, bottom + 0.05, 0.020, 0.050)
    light = moonlit(MIDDLE, HORIZON, bottom, (0.42, 0.88), 0.62, seed=26)
    page.fill(line_screen(lines, x, _mirrored(light), 0.16, seed=6), INK)
    between = [(y + pitch / 2, pitch) for y, pitch in lines]
    page.fill(line_screen(between, x, _embers(bottom), 0.16, seed=6), RUST)
    mill(page, MILL, HORIZON, SCALE)
    lugger(page, 3.78, HORIZON + 0.035, 0.40)


def _mirrored(light: Tone) -> Tone:
    """Returns light with the mill's own dark lying in the water below it."""
    ragged = np.random.default_rng(9)

    def tone(x: Values, y: float) -> Values:
        down, away = (y - HORIZON) / SCALE, (x - MILL) / SCALE
        shake = 0.05 * drift(ragged, x, 0.12)
        house = (away > -0.52 + shake) & (away < 0.48 + shake) & (down < 0.56 + 2 * shake)
        barn = (np.abs(away + 0.72 + shake) < 0.20) & (down < 0.34 + 2 * shake)
        return np.where(house | barn, np.maximum(1.14 - 0.6 * down, light(x, y)), light(x, y))

    return tone


def _embers(bottom: float) -> Tone:
    """The harvest moon's own colour, in the path it leaves on the water."""
    rng = np.random.default_rng(31)

    def tone(x: Values, y: float) -> Values:
        t = (y - HORIZON) / (bottom - HORIZON)
        path = np.exp(-(((x - MIDDLE) / (0.06 + 0.34 * t)) ** 2))
        return 0.75 * path * np.clip(1.6 * drift(rng, x, 0.08 + 0.2 * t) + 0.1, 0, 1)

    return tone
