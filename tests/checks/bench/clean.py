"""Pages without a fault, many of them hard: nothing of severity warn or above may be said."""

from __future__ import annotations

import numpy as np
from pikepdf import Dictionary, Name

from tests.checks.bench.case import Case, die_polygon
from tests.checks.bench.faults_cut import photo as photo_rgb
from tests.checks.bench.patterns import (
    MIST,
    RUST,
    checks,
    clipped_dots,
    confetti,
    dots,
    large_dots,
    leaves,
    rays,
    stripes,
    tiled,
    title,
)
from tests.checks.bench.sheet import BLACK, CREAM, INK, WHITE, Sheet, path


def photo(shape, seed=3) -> np.ndarray:
    """A photograph as CMYK, well under 320 % of ink."""
    rgb = photo_rgb(shape, seed)
    return np.dstack([(255 - rgb) * 0.8, np.full(shape, 10)]).astype(np.uint8)


def plain(sheet: Sheet) -> None:
    title(sheet)


def live(sheet: Sheet) -> None:
    sheet.flood(CREAM)
    sheet.live_type(1.0, 3.0, "Fiddles in the grain loft", 14, BLACK)


def dark(sheet: Sheet) -> None:
    sheet.flood(INK)
    title(sheet, WHITE)


def dark_live(sheet: Sheet) -> None:
    sheet.flood(INK)
    sheet.live_type(1.0, 3.0, "Fiddles in the grain loft", 14, WHITE)


def bleeding_photo(sheet: Sheet) -> None:
    w, h = sheet.width + 0.25, sheet.height + 0.25
    sheet.image(photo((round(h * 300), round(w * 300))), -0.125, -0.125, w, h)
    title(sheet, WHITE)


def photo_with_sky(sheet: Sheet) -> None:
    """Sky blown out to white, a dark shore with posts, all running off."""
    pixels = photo((2175, 1575))
    pixels[:900] = 0
    random = np.random.default_rng(5)
    for x in random.integers(0, 1560, 60):
        pixels[900 - random.integers(20, 300) : 900, x : x + random.integers(3, 14)] = 190
    sheet.image(pixels, -0.125, -0.125, 5.25, 7.25)


def clipped_photo(sheet: Sheet) -> None:
    sheet.clip_rect(-0.125, -0.125, 5.25, 3.0)
    sheet.image(photo((1200, 1800)), -0.4, -0.4, 6.0, 4.0)
    sheet.end()
    title(sheet)


def frame(inset, width_pt=1.0, flood=None):
    def draw(sheet: Sheet) -> None:
        if flood is not None:
            sheet.flood(flood)
        w, h = sheet.width - inset, sheet.height - inset
        sheet.line([(inset, inset), (w, inset), (w, h), (inset, h)], width_pt, RUST, closed=True)
        title(sheet, WHITE if flood == INK else INK)

    return draw


def frame_along_die(die, inset, parameters=None):
    def draw(sheet: Sheet) -> None:
        case = Case("", draw, (sheet.width, sheet.height), die, parameters or {})
        line = die_polygon(case).buffer(-inset, quad_segs=64).exterior
        sheet.flood(CREAM)
        sheet.line(np.asarray(line.coords)[:-1], 1.0, RUST, closed=True)
        title(sheet)

    return draw


def bleeding_frame(sheet: Sheet) -> None:
    w, h = sheet.width, sheet.height
    sheet.colour(RUST)
    outer = path(
        [(-0.125, -0.125), (w + 0.125, -0.125), (w + 0.125, h + 0.125), (-0.125, h + 0.125)]
    )
    inner = path([(0.2, 0.2), (w - 0.2, 0.2), (w - 0.2, h - 0.2), (0.2, h - 0.2)])
    sheet.ops.append(f"{outer} {inner} f*")
    title(sheet)


def monogram(sheet: Sheet) -> None:
    sheet.flood(CREAM)
    sheet.outlined(-1.0, 6.0, "&", 700, MIST)
    sheet.outlined(1.7, 6.6, "Samphire", 18, INK)


def hills(sheet: Sheet) -> None:
    sheet.flood((0.2, 0.05, 0.05, 0.0))
    x = np.linspace(-0.125, 5.125, 200)
    for k, colour in enumerate((MIST, (0.5, 0.3, 0.3, 0.1), INK)):
        y = 4.6 + 0.8 * k + 0.25 * np.sin(1.5 * x + k)
        sheet.polygon([*zip(x, y, strict=True), (5.125, 7.125), (-0.125, 7.125)], colour)
    title(sheet)


def engraved(sheet: Sheet) -> None:
    """Fine level lines right off the bottom, as engraved water: on paper, the gaps are paper."""
    random = np.random.default_rng(2)
    for y in np.arange(5.0, 7.125, 0.035):
        x = np.linspace(-0.14, 5.14, 60)
        thick = 0.008 + 0.006 * random.random(60)
        wave = y + 0.004 * np.sin(9 * x + y)
        sheet.polygon(
            [*zip(x, wave - thick, strict=True), *zip(x[::-1], (wave + thick)[::-1], strict=True)],
            INK,
        )
    title(sheet)


