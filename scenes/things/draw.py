"""Draws the things of this folder, and the demo's own, as SVG.

Run it after changing a number; the SVGs can be edited.

One user unit is a hundredth of an inch. The data-* attributes are told at the top of
mockup/render/things/reading.py.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

HERE = Path(__file__).parent
DEMO = HERE.parent.parent / "assets_demo" / "things"
OF_THE_DEMO = ("seal", "stamps", "barley")  # her emblem: it lies beside nobody else's paper
XY = tuple[float, float]


def tag(name: str, *inside: str, **attributes: object) -> str:
    """Returns an element; underscores in names become hyphens."""
    words = [f'{key.rstrip("_").replace("_", "-")}="{_text(v)}"' for key, v in attributes.items()]
    opening = " ".join([name, *words])
    return f"<{opening}>" + "\n".join(inside) + f"</{name}>" if inside else f"<{opening}/>"


def _text(value: object) -> str:
    return f"{value:.4g}" if isinstance(value, float) else str(value)


def smooth(points: list[XY], closed: bool = False) -> str:
    """Returns path data of a curve through points (Catmull-Rom as cubics)."""
    n = len(points)

    def at(k: int) -> XY:
        return points[k % n] if closed else points[min(max(k, 0), n - 1)]

    out = [f"M{points[0][0]:.2f} {points[0][1]:.2f}"]
    for k in range(n if closed else n - 1):
        (x0, y0), (x1, y1), (x2, y2), (x3, y3) = (at(k + i) for i in (-1, 0, 1, 2))
        out.append(
            f"C{x1 + (x2 - x0) / 6:.2f} {y1 + (y2 - y0) / 6:.2f} "
            f"{x2 - (x3 - x1) / 6:.2f} {y2 - (y3 - y1) / 6:.2f} {x2:.2f} {y2:.2f}"
        )
    return " ".join(out) + ("Z" if closed else "")


def write(name: str, width: float, height: float, about: str, *parts: str) -> None:
    """Writes a drawing beside this file or into the demo, at its true size."""
    folder = DEMO if name in OF_THE_DEMO else HERE
    svg = tag(
        "svg",
        f"\n<title>{about}</title>",
        *parts,
        xmlns="http://www.w3.org/2000/svg",
        width=f"{width / 100:g}in",
        height=f"{height / 100:g}in",
        viewBox=f"0 0 {width:g} {height:g}",
    )
    (folder / f"{name}.svg").write_text(svg + "\n", encoding="utf-8")


def circle(cx: float, cy: float, r: float) -> str:
    """Returns path data of a circle."""
    return (
        f"M{cx - r:.2f} {cy:.2f}a{r:.2f} {r:.2f} 0 1 1 {2 * r:.2f} 0"
        f"a{r:.2f} {r:.2f} 0 1 1 {-2 * r:.2f} 0Z"
    )


def wheel_moon(cx: float, cy: float, r: float, **style: object) -> list[str]:
    """Returns a mill wheel about a crescent: rim, paddles, hub in one stroke, then the moon."""
    wheel = circle(cx, cy, r) + circle(cx, cy, r * 0.56)
    for k in range(12):
        dx, dy = math.cos(math.radians(k * 30)), math.sin(math.radians(k * 30))
        wheel += (
            f"M{cx + dx * r * 0.56:.2f} {cy + dy * r * 0.56:.2f}"
            f"L{cx + dx * r * 1.17:.2f} {cy + dy * r * 1.17:.2f}"
        )
    m = r * 0.36
    moon = (
        f"M{cx + m * 0.35:.2f} {cy - m * 0.94:.2f}"
        f"A{m:.2f} {m:.2f} 0 1 0 {cx + m * 0.35:.2f} {cy + m * 0.94:.2f}"
        f"A{m * 0.95:.2f} {m * 0.95:.2f} 0 0 1 {cx + m * 0.35:.2f} {cy - m * 0.94:.2f}Z"
    )
    line = {**style, "fill": "none", "stroke": style["fill"], "stroke_linecap": "round"}
    return [
        tag("path", d=wheel, **{**line, "stroke_width": r * 0.075}),
        tag("path", d=moon, **style),
    ]


def seal() -> None:
    """Draws a wax seal: a pool of wax, the die's round field pressed into it, the motif left up."""
    rng = random.Random(4)
    bumps = [(k, rng.uniform(-1, 1) * 3.2 / k, rng.uniform(0, 6.28)) for k in range(2, 7)]

    def edge(a: float) -> float:
        return 56 + sum(w * math.cos(k * a + p) for k, w, p in bumps)

    ring = [
        (65 + edge(a) * math.cos(a), 65 + edge(a) * math.sin(a))
        for a in (2 * math.pi * k / 40 for k in range(40))
    ]
    wax = "#8f3b2b"
    motif = wheel_moon(65, 65, 27.5, fill=wax, data_rise_in=0.022, data_round_in=0.02)
    write(
        "seal",
        130,
        130,
        "A wax seal pressed with a wheel and a moon",
        tag(
            "g",
            tag("path", d=smooth(ring, closed=True), fill=wax, data_round_in=0.11),
            tag(
                "circle",
                cx=65,
                cy=65,
                r=46,
                fill="none",
                stroke=wax,
                stroke_width=9,
                data_rise_in=0.016,
                data_round_in=0.07,
            ),
            tag(
                "circle", cx=65, cy=65.4, r=40.5, fill=wax, data_rise_in=-0.042, data_round_in=0.035
            ),
            *motif,
            data_thickness_in=0.085,
            data_roughness=0.2,
            data_ior=1.44,
            data_grain="smooth",
        ),
    )


