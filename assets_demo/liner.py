"""The envelope liner, 7 x 9.5 in: the ebb running past moons like piles."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np
from curves import Outline, swelling
from motifs import phase, wheel_moon
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray
from palette import INK, OAT, RUST
from pdf import Page

WIDTH, HEIGHT = 7.0, 9.5
TILT = np.radians(-17)
PITCH = 0.108
STEP = 0.065
# The water keeps this much clear of a moon, as a share of its radius.
BERTH = 1.20

Values = NDArray[np.float64]


@dataclass(frozen=True)
class Moon:
    """A moon on the liner, inches; share and side as in motifs.phase, full ones hold the wheel."""

    x: float
    y: float
    r: float
    share: float
    side: int = 1


# The first stands where the flap's point shows it; the rest are set by eye about it.
MOONS = (
    Moon(3.50, 1.62, 0.44, 1.0),
    Moon(1.62, 2.62, 0.21, 0.73),
    Moon(5.42, 2.86, 0.25, 0.5, -1),
    Moon(0.72, 0.78, 0.27, 0.5),
    Moon(6.12, 0.92, 0.19, 0.27, -1),
    Moon(3.22, 3.72, 0.26, 0.27),
    Moon(0.62, 4.42, 0.40, 1.0),
    Moon(6.32, 4.62, 0.36, 1.0),
    Moon(4.52, 5.22, 0.20, 0.73, -1),
    Moon(2.30, 5.62, 0.30, 0.5, -1),
    Moon(5.42, 6.82, 0.27, 0.27),
    Moon(3.62, 7.22, 0.40, 1.0),
    Moon(1.22, 7.32, 0.22, 0.73),
    Moon(6.52, 8.52, 0.24, 0.5),
    Moon(2.32, 8.82, 0.25, 0.27, -1),
    Moon(4.72, 9.02, 0.20, 0.73, -1),
    Moon(0.42, 9.12, 0.32, 1.0),
)


def draw(path: Path) -> None:
    """Writes the liner's PDF."""
    page = Page(WIDTH, HEIGHT)
    page.flood(OAT)
    page.fill(_stream(), INK)
    for moon in MOONS:
        if moon.share == 1:
            wheel_moon(page, moon.x, moon.y, moon.r, RUST, OAT)
        else:
            phase(page, moon.x, moon.y, moon.r, moon.share, moon.side, INK)
    page.save(path, "Tide Mill Supper: liner")


def _stream() -> list[Outline]:
    """Lines of equal flow: potential flow past a cylinder (a doublet in a stream), summed."""
    along, across = np.arange(-5.6, 5.7, STEP), np.arange(-6.6, 6.6, 0.01)
    levels = np.arange(-6.4, 6.4, PITCH)
    flow = _flow(along, across)
    lines = np.stack([np.interp(levels, column, across) for column in flow.T], axis=1)
    room = np.minimum(np.diff(lines, axis=0)[1:], np.diff(lines, axis=0)[:-1])
    out: list[Outline] = []
    for level, line, free in zip(levels[1:-1], lines[1:-1], room, strict=True):
        x, y = _turned(along, line)
        half = np.clip(free, 0, 1.3 * PITCH) / 2 * _tone(along, level) * _clear(x, y, line)
        near = (np.abs(x - WIDTH / 2) < WIDTH / 2 + 0.3) & (
            np.abs(y - HEIGHT / 2) < HEIGHT / 2 + 0.3
        )
        run = np.flatnonzero(near)
        if run.size:
            kept = slice(run[0], run[-1] + 1)
            out.extend(swelling(np.stack([x, y], axis=1)[kept], half[kept], least=0.0032))
    return out


def _tone(along: Values, level: float) -> Values:
    """Returns the share of ink along one line: two long waves of light crossing the water."""
    return 0.45 + 0.145 * (
        np.sin(1.9 * along + 1.35 * level) + np.sin(0.83 * along - 2.1 * level + 1)
    )


def _clear(x: Values, y: Values, line: Values) -> Values:
    """Returns 1 in open water, easing to 0 before a moon's edge or where a line turns back."""
    out = np.ones_like(x)
    for moon in MOONS:
        away = np.hypot(x - moon.x, y - moon.y)
        out *= np.clip((away - 1.06 * moon.r - 0.02) / 0.06, 0, 1)
    steep = np.abs(np.diff(line, append=line[-1])) / STEP
    steep = np.maximum(steep, np.roll(steep, 1))
    out *= np.clip((1.7 - steep) / 0.5, 0, 1)
    # A line that must end draws out to a point over half an inch, as a burin leaves the plate.
    reach = 4
    least = sliding_window_view(np.pad(out, reach, mode="edge"), 2 * reach + 1).min(axis=1)
    drawn_out = np.convolve(np.pad(least, reach, mode="edge"), np.ones(2 * reach + 1), "valid")
    return np.minimum(out, drawn_out / (2 * reach + 1))


def _turned(along: Values, across: Values) -> tuple[Values, Values]:
    """Returns page x, y of flow coordinates, whose origin is the page's middle."""
    c, s = np.cos(TILT), np.sin(TILT)
    return WIDTH / 2 + c * along - s * across, HEIGHT / 2 + s * along + c * across


def _flow(along: Values, across: Values) -> Values:
    """Returns the stream function (across, along), made rising so that each level is one line."""
    a, b = np.meshgrid(along, across)
    c, s = np.cos(TILT), np.sin(TILT)
    x, y = np.array([m.x for m in MOONS]) - WIDTH / 2, np.array([m.y for m in MOONS]) - HEIGHT / 2
    places = np.stack([c * x + s * y, c * y - s * x], axis=1)
    pulls = np.tile([0.0, 1.0], (len(MOONS), 1))
    for _ in range(6):
        pulls = np.array([_slope(i, places, pulls) for i in range(len(MOONS))])
    flow = _open_water(a, b) - sum(_doublet(a, b, i, places, pulls) for i in range(len(MOONS)))
    return np.maximum.accumulate(flow, axis=0) + 1e-9 * b


def _open_water(a: Values, b: Values) -> Values:
    return b + 0.10 * np.sin(0.9 * a + 0.5 * b) + 0.05 * np.sin(1.7 * a - 0.8 * b + 2)


def _doublet(a: Values, b: Values, i: int, places: Values, pulls: Values) -> Values:
    """Returns what moon i takes from the stream; inside its berth the sum is then level."""
    u, v = a - places[i, 0], b - places[i, 1]
    r2 = (BERTH * MOONS[i].r) ** 2
    return (u * pulls[i, 0] + v * pulls[i, 1]) * r2 / np.maximum(u * u + v * v, r2)


def _slope(i: int, places: Values, pulls: Values) -> Values:
    """Returns the gradient of the stream at moon i as all the others leave it."""
    step = 0.01
    a = places[i, 0] + step * np.array([1.0, -1.0, 0.0, 0.0])
    b = places[i, 1] + step * np.array([0.0, 0.0, 1.0, -1.0])
    others = sum(_doublet(a, b, j, places, pulls) for j in range(len(MOONS)) if j != i)
    value = _open_water(a, b) - others
    return np.array([value[0] - value[1], value[2] - value[3]]) / (2 * step)