def shading(sheet: Sheet) -> None:
    sheet.resources.Shading = Dictionary(
        Sh0=Dictionary(
            ShadingType=2, ColorSpace=Name.DeviceCMYK, Coords=[0, -0.125, 0, 7.125],
            Function=Dictionary(FunctionType=2, Domain=[0, 1], C0=[0.6, 0.2, 0.1, 0], C1=[0, 0, 0, 0], N=1),
            Extend=[True, True],
        )
    )  # fmt: skip
    sheet.ops.append("q -.125 -.125 5.25 7.25 re W n /Sh0 sh Q")
    title(sheet)


def soft_image(sheet: Sheet) -> None:
    """A wash that fades out before the middle, running off two sides."""
    y, x = np.mgrid[0:900, 0:900] / 900
    mask = (np.clip(1 - np.hypot(x, y), 0, 1) * 200).astype(np.uint8)
    sheet.image(photo((900, 900)), -0.125, -0.125, 3.0, 3.0, mask)
    title(sheet)


def marks_outside(sheet: Sheet) -> None:
    """Printer's marks where they belong, outside the bleed, on a larger page."""
    sheet.flood(CREAM)
    w, h, near, far = sheet.width, sheet.height, 0.15, 0.4
    for x in (0.0, w):
        for y0, y1 in ((-far, -near), (h + near, h + far)):
            sheet.line([(x, y0), (x, y1)], 0.25, BLACK)
    for y in (0.0, h):
        for x0, x1 in ((-far, -near), (w + near, w + far)):
            sheet.line([(x0, y), (x1, y)], 0.25, BLACK)
    title(sheet)


def foil(sheet: Sheet) -> None:
    sheet.flood(CREAM)
    sheet.outlined(1.7, 3.6, "Samphire Hard", 22, "Gold foil")
    sheet.line([(1.5, 4.0), (3.5, 4.0)], 1.0, "Gold foil")


def art_layer(sheet: Sheet) -> None:
    sheet.begin_layer("Artwork")
    sheet.flood(CREAM)
    title(sheet)
    sheet.end_layer()


def hidden_behind(sheet: Sheet) -> None:
    """A caption under the flood that covers it: nobody sees it."""
    sheet.outlined(0.05, 3.0, "draft of spring", 12, BLACK)
    sheet.flood(CREAM)
    title(sheet)


def just_clear(sheet: Sheet) -> None:
    """Type exactly on the safe margin, with a hair more."""
    from tests.checks.bench.sheet import outlines

    _, box = outlines(0, 0, "Skiffs at noon", 12)
    sheet.outlined(0.128 - box[0], 3.0, "Skiffs at noon", 12, INK)
    sheet.outlined(sheet.width - 0.128 - box[2], 5.0, "Skiffs at noon", 12, INK)


def two_tiles(sheet: Sheet) -> None:
    """Two floods side by side, meeting in the middle of the card."""
    sheet.rect(-0.125, -0.125, 2.625, 7.25, CREAM)
    sheet.rect(2.5, -0.125, 2.625, 7.25, INK)
    sheet.outlined(0.5, 3.5, "Samphire", 18, INK)


def band(sheet: Sheet) -> None:
    sheet.rect(-0.125, 5.0, sheet.width + 0.25, 1.0, RUST)
    sheet.line([(-0.125, 4.9), (sheet.width + 0.125, 4.9)], 1.0, RUST)
    title(sheet)


def cropped_headline(sheet: Sheet) -> None:
    """A very large word that runs off left, right and below, as headlines are cropped."""
    sheet.flood(CREAM)
    sheet.live_type(-0.35, 7.1, "Supper", 165, (0.3, 0.15, 0.2, 0.0))
    sheet.outlined(-0.3, 1.2, "Tide", 200, MIST)
    sheet.outlined(1.7, 4.0, "Samphire", 18, INK)


def splashes(sheet: Sheet) -> None:
    """A scanned wash with drops all round, on white, some running off."""
    random = np.random.default_rng(8)
    pixels = np.zeros((2175, 1575, 4), np.uint8)
    for _ in range(90):
        edge = random.integers(4)
        along, off = random.random(), random.normal(0, 0.09)
        cx = (along * 5, along * 5, off, 5 + off)[edge]
        cy = (off, 7 + off, along * 7, along * 7)[edge]
        radius = random.uniform(0.02, 0.09)
        left, top = (max(0, int(300 * (c - radius + 0.125))) for c in (cx, cy))
        near = pixels[top : top + 60, left : left + 60]  # a window as large as the largest drop
        y, x = np.mgrid[top : top + near.shape[0], left : left + near.shape[1]] / 300 - 0.125
        near[np.hypot(x - cx, y - cy) < radius] = (120, 60, 40, 10)
    sheet.image(pixels, -0.125, -0.125, 5.25, 7.25)
    title(sheet)


