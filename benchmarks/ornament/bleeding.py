"""Art that is meant to be cut: flowers, sprigs, photographs, patterns, ornaments across the cut."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from benchmarks.ornament.drawing import Curve, Drawing

ROSE, BLUSH, LEAF, SAGE = (0.78, 0.35, 0.4), (0.93, 0.75, 0.72), (0.35, 0.5, 0.35), (0.6, 0.7, 0.58)
NAVY, GOLD, CREAM, WHITE = (0.12, 0.2, 0.35), (0.75, 0.6, 0.3), (0.98, 0.96, 0.9), (1.0, 1.0, 1.0)
INK = (0.15, 0.13, 0.12)


def title(d: Drawing, colour: tuple[float, float, float] = INK) -> None:
    """Sets harmless type in the middle of the card."""
    d.words(1.45, 3.4, "The Tide Mill Supper", 16, colour)
    d.words(1.75, 3.8, "at Samphire Hard", 12, colour)


def corner_flowers(d: Drawing) -> None:
    d.flood(CREAM)
    places = (
        (0.35, 0.4, 0.5), (1.0, 0.1, 0.35), (0.1, 1.05, 0.35), (4.7, 6.5, 0.5),
        (4.0, 6.9, 0.35), (4.95, 5.9, 0.3), (4.6, 0.2, 0.3), (0.25, 6.75, 0.28),
    )  # fmt: skip
    for x, y, r in places:
        for k in range(3):
            d.leaf(x, y, 0.8 + 2.1 * k, 1.5 * r, 0.2 * r, LEAF)
        d.flower(x, y, r, ROSE if r > 0.4 else BLUSH, turn=x)
    title(d)


def sprigs_short_of_bleed(d: Drawing) -> None:
    """Sprigs whose tips end between the cut and the bleed's end."""
    for y, tip in ((1.0, -0.06), (2.2, -0.03), (4.6, -0.08), (5.9, -0.04)):
        d.items.append(
            Curve([(1.1, y + 0.2), (0.7, y), (0.3, y + 0.1), (tip, y)], False, None, LEAF, 1.2)
        )
        for k, x in enumerate(np.linspace(0.1, 1.0, 7)):
            d.leaf(x, y + 0.08, -0.9 if k % 2 else 0.9, 0.25, 0.05, SAGE)
    title(d)


def floral_frame(d: Drawing) -> None:
    """Leaves all along the edges, some over the cut, some just inside, none to the bleed's end."""
    random = np.random.default_rng(4)
    for t in np.arange(0.1, 23.9, 0.22):
        out = random.uniform(-0.05, 0.25)
        x, y, a = _along(t, out)
        d.leaf(
            x, y, a + random.uniform(-0.6, 0.6), 0.3, 0.06, SAGE if random.random() < 0.6 else LEAF
        )
        if random.random() < 0.25:
            d.flower(x, y, 0.12, BLUSH, turn=t)
    title(d)


def _along(t: float, inside: float) -> tuple[float, float, float]:
    if t < 5:
        return t, inside, 0.3
    if t < 12:
        return 5 - inside, t - 5, np.pi / 2
    if t < 17:
        return 17 - t, 7 - inside, np.pi
    return inside, 24 - t, -np.pi / 2


def one_rose(d: Drawing) -> None:
    """One large rose of rings of petals, cropped by a corner."""
    d.flood(CREAM)
    for ring, r in enumerate((1.6, 1.25, 0.9, 0.55)):
        for k in range(7):
            shade = 0.9 - 0.12 * ring
            d.leaf(
                4.5, 6.4, 2 * np.pi * k / 7 + ring, r, 0.4 * r, (shade, 0.5 * shade, 0.5 * shade)
            )
    title(d)


def one_blossom_nipped(d: Drawing) -> None:
    """A spray at the top whose petals pass the cut by little."""
    d.flower(3.6, 0.22, 0.3, ROSE, 5)
    d.flower(3.1, 0.35, 0.25, BLUSH, 5, 0.4)
    d.flower(4.1, 0.3, 0.25, BLUSH, 5, 0.9)
    for k in range(5):
        d.leaf(3.6, 0.4, 0.4 + 0.6 * k, 0.6, 0.07, LEAF)
    title(d)


