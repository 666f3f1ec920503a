"""Outlines in inches (x right, y down): lines and cubics, and the few figures made of them."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Point = tuple[float, float]
Segment = tuple[str, tuple[float, ...]]
Outline = list[Segment]

# Cubic that follows a quarter circle within 0.03 % of its radius: 4/3 (sqrt 2 - 1).
KAPPA = 4 / 3 * (math.sqrt(2) - 1)


def polygon(points: Sequence[Point]) -> Outline:
    """Returns the closed polygon through points, inches."""
    head, *rest = points
    return [("m", head), *(("l", p) for p in rest), ("h", ())]


def rectangle(x: float, y: float, width: float, height: float) -> Outline:
    """Returns a rectangle from its top left corner, inches."""
    return polygon([(x, y), (x + width, y), (x + width, y + height), (x, y + height)])


def circle(cx: float, cy: float, r: float) -> Outline:
    """Returns a circle of four cubics, inches."""
    return ellipse(cx, cy, r, r)


def ellipse(cx: float, cy: float, rx: float, ry: float) -> Outline:
    """Returns an upright ellipse of four cubics, inches."""
    kx, ky = KAPPA * rx, KAPPA * ry
    return [
        ("m", (cx + rx, cy)),
        ("c", (cx + rx, cy + ky, cx + kx, cy + ry, cx, cy + ry)),
        ("c", (cx - kx, cy + ry, cx - rx, cy + ky, cx - rx, cy)),
        ("c", (cx - rx, cy - ky, cx - kx, cy - ry, cx, cy - ry)),
        ("c", (cx + kx, cy - ry, cx + rx, cy - ky, cx + rx, cy)),
        ("h", ()),
    ]


def arc(cx: float, cy: float, r: float, start: float, end: float) -> Outline:
    """Returns an open circular arc; r in inches, degrees clockwise from 3 o'clock."""
    steps = max(1, math.ceil(abs(end - start) / 45))
    step = math.radians(end - start) / steps
    reach = 4 / 3 * math.tan(step / 4) * r
    a = math.radians(start)
    out: Outline = [("m", (cx + r * math.cos(a), cy + r * math.sin(a)))]
    for _ in range(steps):
        b = a + step
        x0, y0, x1, y1 = (
            cx + r * math.cos(a) - reach * math.sin(a),
            cy + r * math.sin(a) + reach * math.cos(a),
            cx + r * math.cos(b) + reach * math.sin(b),
            cy + r * math.sin(b) - reach * math.cos(b),
        )
        out.append(("c", (x0, y0, x1, y1, cx + r * math.cos(b), cy + r * math.sin(b))))
        a = b
    return out


def lancet(cx: float, base: float, width: float, spring: float) -> Outline:
    """Returns an equilateral lancet opening standing on y = base, springing spring above it."""
    left, right, y = cx - width / 2, cx + width / 2, base - spring
    rising = arc(right, y, width, 180, 240)
    falling = arc(left, y, width, 300, 360)
    return [
        ("m", (left, base)),
        ("l", (left, y)),
        *rising[1:],
        *falling[1:],
        ("l", (right, base)),
        ("h", ()),
    ]


def through(points: NDArray[np.float64]) -> Outline:
    """Returns an open smooth curve through points (n, 2): Catmull-Rom written as cubics."""
    p = np.vstack([points[:1], points, points[-1:]])
    first = p[1:-2] + (p[2:-1] - p[:-3]) / 6
    second = p[2:-1] - (p[3:] - p[1:-2]) / 6
    out: Outline = [("m", (float(points[0, 0]), float(points[0, 1])))]
    for a, b, end in zip(first, second, p[2:-1], strict=True):
        out.append(("c", tuple(float(v) for v in (*a, *b, *end))))
    return out


def ribbon(spine: NDArray[np.float64], half: NDArray[np.float64]) -> Outline:
    """Returns a swelling line: spine (n, 2) and its half width (n,), inches."""
    along = np.gradient(spine, axis=0)
    along /= np.maximum(np.hypot(along[:, :1], along[:, 1:]), 1e-12)
    across = np.stack([-along[:, 1], along[:, 0]], axis=1) * half[:, None]
    there, back = through(spine + across), through((spine - across)[::-1])
    return [*there, ("l", back[0][1]), *back[1:], ("h", ())]


def swelling(spine: NDArray[np.float64], half: NDArray[np.float64], least: float) -> list[Outline]:
    """Returns the ribbons left where a line thinner than twice least is not printed."""
    out: list[Outline] = []
    kept = np.flatnonzero(half >= least)
    for run in np.split(kept, np.flatnonzero(np.diff(kept) > 1) + 1):
        if len(run) < 3:
            continue
        width = half[run].copy()
        if run[0] > 0:
            width[0] = 0.0
        if run[-1] < len(half) - 1:
            width[-1] = 0.0
        out.append(ribbon(spine[run], width))
    return out