def scanned_letter(sheet: Sheet) -> None:
    """A flattened card: type in the picture, well clear, on an even ground."""
    pixels = np.full((2175, 1575, 4), (10, 15, 30, 0), np.uint8)
    random = np.random.default_rng(4)
    for row in range(8):
        left = 300
        while left < 1200:
            width = int(random.integers(8, 24))
            pixels[700 + 90 * row : 740 + 90 * row, left : left + width] = (180, 140, 60, 60)
            left += width + 10
    sheet.image(pixels, -0.125, -0.125, 5.25, 7.25)


def diagonal(sheet: Sheet) -> None:
    sheet.clip_rect(-0.125, -0.125, 5.25, 7.25)
    for x in np.arange(-8, 6, 0.22):
        sheet.polygon([(x, -0.2), (x + 0.09, -0.2), (x + 7.6, 7.3), (x + 7.5, 7.3)], MIST)
    sheet.end()
    sheet.rect(1.2, 3.0, 2.6, 1.0, CREAM)
    title(sheet)


def lace(sheet: Sheet) -> None:
    """Half circles in a row along the bottom, rising from a band that runs off."""
    sheet.rect(-0.125, 6.7, 5.25, 0.425, RUST)
    for x in np.arange(-0.125, 5.2, 0.25):
        sheet.circle(x, 6.7, 0.125, RUST)
        sheet.circle(x, 6.78, 0.03, WHITE)
    title(sheet)


def map_lines(sheet: Sheet) -> None:
    """A map: roads and a river that run off, names well inside."""
    sheet.flood((0.1, 0.02, 0.15, 0.0))
    t = np.linspace(0, 1, 60)
    for k in range(7):
        x, y = -0.2 + 5.4 * t, 0.6 + 0.9 * k + 0.3 * np.sin(4 * t + k)
        sheet.line(np.stack([x, y], axis=1), 2.0, WHITE, cap=1)
        sheet.line(np.stack([0.4 + 0.7 * k + 0.2 * np.sin(5 * t + k), -0.2 + 7.4 * t], axis=1), 2.0,
                   WHITE, cap=1)  # fmt: skip
    sheet.outlined(1.7, 3.6, "Samphire Hard", 14, INK)


CLEAN = [
    Case("clean-headline-cropped", cropped_headline),
    Case("clean-splashes", splashes),
    Case("clean-flattened", scanned_letter),
    Case("clean-diagonal", diagonal),
    Case("clean-lace", lace),
    Case("clean-map", map_lines),
    Case("clean-map-scallop", map_lines, die="scalloped-edge"),
    Case("clean-hills-wavy", hills, die="wavy-edge"),
    Case("clean-leaves-ogee", leaves, die="ogee-arch"),
    Case("clean-plain", plain),
    Case("clean-live", live),
    Case("clean-dark-flood", dark),
    Case("clean-dark-live", dark_live),
    Case("clean-photo", bleeding_photo),
    Case("clean-photo-ellipse", bleeding_photo, die="ellipse"),
    Case("clean-photo-sky", photo_with_sky),
    Case("clean-photo-clipped", clipped_photo),
    Case("clean-border", frame(0.25)),
    Case("clean-border-near", frame(0.1)),
    Case("clean-border-near-dark", frame(0.09, 2.0, INK)),
    Case("clean-border-lancet", frame_along_die("lancet-arch", 0.1), die="lancet-arch"),
    Case("clean-border-ellipse", frame_along_die("ellipse", 0.15), die="ellipse"),
    Case("clean-border-scallop", frame_along_die("scalloped-edge", 0.1), die="scalloped-edge"),
    Case("clean-border-bleeding", bleeding_frame),
    Case("clean-dots", dots(0.05, 0.3)),
    Case("clean-dots-on-flood", dots(0.03, 0.18, INK)),
    Case("clean-dots-clipped", clipped_dots),
    Case("clean-dots-scallop", dots(0.05, 0.27, CREAM), die="scalloped-edge"),
    Case("clean-dots-large", large_dots),
    Case("clean-stripes", stripes(True)),
    Case("clean-stripes-level", stripes(False)),
    Case("clean-stripes-fine", stripes(False, 0.08)),
    Case("clean-checks", checks),
    Case("clean-tiled", tiled),
    Case("clean-confetti", confetti),
    Case("clean-rays", rays),
    Case("clean-leaves", leaves),
    Case("clean-monogram", monogram),
    Case("clean-hills", hills),
    Case("clean-hills-lancet", hills, die="lancet-arch"),
    Case("clean-engraved", engraved),
    Case("clean-shading", shading),
    Case("clean-soft-image", soft_image),
    Case("clean-marks-outside", marks_outside, sheet={"bleed": 0.5}),
    Case("clean-foil", foil, finishes=("foil",)),
    Case("clean-art-layer", art_layer),
    Case("clean-hidden-behind", hidden_behind),
    Case("clean-just-clear", just_clear),
    Case("clean-two-tiles", two_tiles),
    Case("clean-band", band),
    Case("clean-metric", dark, (4.1339, 5.8268), bleed=3 / 25.4, sheet={"bleed": 3 / 25.4}),
    Case("clean-ticket", dark, (4.875, 3.5), die="ticket-corner", parameters={"radius": 0.5}),
    Case("clean-tag", dark, (2.0, 3.5), die="tag"),
]