def photo(shape: tuple[int, int], seed: int = 3) -> np.ndarray:
    """A picture like a landscape, of a camera's grain."""
    random = np.random.default_rng(seed)
    y, x = np.linspace(0, 1, shape[0])[:, None, None], np.linspace(0, 1, shape[1])[None, :, None]
    base = 120 + 60 * np.sin(3 * y + np.array([0, 1, 2])) + 30 * np.sin(5 * x + 4 * y)
    return np.clip(base + random.normal(0, 8, (*shape, 3)), 5, 245).astype(np.uint8)


def photo_full(d: Drawing) -> None:
    d.picture(photo((2175, 1575)), -0.125, -0.125, 5.25, 7.25)
    title(d, WHITE)


def photo_top(d: Drawing) -> None:
    d.picture(photo((975, 1575), 5), -0.125, -0.125, 5.25, 3.25)
    d.words(1.45, 4.4, "The Tide Mill Supper", 16, INK)


def petals_in_pixels(side: int, seed: int, ground: int | None = 255) -> np.ndarray:
    """A painted flower: soft petals; on white, or on nothing where `ground` is None."""
    random = np.random.default_rng(seed)
    y, x = np.mgrid[0:side, 0:side] / side - 0.5
    angle, radius = np.arctan2(y, x), np.hypot(x, y)
    edge = 0.33 + 0.12 * np.cos(6 * angle + seed) + 0.02 * np.cos(17 * angle)
    alpha = np.clip((edge - radius) * side / 6, 0, 1)
    tone = 0.55 + 0.4 * radius + random.normal(0, 0.02, radius.shape)
    colour = np.clip(np.stack([tone + 0.3, tone * 0.6, tone * 0.7], axis=2), 0, 1) * 255
    if ground is None:
        return np.dstack([colour, alpha * 255]).astype(np.uint8)
    return (colour * alpha[..., None] + ground * (1 - alpha[..., None])).astype(np.uint8)


def painted_cutouts(d: Drawing) -> None:
    """Painted flowers with soft edges, laid over the edges of the card."""
    for k, (x, y, w) in enumerate(
        ((-0.1, 0.5, 1.0), (4.2, 1.8, 0.9), (-0.08, 5.2, 1.2), (4.1, 5.9, 1.0))
    ):
        d.picture(petals_in_pixels(round(w * 300), k, None), x, y, w, w)
    title(d)


def flattened_flowers(d: Drawing) -> None:
    """One flattened picture: painted flowers round the edge on white."""
    page = np.full((2175, 1575, 3), 255, np.uint8)
    for k, (left, top, side) in enumerate(((-150, 20, 420), (250, -160, 360), (1180, 1500, 500),
                                           (900, 1900, 380), (1300, 1100, 300), (30, 1800, 260),
                                           (1250, 60, 280))):  # fmt: skip
        flower = petals_in_pixels(side, k)
        y0, x0 = max(top, 0), max(left, 0)
        part = flower[y0 - top : 2175 - top, x0 - left : 1575 - left]
        view = page[y0 : y0 + part.shape[0], x0 : x0 + part.shape[1]]
        np.minimum(view, part[: view.shape[0], : view.shape[1]], out=view)
    d.picture(page, -0.125, -0.125, 5.25, 7.25)
    title(d)


def gingham(d: Drawing) -> None:
    for x in np.arange(-0.125, 5.1, 0.5):
        d.rect(x, -0.125, min(0.25, 5.125 - x), 7.25, (0.7, 0.8, 0.9), opacity=0.6)
    for y in np.arange(-0.125, 7.1, 0.5):
        d.rect(-0.125, y, 5.25, min(0.25, 7.125 - y), (0.7, 0.8, 0.9), opacity=0.6)
    d.rect(1.2, 3.0, 2.7, 1.0, WHITE)
    title(d)


