"""Pages that would print badly: fonts, small type, thin lines, pictures, type at the cut, bleed."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

import shapely

from benchmarks.art.clean import SIZES, page
from benchmarks.art.scene import (
    BLACK,
    CREAM,
    INK,
    RUST,
    WHITE,
    Scene,
    box,
    polyline,
    text_box,
)
from mockup.checks.finding import Severity
from tests.checks.bench.case import Fault

Draw = Callable[[Random], tuple[Scene, list[Fault]]]
SAID = ("come in on the ebb", "Wool and stout shoes", "Beds at the granary")


def not_embedded(random: Random) -> tuple[Scene, list[Fault]]:
    scene = page(random)
    x, y, said = scene.width * 0.2, scene.height * 0.7, random.choice(SAID)
    scene.text(x, y, said, 11.0, BLACK, "standard")
    return scene, [Fault("font", shapely.box(*text_box(x, y, said, 11)), least=Severity.STOP)]


def small_live(reversed_: bool) -> Draw:
    """Returns a page with live type too small."""

    def draw(random: Random) -> tuple[Scene, list[Fault]]:
        scene = page(random, INK if reversed_ else CREAM)
        if reversed_:
            scene.marks = scene.marks[:1]
            scene.title(WHITE)
        x, y, said = scene.width * 0.2, scene.height * 0.7, random.choice(SAID)
        size = random.choice((6.0, 6.5, 7.0) if reversed_ else (3.0, 4.0, 5.0))
        scene.text(x, y, said, size, WHITE if reversed_ else BLACK)
        place = shapely.box(*text_box(x, y, said, size))
        return scene, [Fault("small-type", place, size, 0.06)]

    return draw


def small_outlined(sizes) -> Draw:
    """Returns a page with outlined type too small."""

    def draw(random: Random) -> tuple[Scene, list[Fault]]:
        scene, size = page(random), random.choice(sizes)
        x, y = scene.width * 0.2, scene.height * 0.7
        ink = scene.outlined(x, y, random.choice(SAID), size, BLACK)
        return scene, [Fault("small-type", shapely.box(*ink), size, max(1.0, size * 0.25))]

    return draw


def thin_line(filled: bool) -> Draw:
    """Returns a page with a line too thin, stroked or filled."""

    def draw(random: Random) -> tuple[Scene, list[Fault]]:
        scene, width = page(random), random.choice((0.08, 0.1, 0.15))
        y, right = scene.height * 0.65, scene.width - 0.8
        if filled:
            scene.path(box(0.8, y, right, y + width / 72), fill=BLACK)
        else:
            scene.path(polyline([(0.8, y), (right, y)], False), stroke=BLACK, width_pt=width)
        line = shapely.LineString([(0.8, y), (right, y)])
        return scene, [Fault("hairline", line, width, 0.02)]

    return draw


def low_picture(random: Random) -> tuple[Scene, list[Fault]]:
    scene = page(random)
    ppi = random.choice((72, 100, 130, 180))
    scene.image(1.0, 0.8, 2.0, 1.5, ppi)
    least = Severity.STOP if ppi < 149 else Severity.WARN
    return scene, [Fault("resolution", (1.0, 0.8), float(ppi), 2.0, least)]


def type_over_the_cut(outlined: bool) -> Draw:
    """Returns a page with a line of type over the cut, or too near it."""

    def draw(random: Random) -> tuple[Scene, list[Fault]]:
        scene, said = page(random), random.choice(SAID)
        y = scene.height * random.choice((0.3, 0.75))
        x = random.choice((-0.12, -0.06, 0.03))
        put = scene.outlined if outlined else scene.text
        put(x, y, said, 12.0, BLACK)
        place = shapely.box(-0.3, y - 0.25, 0.3, y + 0.1)
        return scene, [Fault("safe", place, None)]

    return draw


def bleed_missing(sides) -> Draw:
    """Returns a page whose ground ends at the trim, or short of the bleed, on some sides."""

    def draw(random: Random) -> tuple[Scene, list[Fault]]:
        width, height = random.choice(SIZES)
        scene = Scene(width, height)
        short = random.choice((0.0, 0.03, 0.06))
        side = random.choice(sides)
        out = {k: (short if k == side or side == "all" else 0.125) for k in "ltrb"}
        scene.path(box(-out["l"], -out["t"], width + out["r"], height + out["b"]), fill=RUST)
        scene.title(INK)
        lines = {
            "l": [(-short, 0), (-short, height)],
            "r": [(width + short, 0), (width + short, height)],
            "t": [(0, -short), (width, -short)],
            "b": [(0, height + short), (width, height + short)],
        }
        picked = lines.values() if side == "all" else [lines[side]]
        place = shapely.MultiLineString(list(picked)).buffer(0.13)
        return scene, [Fault("bleed", place, short, 0.006)]

    return draw


PRINT: dict[str, Draw] = {
    "font-not-embedded": not_embedded,
    "type-small": small_live(False),
    "type-small-reversed": small_live(True),
    "type-small-outlined": small_outlined((4.0, 5.0)),
    "type-tiny-outlined": small_outlined((2.5, 3.0)),
    "line-thin": thin_line(False),
    "line-thin-filled": thin_line(True),
    "picture-low": low_picture,
    "type-over-cut": type_over_the_cut(False),
    "type-over-cut-outlined": type_over_the_cut(True),
    "bleed-short-one-side": bleed_missing("ltrb"),
    "bleed-missing": bleed_missing(("all",)),
}