def perforations(width: float, height: float, pitch: float, radius: float) -> str:
    """Returns the holes round a stamp, one at every corner."""
    across, down = round(width / pitch), round(height / pitch)
    places = [(k * width / across, y) for k in range(across + 1) for y in (0.0, height)]
    places += [(x, k * height / down) for k in range(1, down) for x in (0.0, width)]
    return tag("g", *(tag("circle", cx=x, cy=y, r=radius) for x, y in places), data_cut="yes")


def blade(x: float, y: float, height: float, sway: float, width: float, seed: float) -> list[XY]:
    """Returns a ribbon of eelgrass that grows from (x, y)."""
    left: list[XY] = []
    right: list[XY] = []
    for k in range(9):
        t = k / 8
        mid = x + sway * math.sin(t * 2.6 + seed) * t
        half = width / 2 * (1 - t**3)
        left.append((mid - half, y - height * t))
        right.append((mid + half, y - height * t))
    return left + right[::-1]


def straight_foot(leaf: list[XY]) -> str:
    """Returns path data of a blade: smooth sides and tip, cut level at its foot."""
    return smooth(leaf) + "Z"


def nine(x: float, y: float, r: float, **style: object) -> str:
    """Returns an old-style nine, drawn with two strokes."""
    d = (
        f"M{x - r:.2f} {y:.2f}a{r:.2f} {r:.2f} 0 1 1 {2 * r:.2f} 0"
        f"a{r:.2f} {r:.2f} 0 1 1 {-2 * r:.2f} 0"
        f"M{x + r:.2f} {y:.2f}c0 {r * 1.5:.2f} "
        f"{-r * 0.5:.2f} {r * 2.3:.2f} {-r * 1.7:.2f} {r * 2.7:.2f}"
    )
    return tag("path", d=d, fill="none", stroke_width=r * 0.36, **style)