def damask(d: Drawing) -> None:
    """A motif of leaves repeated over the page, whole motifs only."""
    d.flood(CREAM)
    for i, x in enumerate(np.arange(0.0, 5.2, 0.62)):
        for y in np.arange(0.0, 7.2, 0.8) + (0.4 if i % 2 else 0):
            for turn in (0.5, 1.57, 2.64, -1.57):
                d.leaf(x, y, turn, 0.22, 0.05, BLUSH)
    d.rect(1.2, 3.0, 2.7, 1.0, CREAM)
    title(d)


def scattered_stars(d: Drawing) -> None:
    d.flood(NAVY)
    random = np.random.default_rng(6)
    places = [(0.02, 1.2), (4.96, 2.3), (0.08, 4.8), (4.93, 5.6), (1.6, 0.05), (3.4, 6.96),
              (0.9, 0.8), (4.1, 1.0), (0.8, 5.9), (4.2, 6.2), (2.5, 1.2), (1.2, 2.4)]  # fmt: skip
    for x, y in places:
        r = random.uniform(0.05, 0.1)
        angles = np.arange(10) * np.pi / 5 + random.uniform(0, 1)
        radii = np.where(np.arange(10) % 2, 0.45 * r, r)
        d.path(
            [(x + q * np.cos(a), y + q * np.sin(a)) for q, a in zip(radii, angles, strict=True)],
            GOLD,
        )
    title(d, WHITE)


def branches(d: Drawing) -> None:
    """Bare branches drawn as strokes from the right edge, forking, some tips over the cut."""
    for y, end in ((1.0, 5.06), (1.5, 5.09), (6.2, 5.05)):
        d.items.append(
            Curve([(end, y), (4.6, y + 0.1), (4.2, y - 0.1), (3.6, y + 0.3)], False, None, INK, 2.0)
        )
        d.items.append(
            Curve([(4.4, y), (4.3, y + 0.2), (4.2, y + 0.4), (3.9, y + 0.6)], False, None, INK, 1.2)
        )
        for k in range(6):
            d.circle(3.7 + 0.2 * k, y + 0.25 - 0.04 * k, 0.035, ROSE)
    title(d)


def bunting(d: Drawing) -> None:
    """Pennants on a string right across the top, near the cut."""
    x = np.linspace(-0.125, 5.125, 15)
    y = 0.15 + 0.25 * np.sin(np.linspace(0, np.pi, 15))
    d.path(list(zip(x, y, strict=True)), None, closed=False, stroke=INK, width_pt=1.0)
    for k in range(14):
        d.path([(x[k], y[k]), (x[k + 1] - 0.05, y[k + 1]), ((x[k] + x[k + 1]) / 2, y[k] + 0.4)],
               (ROSE, SAGE, GOLD)[k % 3])  # fmt: skip
    title(d)


def pearls(d: Drawing) -> None:
    """A row of pearls along every edge, a hair inside the cut."""
    d.flood(CREAM)
    for t in np.arange(0.1, 24, 0.15):
        x, y, _ = _along(float(t), 0.1)
        d.circle(x, y, 0.04, GOLD)
    title(d)


def garland(d: Drawing) -> None:
    """Leaves seen through one another along the top, each tip ending where it ends."""
    random = np.random.default_rng(9)
    for x in np.linspace(-0.1, 5.1, 60):
        d.leaf(x, 0.25 + 0.1 * np.sin(3 * x), random.uniform(-2.6, -0.5), random.uniform(0.2, 0.42),
               0.05, (SAGE, LEAF, (0.5, 0.65, 0.6))[random.integers(3)], 0.7)  # fmt: skip
    title(d)


def feathers(d: Drawing) -> None:
    """Feathers standing on the lower edge, passing it by differing amounts."""
    for k, x in enumerate(np.linspace(0.3, 4.7, 9)):
        foot = 7.02 + 0.012 * k
        d.items.append(
            Curve([(x, foot), (x, 6.7), (x + 0.05, 6.3), (x + 0.1, 6.0)], False, None, NAVY, 0.8)
        )
        for j in range(12):
            y = foot - 0.15 - 0.07 * j
            d.leaf(x, y, -0.8, 0.2, 0.03, (0.55, 0.62, 0.72))
            d.leaf(x, y, -2.3, 0.2, 0.03, (0.55, 0.62, 0.72))
    title(d)


