"""Clean pages whose patterns run over the cut: dots, stripes, tiles, leaves, as designers draw them."""

from __future__ import annotations

import numpy as np
from pikepdf import Dictionary, Name

from tests.checks.bench.sheet import BLACK, CREAM, INK, Sheet

RUST = (0.2, 0.7, 0.8, 0.1)
MIST = (0.3, 0.15, 0.2, 0.0)


def title(sheet: Sheet, colour=INK) -> None:
    text = "Samphire Hard" if sheet.width > 3.5 else "Reply"
    half = 0.8 if sheet.width > 3.5 else 0.3
    sheet.outlined(sheet.width / 2 - half, sheet.height / 2, text, 22, colour)


def dots(radius, pitch, ground=None, colour=MIST):
    def draw(sheet: Sheet) -> None:
        if ground is not None:
            sheet.flood(ground)
        reach = 0.2
        for x in np.arange(-reach, sheet.width + reach, pitch):
            for y in np.arange(-reach, sheet.height + reach, pitch):
                sheet.circle(x, y, radius, colour)
        sheet.outlined(1.7, 3.55, "Samphire Hard", 22, BLACK)

    return draw


def clipped_dots(sheet: Sheet) -> None:
    sheet.clip_rect(-0.125, -0.125, sheet.width + 0.25, sheet.height + 0.25)
    dots(0.08, 0.35)(sheet)
    sheet.end()


def large_dots(sheet: Sheet) -> None:
    sheet.flood(CREAM)
    for x, y in ((0.1, 1.0), (5.05, 2.5), (0.0, 5.5), (2.5, 7.1), (4.9, 6.0), (3.5, -0.05)):
        sheet.circle(x, y, 0.45, MIST)
    title(sheet)


def stripes(vertical, pitch=0.3):
    def draw(sheet: Sheet) -> None:
        w, h = sheet.width, sheet.height
        for at in np.arange(-0.125, (w if vertical else h) + 0.125, pitch):
            thick = min(pitch / 2, (w if vertical else h) + 0.125 - at)
            if vertical:
                sheet.rect(at, -0.125, thick, h + 0.25, MIST)
            else:
                sheet.rect(-0.125, at, w + 0.25, thick, MIST)
        title(sheet)

    return draw


def checks(sheet: Sheet) -> None:
    sheet.flood(CREAM)
    for i, x in enumerate(np.arange(-0.125, 5.125, 0.2)):
        for j, y in enumerate(np.arange(-0.125, 7.125, 0.2)):
            if (i + j) % 2:
                sheet.rect(x, y, min(0.2, 5.125 - x), min(0.2, 7.125 - y), MIST)
    sheet.rect(1.3, 3.0, 2.4, 1.0, CREAM)
    title(sheet)


def tiled(sheet: Sheet) -> None:
    """A tiling pattern (ISO 32000-1 8.7.3) of small crosses over the whole page."""
    content = b".2 0 .1 0 k 4 2 2 6 re f 2 4 6 2 re f"
    about = Dictionary(
        Type=Name.Pattern, PatternType=1, PaintType=1, TilingType=1, BBox=[0, 0, 12, 12],
        XStep=12, YStep=12, Resources=Dictionary(),
    )  # fmt: skip
    tile = sheet.pdf.make_stream(content, about)
    sheet.resources.Pattern = Dictionary(P0=sheet.pdf.make_indirect(tile))
    sheet.ops.append("/Pattern cs /P0 scn -.125 -.125 5.25 7.25 re f")
    title(sheet, BLACK)


def confetti(sheet: Sheet) -> None:
    random = np.random.default_rng(11)
    for _ in range(700):
        x, y = random.uniform(-0.12, 5.12), random.uniform(-0.12, 7.12)
        if 1.2 < x < 3.8 and 2.8 < y < 4.2:
            continue
        angle, size = random.uniform(0, np.pi), random.uniform(0.03, 0.07)
        ends = np.array([(-1, -0.4), (1, -0.4), (1, 0.4), (-1, 0.4)]) * size
        turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
        sheet.polygon(ends @ turn + (x, y), (RUST, MIST, INK)[random.integers(3)])
    title(sheet)


def rays(sheet: Sheet) -> None:
    for angle in np.linspace(0, 2 * np.pi, 48, endpoint=False):
        direction = np.array([np.cos(angle), np.sin(angle)])
        sheet.line([np.array([2.5, 3.5]) + 1.4 * direction, np.array([2.5, 3.5]) + 6 * direction],
                   1.0, RUST)  # fmt: skip
    title(sheet)


def leaves(sheet: Sheet) -> None:
    """Sprigs that grow in from two corners, touching leaves that run off the card."""
    sheet.flood(CREAM)
    for corner, sense in (((0.0, 0.0), 1), ((5.0, 7.0), -1)):
        for k in range(9):
            angle = np.radians(5 + 10 * k)
            along = np.array([np.cos(angle), np.sin(angle)]) * sense
            across = np.array([-along[1], along[0]])
            t = np.linspace(0, np.pi, 24)
            side = [np.array(corner) - 0.2 * along + 1.2 * along * u / np.pi + across * 0.06 * np.sin(u)
                    for u in t]  # fmt: skip
            back = [np.array(corner) - 0.2 * along + 1.2 * along * u / np.pi - across * 0.06 * np.sin(u)
                    for u in t[::-1]]  # fmt: skip
            sheet.polygon([*side, *back], MIST)
    title(sheet)
