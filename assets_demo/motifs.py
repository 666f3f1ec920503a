"""The suite's figures: the moon's phases, the wheel in the moon, the mill and its reeds."""

from __future__ import annotations

import math

import numpy as np
from curves import Outline, arc, circle, lancet, polygon, rectangle
from palette import INK, MIST, OAT, RUST, Ink
from pdf import Page
from water import FINE_REVERSED_PT


def lit_part(cx: float, cy: float, r: float, share: float, side: int) -> Outline:
    """Returns the lit part of a moon: share 0 new .. 1 full, side +1 lit right, -1 lit left."""
    limb = arc(cx, cy, r, -90, 90) if side > 0 else arc(cx, cy, r, -90, -270)
    bulge = side * r * (1 - 2 * share)
    k = 4 / 3 * (math.sqrt(2) - 1)
    return [
        *limb,
        ("c", (cx + k * bulge, cy + r, cx + bulge, cy + k * r, cx + bulge, cy)),
        ("c", (cx + bulge, cy - k * r, cx + k * bulge, cy - r, cx, cy - r)),
        ("h", ()),
    ]


def phase(page: Page, cx: float, cy: float, r: float, share: float, side: int, ink: Ink) -> None:
    """Draws a moon phase: the lit part solid, the dark part its edge alone."""
    page.stroke([circle(cx, cy, r)], ink, 0.5)
    if share > 0:
        page.fill([lit_part(cx, cy, r, share, side)], ink)


def wheel(cx: float, cy: float, r: float, floats: int) -> list[Outline]:
    """Returns a mill wheel of outer radius r as open strokes: two rims, spokes and floats."""
    out = [circle(cx, cy, 0.80 * r), circle(cx, cy, 0.66 * r), circle(cx, cy, 0.13 * r)]
    for i in range(floats):
        a = 2 * math.pi * i / floats
        c, s = math.cos(a), math.sin(a)
        out.append([("m", (cx + 0.66 * r * c, cy + 0.66 * r * s)), ("l", (cx + r * c, cy + r * s))])
        if i % 2 == 0:
            inner = (cx + 0.13 * r * c, cy + 0.13 * r * s)
            out.append([("m", inner), ("l", (cx + 0.66 * r * c, cy + 0.66 * r * s))])
    return out


def wheel_moon(page: Page, cx: float, cy: float, r: float, disc: Ink, lines: Ink) -> None:
    """Draws the suite's mark: a full moon with the mill wheel drawn in it."""
    page.fill([circle(cx, cy, r)], disc)
    page.stroke(wheel(cx, cy, 0.86 * r, 24), lines, 1.5 * r / 0.42)


def mill(page: Page, x: float, water: float, s: float) -> None:
    """Draws the mill on the water line: x its middle, s its scale (1: about 1.5 in long)."""

    def at(points: list[tuple[float, float]]) -> Outline:
        return polygon([(x + px * s, water - py * s) for px, py in points])

    walls = [(-0.50, 0.0), (-0.50, 0.46), (0.46, 0.46), (0.46, 0.0)]
    roof = [
        (-0.545, 0.445),
        (-0.455, 0.60),
        (-0.33, 0.68),
        (0.29, 0.68),
        (0.415, 0.60),
        (0.505, 0.445),
    ]
    lucam = [(-0.115, 0.40), (-0.115, 0.665), (-0.02, 0.80), (0.075, 0.665), (0.075, 0.40)]
    chimney = [(0.185, 0.66), (0.185, 0.79), (0.24, 0.79), (0.24, 0.66)]
    page.fill([at(shape) for shape in (walls, roof, lucam, chimney)], INK)
    _boards(page, x, water, s)
    page.fill([at([(-0.525, 0.445), (-0.525, 0.456), (0.485, 0.456), (0.485, 0.445)])], OAT)
    eaves = [(-0.145, 0.645), (-0.02, 0.815), (0.105, 0.645)]
    left, top, right = [(x + px * s, water - py * s) for px, py in eaves]
    page.stroke([[("m", left), ("l", top), ("l", right)]], OAT, 1.95 * s)
    page.stroke([[("m", left), ("l", top), ("l", right)]], INK, 0.8 * s)
    _granary(page, x - 0.72 * s, water, s)
    _windows(page, x, water, s)
    openings = [lancet(x + px * s, water, 0.15 * s, 0.05 * s) for px in (-0.36, -0.13, 0.10, 0.33)]
    page.fill(openings, OAT)
    _standing_wheel(page, x + 0.66 * s, water, s)