def brush_panel(d: Drawing) -> None:
    """A brushed patch of paint behind the type, its rough ends beyond both sides."""
    random = np.random.default_rng(2)
    ys = np.linspace(2.8, 4.2, 40)
    left = -0.06 + random.uniform(-0.06, 0.05, 40)
    right = 5.06 + random.uniform(-0.05, 0.06, 40)
    d.path([*zip(left, ys, strict=True), *zip(right[::-1], ys[::-1], strict=True)], BLUSH)
    title(d)


def waves(d: Drawing) -> None:
    for y in np.arange(5.2, 7.1, 0.18):
        points = [(-0.125, y)]
        for x in np.arange(-0.125, 5.1, 0.35):
            points += [(x + 0.1, y - 0.09), (x + 0.25, y + 0.09), (min(x + 0.35, 5.2), y)]
        d.items.append(Curve(points, False, None, (0.4, 0.55, 0.65), 1.0))
    title(d)


def corner_scrolls(d: Drawing) -> None:
    """Scrolls of a pen in the four corners, close to the cut."""
    for x, sx in ((0.0, 1), (5.0, -1)):
        for y, sy in ((0.0, 1), (7.0, -1)):
            for k in range(3):
                q = 0.09 + 0.05 * k
                points = [
                    (x + sx * q, y + sy * 1.1), (x + sx * (q - 0.04), y + sy * 0.5),
                    (x + sx * 0.5, y + sy * (q - 0.04)), (x + sx * 1.1, y + sy * q),
                ]  # fmt: skip
                d.items.append(Curve(points, False, None, GOLD, 1.0))
            d.circle(x + sx * 0.16, y + sy * 0.16, 0.05, GOLD)
    title(d)


def plain_type(d: Drawing) -> None:
    d.words(0.4, 0.6, "Samphire Hard", 20, INK)
    d.words(0.4, 6.7, "supper at eight", 12, INK)
    title(d)


def white_on_photo(d: Drawing) -> None:
    d.picture(photo((2175, 1575), 8), -0.125, -0.125, 5.25, 7.25)
    d.words(0.3, 6.6, "come by boat or by the causeway", 14, WHITE)
    title(d, WHITE)


def moon_and_hills(d: Drawing) -> None:
    d.flood((0.25, 0.3, 0.45))
    d.circle(4.6, 0.5, 0.7, (0.95, 0.92, 0.8))
    for k, colour in enumerate(((0.2, 0.25, 0.35), (0.15, 0.18, 0.28))):
        y = 5.2 + 0.7 * k
        points = [
            (-0.125, 7.125), (-0.125, y), (-0.125, y), (-0.125, y), (1.5, y - 0.8),
            (3.5, y + 0.7), (5.125, y - 0.3), (5.125, y), (5.125, 7.0), (5.125, 7.125),
        ]  # fmt: skip
        d.items.append(Curve(points, fill=colour))
    title(d, WHITE)


def monogram_cropped(d: Drawing) -> None:
    d.flood(CREAM)
    d.words(-0.9, 7.6, "&", 560, BLUSH)
    title(d)


def code_well_placed(d: Drawing) -> None:
    from tests.checks.bench.codes import modules

    d.flood(CREAM)
    d.rect(1.95, 4.9, 1.1, 1.1, WHITE)
    side = 0.9 / 25
    for row, column in np.argwhere(modules(25)):
        d.rect(2.05 + side * column, 5.0 + side * row, side, side, INK)
    title(d)


BLEEDING: dict[str, Callable[[Drawing], None]] = {
    each.__name__: each
    for each in (
        corner_flowers, sprigs_short_of_bleed, floral_frame, one_rose, one_blossom_nipped,
        photo_full, photo_top, painted_cutouts, flattened_flowers, gingham, damask,
        scattered_stars, branches, bunting, pearls, garland, feathers, brush_panel, waves,
        corner_scrolls, plain_type, white_on_photo, moon_and_hills, monogram_cropped,
        code_well_placed,
    )
}  # fmt: skip
