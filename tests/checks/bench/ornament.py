"""Clean pages of ornament that crosses the cut or ends near it, and of white and codes done well."""

from __future__ import annotations

import numpy as np

from tests.checks.bench.case import Case
from tests.checks.bench.faults_ink import line_art, matrix
from tests.checks.bench.sheet import CREAM, INK, WHITE, Sheet

RUST = (0.2, 0.7, 0.8, 0.1)
LEAF = (0.5, 0.2, 0.6, 0.1)


def _title(sheet: Sheet, colour=INK) -> None:
    sheet.outlined(1.7, 3.6, "Samphire Hard", 22, colour)


def petals(sheet: Sheet, x, y, radius, count=5, turn=0.0, colour=RUST) -> None:
    """Draws petals round a heart, each a closed path."""
    for k in range(count):
        angle = turn + 2 * np.pi * k / count
        t = np.linspace(0, np.pi, 20)
        along = np.stack([np.cos(angle) * np.ones(20), np.sin(angle) * np.ones(20)], axis=1)
        across = np.stack([-along[:, 1], along[:, 0]], axis=1)
        reach = (radius * t / np.pi)[:, None] * along
        wide = (0.25 * radius * np.sin(t))[:, None] * across
        leaf = np.concatenate([reach + wide, (reach - wide)[::-1]])
        sheet.polygon(leaf + np.array([x, y]), colour)
    sheet.circle(x, y, 0.12 * radius, INK)


def flowers_nipped(sheet: Sheet) -> None:
    """Flowers along the edges whose petals end between the cut and the bleed's end."""
    sheet.flood(CREAM)
    for x, y in ((0.25, 1.0), (4.75, 2.2), (0.22, 5.0), (4.8, 5.6), (2.0, 0.24), (3.1, 6.78)):
        petals(sheet, x, y, 0.33, turn=x + y)
    _title(sheet)


def spray_nipped(sheet: Sheet) -> None:
    """One spray of flowers and leaves at the top, cut a little."""
    for x, y, r in ((3.5, 0.2, 0.3), (3.15, 0.3, 0.24), (3.9, 0.3, 0.24)):
        petals(sheet, x, y, r, turn=x)
    for k in range(5):
        petals(sheet, 3.5 + 0.1 * k, 0.5, 0.2, 3, 0.3 * k, LEAF)
    _title(sheet)


def wreath_inside(sheet: Sheet) -> None:
    """Leaves all round, 0.03 to 0.12 in inside the cut: told as a note, no more."""
    random = np.random.default_rng(3)
    for t in np.arange(0.2, 23.8, 0.3):
        inside = random.uniform(0.2, 0.32)
        x, y = _along(float(t), inside)
        petals(sheet, x, y, 0.16, 3, t, LEAF)
    _title(sheet)


def _along(t: float, inside: float) -> tuple[float, float]:
    if t < 5:
        return t, inside
    if t < 12:
        return 5 - inside, t - 5
    if t < 17:
        return 17 - t, 7 - inside
    return inside, 24 - t


def stars(sheet: Sheet) -> None:
    """A few stars of one ink, three of them over the cut by little."""
    sheet.flood(INK)
    for x, y, r in ((0.03, 1.2, 0.09), (4.95, 3.0, 0.1), (2.2, 6.95, 0.08), (1.0, 1.0, 0.1),
                    (4.0, 5.5, 0.08), (0.7, 6.0, 0.07)):  # fmt: skip
        angles = np.arange(10) * np.pi / 5
        radii = np.where(np.arange(10) % 2, 0.45 * r, r)
        sheet.polygon(np.stack([x + radii * np.cos(angles), y + radii * np.sin(angles)], 1), CREAM)
    _title(sheet, WHITE)


def brushed_panel(sheet: Sheet) -> None:
    """A patch of paint behind the type, its rough ends a little beyond both sides."""
    random = np.random.default_rng(2)
    y = np.linspace(3.0, 4.2, 40)
    left, right = -0.06 + random.uniform(-0.06, 0.05, 40), 5.06 + random.uniform(-0.05, 0.06, 40)
    sheet.polygon([*zip(left, y, strict=True), *zip(right[::-1], y[::-1], strict=True)], RUST)
    _title(sheet, WHITE)


def tilted_photo(sheet: Sheet) -> None:
    """A picture laid askew across a corner, ending where it ends."""
    pixels = np.random.default_rng(1).integers(60, 160, (600, 600, 4)).astype(np.uint8) // 2
    sheet.ops.append("q .94 .342 -.342 .94 3.5 4.9 cm")
    sheet.image(pixels, 0.0, 0.0, 1.3, 1.3)
    sheet.end()
    _title(sheet)


def code_well(sheet: Sheet) -> None:
    matrix(2.0, 5.0, 0.9)(sheet)
    _title(sheet)


def code_in_picture(sheet: Sheet) -> None:
    matrix(2.0, 5.0, 0.8, as_image=True)(sheet)
    _title(sheet)


def white_well(sheet: Sheet) -> None:
    """White type on a flood, a white panel that knocks out, a spot that is no white ink."""
    sheet.flood(INK)
    sheet.rect(1.0, 5.0, 3.0, 0.6, WHITE)
    sheet.rect(1.0, 1.0, 3.0, 0.6, "White gold")
    _title(sheet, WHITE)


def line_art_well(sheet: Sheet) -> None:
    line_art(1200, None)(sheet)
    _title(sheet)


CLEAN = [
    Case("clean-flowers-nipped", flowers_nipped),
    Case("clean-spray-nipped", spray_nipped),
    Case("clean-spray-ellipse", spray_nipped, die="scalloped-edge"),
    Case("clean-wreath-inside", wreath_inside),
    Case("clean-stars-cut", stars),
    Case("clean-brushed-panel", brushed_panel),
    Case("clean-photo-askew", tilted_photo),
    Case("clean-code", code_well),
    Case("clean-code-in-picture", code_in_picture),
    Case("clean-white", white_well),
    Case("clean-line-art", line_art_well),
]