def stamps() -> None:
    """Draws two stamps, one half over the other."""
    paper, ink, oat, rust, sage = "#f4eee0", "#2c3757", "#efe5cf", "#a54a35", "#7f9790"
    wide, high = 86.0, 104.0

    def stamp(x: float, y: float, turn: float, lift: float, *print_: str) -> str:
        return tag(
            "g",
            tag("path", d=f"M0 0H{wide}V{high}H0Z", fill=paper),
            perforations(wide, high, 6.56, 2.0),
            *print_,
            transform=f"translate({x} {y}) rotate({turn} {wide / 2} {high / 2})",
            data_thickness_in=0.005,
            data_lift_in=lift,
            data_curl_in=0.035,
            data_roughness=0.4,
            data_grain="smooth",
        )

    def panel(fill: str) -> str:
        return tag("rect", x=8, y=8, width=wide - 16, height=high - 16, fill=fill)

    rng = random.Random(9)
    grass = []
    for k in range(9):
        x = 17 + k * 6.4
        leaf = blade(x, high - 8, rng.uniform(36, 66), rng.uniform(-13, 13), 4.2, rng.uniform(0, 1))
        grass.append(tag("path", d=straight_foot(leaf), fill=(ink, sage)[k % 2], opacity=0.95))
    waves = [
        tag(
            "path",
            d=smooth(
                [(8 + 7 * j, 25 + 5 * row + 1.4 * math.sin(j * 1.9 + row)) for j in range(11)]
            ),
            fill="none",
            stroke=ink,
            stroke_width=0.7,
            opacity=0.5,
        )
        for row in range(3)
    ]
    first = stamp(12, 30, -9, 0.0, panel(oat), *waves, *grass, nine(70, 18, 3.6, stroke=rust))
    wheel = wheel_moon(wide / 2, 45, 21, fill=oat)
    water = [
        tag(
            "path",
            d=smooth(
                [
                    (8 + 7 * j, 78 + 3.6 * row + 1.3 * math.sin(j * 2.1 + row * 1.3))
                    for j in range(11)
                ]
            ),
            fill="none",
            stroke=oat,
            stroke_width=1.0,
        )
        for row in range(4)
    ]
    second = stamp(68, 8, 7, 0.012, panel(ink), *wheel, *water, nine(17.5, 17, 3.6, stroke=oat))
    write("stamps", 172, 150, "Two stamps of no country: eelgrass, and a wheel", first, second)


def along(line: list[XY], t: float) -> tuple[XY, float]:
    """Returns the point at a share of a polyline's points, and the direction there, radians."""
    place = t * (len(line) - 1)
    k = min(int(place), len(line) - 2)
    (x0, y0), (x1, y1) = line[k], line[k + 1]
    u = place - k
    return (x0 + (x1 - x0) * u, y0 + (y1 - y0) * u), math.atan2(y1 - y0, x1 - x0)


def curve(points: list[XY], steps: int = 12) -> list[XY]:
    """Returns a Catmull-Rom curve through points as a fine polyline."""
    out: list[XY] = []
    n = len(points)
    for k in range(n - 1):
        p = [points[min(max(k + i, 0), n - 1)] for i in (-1, 0, 1, 2)]
        for s in range(steps):
            t = s / steps
            out.append(
                tuple(  # type: ignore[arg-type]
                    0.5
                    * (
                        2 * b
                        + (c - a) * t
                        + (2 * a - 5 * b + 4 * c - d) * t * t
                        + (3 * b - a - 3 * c + d) * t**3
                    )
                    for a, b, c, d in zip(*p, strict=True)
                )
            )
    return [*out, points[-1]]


def polyline(points: list[XY], first: str = "M") -> str:
    """Returns path data of straight lines through points."""
    return first + "L".join(f"{x:.2f} {y:.2f}" for x, y in points)


def tapered(line: list[XY], wide: float, narrow: float) -> str:
    """Returns path data of a stem that thins from its foot to its tip."""
    left: list[XY] = []
    right: list[XY] = []
    for k in range(len(line)):
        (x, y), a = along(line, k / (len(line) - 1))
        half = (wide + (narrow - wide) * k / (len(line) - 1)) / 2
        left.append((x - half * math.sin(a), y + half * math.cos(a)))
        right.append((x + half * math.sin(a), y - half * math.cos(a)))
    return polyline(left + right[::-1]) + "Z"