def _boards(page: Page, x: float, water: float, s: float) -> None:
    """Weatherboards: the walls cut by level lines of paper, the suite's water again."""
    heights = np.arange(0.225, 0.44, 0.036).tolist()
    rows = [
        [("m", (x - 0.50 * s, water - h * s)), ("l", (x + 0.46 * s, water - h * s))]
        for h in heights
    ]
    page.stroke(rows, OAT, FINE_REVERSED_PT)


def _granary(page: Page, x: float, water: float, s: float) -> None:
    gable = [(-0.20, 0.0), (-0.20, 0.26), (0.0, 0.46), (0.20, 0.26), (0.20, 0.0)]
    page.fill([polygon([(x + px * s, water - py * s) for px, py in gable])], INK)
    eaves = [(-0.235, 0.235), (0.0, 0.475), (0.235, 0.235)]
    left, top, right = [(x + px * s, water - py * s) for px, py in eaves]
    page.stroke([[("m", left), ("l", top), ("l", right)]], OAT, 2.25 * s)
    page.stroke([[("m", left), ("l", top), ("l", right)]], INK, 1.1 * s)
    page.fill([circle(x, water - 0.29 * s, 0.032 * s)], RUST)
    page.fill([lancet(x, water - 0.0 * s, 0.10 * s, 0.085 * s)], OAT)


def _windows(page: Page, x: float, water: float, s: float) -> None:
    w, h = 0.062 * s, 0.088 * s
    places = (-0.43, -0.30, -0.17, 0.13, 0.26, 0.39)
    frames, panes = [], []
    for px in places:
        left, top = x + px * s - w / 2, water - 0.385 * s
        frames.append(rectangle(left - 0.014 * s, top - 0.014 * s, w + 0.028 * s, h + 0.028 * s))
        panes.append(rectangle(left, top, w, h))
    page.fill(frames, INK)
    page.fill([panes[i] for i in (0, 2, 3, 4)], RUST)
    page.fill([panes[i] for i in (1, 5)], MIST)
    door = rectangle(x - 0.055 * s, water - 0.60 * s, 0.07 * s, 0.125 * s)
    page.fill([door], RUST)


def _standing_wheel(page: Page, x: float, water: float, s: float) -> None:
    """The wheel at the mill's end, in the water to a third of its height."""
    r = 0.235 * s
    page.clip(rectangle(x - 2 * r, water - 3 * r, 4 * r, 3 * r))
    page.stroke(wheel(x, water - 0.40 * r, r, 16), INK, 0.85 * s)
    page.unclip()


def far_shore(page: Page, water: float, left: float, right: float, ink: Ink) -> None:
    """Draws the low land behind the creek: long swelling shapes on the water line."""
    t = np.linspace(0, 1, 60)
    for x0, x1, height in ((left - 1.2, left + 2.4, 0.15), (2.75, right + 1.3, 0.12)):
        xs = x0 + (x1 - x0) * t
        top = water - height * np.sin(np.pi * t) ** 1.3 * (0.8 + 0.2 * np.sin(11 * t + x0))
        edge = list(zip(xs.tolist(), top.tolist(), strict=True))
        page.fill([polygon([*edge, (x1, water), (x0, water)])], ink)


def lugger(page: Page, x: float, y: float, s: float) -> None:
    """Draws a small sailing boat, x the mast, y the water, s the height of the mast in inches."""

    def at(*points: float) -> tuple[float, ...]:
        return tuple(v * s + (x, y)[i % 2] for i, v in enumerate(points))

    hull: Outline = [
        ("m", at(-0.46, -0.16)),
        ("c", at(-0.20, -0.09, 0.22, -0.08, 0.52, -0.19)),
        ("c", at(0.46, -0.06, 0.40, 0.0, 0.30, 0.0)),
        ("l", at(-0.34, 0.0)),
        ("c", at(-0.42, -0.02, -0.46, -0.08, -0.46, -0.16)),
        ("h", ()),
    ]
    sail: Outline = [
        ("m", at(-0.17, -0.80)),
        ("l", at(0.27, -1.06)),
        ("c", at(0.38, -0.72, 0.44, -0.46, 0.43, -0.25)),
        ("c", at(0.20, -0.17, 0.02, -0.18, -0.17, -0.24)),
        ("c", at(-0.12, -0.42, -0.12, -0.62, -0.17, -0.80)),
        ("h", ()),
    ]
    page.stroke([[("m", at(0.02, -0.12)), ("l", at(0.02, -1.04))]], INK, 2.4 * s)
    page.fill([sail], RUST)
    page.fill([hull], INK)