def leaf_shape(base: XY, angle: float, length: float, width: float, bend: float) -> tuple[str, str]:
    """Returns path data of a leaf and of its midrib; `bend` bows it sideways, in lengths."""

    def at(t: float, s: float) -> XY:
        x, y = t * length, bend * length * t * t + s
        c, d = math.cos(angle), math.sin(angle)
        return base[0] + x * c - y * d, base[1] + x * d + y * c

    half = [0.04, 0.10, 0.30, 0.455, 0.5, 0.44, 0.29, 0.13, 0.0]
    ts = [0.0, 0.1, 0.24, 0.4, 0.56, 0.72, 0.86, 0.95, 1.0]
    upper = [at(t, -h * width) for t, h in zip(ts, half, strict=True)]
    lower = [at(t, h * width) for t, h in zip(ts, half, strict=True)]
    ring = upper + lower[-2::-1]
    return smooth(ring) + "Z", smooth([at(t, 0.0) for t in ts[:-1]])


def leaf(base: XY, angle: float, size: XY, bend: float, green: str, **lie: object) -> str:
    """Returns a leaf of purslane: thin, hollow along its rib, dull with a meal of scales."""
    length, width = size
    shape, rib = leaf_shape(base, angle, length, width, bend)
    # Greener towards the rib, by washes one in another: the meal lies thickest at the edge.
    washes = [
        tag(
            "path",
            d=leaf_shape(base, angle, length * (0.90 + 0.10 * share), width * share, bend)[0],
            fill="#6f8268",
            opacity=0.12,
        )
        for share in (0.8, 0.58, 0.36)
    ]
    tip = (
        base[0] + length * (math.cos(angle) - bend * math.sin(angle)),
        base[1] + length * (math.sin(angle) + bend * math.cos(angle)),
    )
    dry = [
        tag("circle", cx=tip[0], cy=tip[1], r=width * r, fill="#8f7a58", opacity=0.16)
        for r in (0.18, 0.36)
    ]
    return tag(
        "g",
        tag("path", d=shape, fill=green, data_round_in=0.022),
        *washes,
        *dry,
        # Both halves rise from the rib: a leaf is a shallow trough and no cushion.
        tag(
            "path",
            d=rib,
            fill="none",
            stroke="#b9c0a6",
            stroke_width=1.2,
            opacity=0.5,
            data_rise_in=-0.0013 * width,
            data_round_in=0.012 * width,
        ),
        data_thickness_in=0.01,
        **lie,
        data_roughness=0.85,
        data_ior=1.35,
        data_grain="cotton",
    )


def purslane() -> None:
    """A sprig of sea purslane: grey-green leaves in pairs along a bent stem."""
    rng = random.Random(21)
    stem = curve([(150, 640), (158, 520), (176, 400), (182, 270), (170, 150), (176, 70)])
    greens = ["#8e9c86", "#a0ab93", "#7f907d", "#959f8a"]
    under: list[str] = []
    over: list[str] = []
    for pair in range(9):
        t = 0.22 + 0.083 * pair
        (x, y), a = along(stem, t)
        for side in (-1, 1):
            length = (118 - 8.2 * pair) * rng.uniform(0.86, 1.08)
            width = length * rng.uniform(0.24, 0.30)
            turn = a + side * math.radians(rng.uniform(36, 58) - 1.5 * pair)
            bend = -side * rng.uniform(0.02, 0.14)
            green = rng.choice(greens)
            low = side * (-1) ** pair > 0
            lift = rng.uniform(0.02, 0.08) if low else rng.uniform(0.10, 0.16)
            tip = lift + (rng.uniform(0.02, 0.16) if low else rng.uniform(0.16, 0.42))
            (under if low else over).append(
                leaf(
                    (x, y),
                    turn,
                    (length, width),
                    bend,
                    green,
                    data_lift_in=f"{lift:.3f} {tip:.3f}",
                    data_curl_in=round(rng.uniform(0.0, 0.06), 3),
                )
            )
    tips = []
    (x, y), a = along(stem, 1.0)
    for k, off in enumerate((-26, 24, -2)):
        tips.append(
            leaf(
                (x, y + 6),
                a + math.radians(off),
                (44.0 - 6 * abs(k - 1), 13.0),
                0.05,
                "#a8b098",
                data_lift_in=f"0.12 {0.2 + 0.05 * k:.2f}",
            )
        )
    stalk = tag(
        "g",
        tag("path", d=tapered(stem, 7.5, 3.0), fill="#8d7f62", data_round_in=0.03),
        data_thickness_in=0.06,
        data_lift_in="0.0 0.10",
        data_roughness=0.5,
    )
    write("purslane", 350, 660, "A sprig of sea purslane", *under, stalk, *over, *tips)


def barley() -> None:
    """Two ears of ripe barley, crossed at the stalk."""
    rng = random.Random(5)
    ears = (
        [(224, 800), (208, 690), (186, 560), (158, 420), (122, 300)],
        [(172, 800), (192, 700), (214, 600), (246, 460), (290, 350)],
    )
    parts: list[str] = []
    for number, way in enumerate(ears):
        line = curve(way)
        parts += [_straw(line, 0.06 * number, rng), _ear(line, 0.06 * number, rng)]
    write("barley", 420, 800, "Two ears of barley", *parts)


EAR_FROM = 0.66  # where along the stalk the ear begins


def _straw(line: list[XY], base: float, rng: random.Random) -> str:
    """Returns the stalk and the awns, one part."""
    shapes = [tapered(line, 6.0, 3.0)]
    for k in range(24):
        (x, y), a = along(line, EAR_FROM + (1 - EAR_FROM) * (0.12 + 0.88 * k / 23))
        side = (-1) ** k
        turn = a + side * math.radians(rng.uniform(4, 15))
        length = rng.uniform(190, 260) * (1 - 0.25 * k / 23)
        bend = side * rng.uniform(0.02, 0.10) * length
        c, d = math.cos(turn), math.sin(turn)
        axis = [
            (x + u * length * c - bend * u * u * d, y + u * length * d + bend * u * u * c)
            for u in (j / 8 for j in range(9))
        ]
        shapes.append(tapered(axis, 1.9, 0.6))
    return tag(
        "g",
        tag("path", d=" ".join(shapes), fill="#cbb176", data_round_in=0.03),
        data_thickness_in=0.03,
        data_lift_in=f"{base} {base + 0.26:.2f}",
        data_roughness=0.3,
        data_grain="none",
    )


def _ear(line: list[XY], base: float, rng: random.Random) -> str:
    """Returns the grains of an ear, three rows of domes on one part."""
    shapes: list[str] = []
    grains: list[str] = []
    count = 13
    for k in range(count):
        (x, y), a = along(line, EAR_FROM + (1 - EAR_FROM) * k / (count - 1) * 0.97)
        for side in (-1, 1, 0):
            length = rng.uniform(38, 44) * (1 - 0.2 * k / count)
            turn = a + side * math.radians(rng.uniform(15, 21))
            off, ahead = side * 4.5, 9 * (side == 0)
            at = (
                x - off * math.sin(a) + ahead * math.cos(a),
                y + off * math.cos(a) + ahead * math.sin(a),
            )
            shape, rib = leaf_shape(at, turn, length, 13.5, 0.0)
            shapes.append(shape)
            grains.append(
                tag(
                    "path",
                    d=shape,
                    fill=rng.choice(("#cfae6a", "#c6a45f", "#d6b977")),
                    data_dome_in=0.06 + 0.025 * (side == 0),
                    data_round_in=0.062,
                )
            )
            grains.append(
                tag(
                    "path",
                    d=rib,
                    fill="none",
                    stroke="#a98647",
                    stroke_width=1.2,
                    opacity=0.5,
                    data_rise_in=-0.008,
                    data_round_in=0.02,
                )
            )
    return tag(
        "g",
        tag("path", d=" ".join(shapes), fill="#a98647", data_round_in=0.02),
        *grains,
        data_thickness_in=0.08,
        data_lift_in=f"{base + 0.01} {base + 0.04:.2f}",
        data_roughness=0.3,
        data_grain="smooth",
    )


def twine() -> None:
    """A length of flax twine that lies in a loose loop."""
    way = [
        (20, 250),
        (90, 232),
        (170, 190),
        (235, 120),
        (225, 45),
        (150, 28),
        (96, 80),
        (112, 160),
        (190, 222),
        (290, 238),
        (380, 205),
        (440, 215),
    ]
    line = curve(way, 10)
    cut = 58
    style: dict[str, object] = {
        "fill": "none",
        "stroke": "#b79f78",
        "stroke_width": 6.2,
        "data_round_in": 0.031,
        "data_twist_in": 0.115,
        "data_thickness_in": 0.055,
        "data_roughness": 0.6,
        "data_grain": "smooth",
    }
    write(
        "twine",
        460,
        275,
        "A loose loop of flax twine",
        tag("path", d=polyline(line[: cut + 1]), **style),
        tag("path", d=polyline(line[cut:]), data_lift_in="0.02 0.05", **style),
    )


def branch() -> None:
    """Draws a leafy branch to hang outside the picture: one flat outline, only its shadow shows."""
    rng = random.Random(12)
    shapes: list[str] = []
    stems = (
        ([(20, 700), (260, 560), (480, 430), (760, 290), (980, 140)], 11),
        ([(300, 540), (400, 380), (500, 240), (560, 90)], 8),
        ([(520, 405), (740, 430), (920, 400), (1080, 370)], 8),
    )
    for stem, leaves in stems:
        line = curve(list(stem))
        shapes.append(tapered(line, 14, 4))
        for k in range(leaves):
            (x, y), a = along(line, 0.16 + 0.84 * k / (leaves - 1))
            turn = a + (-1) ** k * math.radians(rng.uniform(28, 62)) * (k < leaves - 1)
            length = rng.uniform(150, 230)
            bend = (-1) ** k * rng.uniform(-0.12, 0.1)
            shape, _ = leaf_shape((x, y), turn, length, length * rng.uniform(0.22, 0.30), bend)
            shapes.append(shape)
    write(
        "branch",
        1320,
        800,
        "A branch outside the picture, for its shadow",
        tag(
            "path",
            d=" ".join(shapes),
            transform="translate(20 80)",
            fill="#5f6a55",
            data_thickness_in=0.02,
        ),
    )


@dataclass(frozen=True)
class Strip:
    """A ribbon's strip between two folds: its spine, what is cut off its ends, where it rolls."""

    line: list[XY]
    cuts: list[str]
    rolls: list[str]


BOW, DROP = 2.4, 16.0  # how far silk's loop stands out of a fold, and its corners draw in
ROLL = 9.0  # how far from the crease the loop falls fastest


def crease(at: XY, along_f: float, side: float, half: float, off: float, width: float) -> str:
    """Returns path data of all beyond a soft fold, moved inwards by `off`.

    Silk does not fold to a knife's edge: the loop stands out in its middle, where nothing holds it,
    and draws in at the selvages. `half` is half the crease's length.
    """
    fx, fy = math.cos(along_f), math.sin(along_f)
    nx, ny = side * fy, -side * fx
    far = 3 * width

    def at_crease(forth: float, out: float) -> XY:
        return at[0] + forth * fx + out * nx, at[1] + forth * fy + out * ny

    edge = [
        at_crease(u * half, BOW * (1 - u * u) - DROP * max(abs(u) - 0.55, 0) ** 2 - off)
        for u in (k / 16 for k in range(-18, 19))  # in half lengths; beyond the selvages too
    ]
    beyond = [at_crease(far, -off), at_crease(far, far), at_crease(-far, far)]
    return polyline([*edge, *beyond, at_crease(-far, -off)]) + "Z"


def folded(ways: list[list[XY]], width: float) -> list[Strip]:
    """Returns strips that meet in soft flat folds.

    At a fold the strip is mirrored in the crease, which runs along the sum of both directions. The
    upper strip rolls down into it.
    """
    out: list[Strip] = []
    for number, way in enumerate(ways):
        line = curve(way)
        cuts: list[str] = []
        rolls: list[str] = []
        for other, at_end in ((number - 1, False), (number + 1, True)):
            if not 0 <= other < len(ways):
                continue
            at, a = along(line, 1.0 if at_end else 0.0)
            _, b = along(curve(ways[other]), 0.0 if at_end else 1.0)
            f = math.atan2(math.sin(a) + math.sin(b), math.cos(a) + math.cos(b))
            back = a + math.pi if at_end else a
            side = math.copysign(1, math.sin(back - f))
            half = width / 2 / abs(math.sin(a - f))
            cuts.append(crease(at, f, side, half, 0.0, width))
            if not at_end:
                rolls.append(crease(at, f, side, half, ROLL, width))
            (x1, y1), a1 = (line[-1], a) if at_end else (line[0], a + math.pi)
            more = (x1 + 1.8 * width * math.cos(a1), y1 + 1.8 * width * math.sin(a1))
            line = [*line, more] if at_end else [more, *line]
        out.append(Strip(line, cuts, rolls))
    return out


def ribbon() -> None:
    """A length of silk ribbon in two flat folds, its ends cut in a swallowtail."""
    width = 44.0
    silk, shade = "#93a5a3", "#84989a"
    ways = [
        [(30, 66), (150, 82), (290, 76), (420, 92)],
        [(420, 92), (330, 150), (230, 196), (110, 226)],
        [(110, 226), (230, 240), (360, 262), (500, 256)],
    ]
    ends = [["M6 36L54 70L-2 104L-60 70Z"], [], ["M528 224L476 256L530 290L590 256Z"]]
    parts = [
        ribbon_part(k, strip, end, width, (silk, shade)[k % 2])
        for k, (strip, end) in enumerate(zip(folded(ways, width), ends, strict=True))
    ]
    write("ribbon", 540, 320, "A length of silk ribbon", *parts)


def ribbon_part(number: int, strip: Strip, end: list[str], width: float, colour: str) -> str:
    """Returns a strip of ribbon, the `number`-th from below."""
    rolls = [
        tag("path", d=roll, fill=colour, data_rise_in=-0.04, data_round_in=2.4 * ROLL / 100)
        for roll in strip.rolls
    ]
    return tag(
        "g",
        tag(
            "path",
            d=polyline(strip.line),
            fill="none",
            stroke=colour,
            stroke_width=width,
            data_wave_in=f"0.035 {(1.7, 1.3, 2.1)[number]}",
            data_round_in=0.03,
        ),
        *rolls,
        *(tag("path", d=cut, data_cut="yes") for cut in [*strip.cuts, *end]),
        data_thickness_in=0.01,
        data_lift_in=("0.01 0.05", "0.06 0.08", "0.09 0.03")[number],
        data_roughness=0.34,
        data_grain="ribbon",
    )


DRAWINGS: tuple[Callable[[], None], ...] = (seal, stamps, purslane, barley, twine, ribbon, branch)

if __name__ == "__main__":
    for draw in DRAWINGS:
        draw()
