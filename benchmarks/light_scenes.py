"""Scenes the light engine is measured on: plain shapes and patterns, nothing from a suite."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from mockup.render.flatlay import Shot, composed, lit_scene
from mockup.render.light.scene import (
    Bow,
    Flat,
    LitScene,
    Material,
    Picture,
    Sheet,
    Surface,
    Window,
)
from mockup.render.light.settle import settle
from mockup.render.scenes import read_scene, scene_names
from mockup.suite.reading import read_suite

Points = NDArray[np.float64]
Ink = tuple[int, int, int]

CREAM, NAVY, RUST, BUFF = (246, 238, 222), (38, 56, 98), (166, 82, 46), (232, 222, 200)
OLIVE, BLUE = (120, 130, 90), (170, 190, 220)


def placed(points: Points, x: float, y: float, angle_deg: float) -> Points:
    turn = math.radians(angle_deg)
    matrix = np.array([[math.cos(turn), math.sin(turn)], [-math.sin(turn), math.cos(turn)]])
    return np.asarray(points, float) @ matrix + (x, y)


def card(width: float, height: float, radius: float = 0.0) -> Points:
    """A rectangle about the origin with round corners."""
    turns = np.radians(np.linspace(0, 90, 9)) if radius else np.array([0.0])
    points: list[tuple[float, float]] = []
    for sx, sy, start in ((1, -1, -90), (1, 1, 0), (-1, 1, 90), (-1, -1, 180)):
        for turn in turns + math.radians(start):
            points.append(
                (
                    sx * (width / 2 - radius) + radius * math.cos(turn) * bool(radius),
                    sy * (height / 2 - radius) + radius * math.sin(turn) * bool(radius),
                )
            )
    return np.array(points)


def arch(width: float, height: float) -> Points:
    """A card with a round head."""
    shoulder = -height * 0.06
    turns = np.linspace(math.pi, 2 * math.pi, 80)
    head = np.column_stack(
        [width / 2 * np.cos(turns), shoulder + (height / 2 + shoulder) * np.sin(turns)]
    )
    return np.concatenate([head, [(width / 2, height / 2), (-width / 2, height / 2)]])


def stamp(width: float, height: float) -> Points:
    """A rectangle with perforated sides."""
    radius, corners = 0.026, card(width, height)
    points: list[Points] = []
    for a, b in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        length = float(np.hypot(*(b - a)))
        along = (b - a) / length
        inward = np.array([-along[1], along[0]])
        count = round(length / 0.09)
        points.append(a[None])
        for middle in (np.arange(count) + 0.5) * length / count:
            turn = np.linspace(math.pi, 0, 7)[:, None]
            points.append(
                a + along * (middle + radius * np.cos(turn)) + inward * radius * np.sin(turn)
            )
    return np.concatenate(points)


def painted(
    ring: Points, ppi: float, paint: Callable[[Points, Points], NDArray[np.float64]]
) -> Picture:
    """Art over a ring's box; each pixel the mean of 3 x 3 samples."""
    left, top = np.floor(ring.min(axis=0) * ppi).astype(int)
    right, bottom = np.ceil(ring.max(axis=0) * ppi).astype(int)
    y, x = np.mgrid[top * 3 : bottom * 3, left * 3 : right * 3]
    fine = paint((x + 0.5) / (3 * ppi), (y + 0.5) / (3 * ppi))
    small = fine.reshape(bottom - top, 3, right - left, 3, 3).mean(axis=(1, 3))
    return Picture(np.rint(small).astype(np.uint8), int(left), int(top))


def scales(x: Points, y: Points) -> NDArray[np.float64]:
    """A liner pattern of overlapping arcs."""
    pitch = 0.42
    out = np.empty((*x.shape, 3))
    out[:] = BUFF
    row = np.floor(y / (pitch / 2))
    across = (x + (row % 2) * pitch / 2) % pitch - pitch / 2
    radius = np.hypot(across, (row + 1) * pitch / 2 - y)
    for low, high, ink in ((0.05, 0.07, NAVY), (0.11, 0.125, RUST), (0.155, 0.17, OLIVE)):
        out[(radius > low) & (radius < high)] = ink
    return out


def lines(
    paper: Ink, ink: Ink, place: tuple[float, float, float], size: tuple[float, float]
) -> Callable[[Points, Points], NDArray[np.float64]]:
    """Lines of something like writing."""

    def paint(x: Points, y: Points) -> NDArray[np.float64]:
        turn = math.radians(place[2])
        u = (x - place[0]) * math.cos(turn) + (y - place[1]) * math.sin(turn)
        v = (y - place[1]) * math.cos(turn) - (x - place[0]) * math.sin(turn)
        row = np.floor((v + size[1] / 2) / 0.28)
        wave = np.sin(u * 60 + row) * np.sin(u * 23)
        reach = size[0] * (0.22 + 0.1 * np.sin(row * 2.3))
        on_line = np.abs((v + size[1] / 2) % 0.28 - 0.14 - wave * 0.03) < 0.012
        out = np.empty((*x.shape, 3))
        out[:] = paper
        out[(np.abs(u) < reach) & on_line & (np.abs(v) < size[1] * 0.36)] = ink
        return out

    return paint


def piece(
    points: Points,
    place: tuple[float, float, float],
    colours: tuple[Ink, Ink | None],
    paper: tuple[str, float, float],
    ppi: float,
) -> Sheet:
    """A sheet at (x, y, angle), of (paper, ink) colours and (grain, thickness, bevel)."""
    ring = placed(points, *place)
    size = tuple(np.ptp(points, axis=0))
    art = (
        painted(ring, ppi, lines(colours[0], colours[1], place, size))
        if colours[1]
        else Flat(colours[0])
    )
    material = Material(paper[0], bevel_in=paper[2])
    return Sheet((ring,), art, thickness_in=paper[1], material=material, angle_deg=place[2])


def envelope(x: float, y: float, angle_deg: float, ppi: float) -> list[Sheet]:
    """An open envelope: back with flap, liner, pocket, bottom flap."""
    back = [(-3.6, -2.6), (-3.2, -2.75), (-0.1, -5.3), (0.1, -5.3), (3.2, -2.75), (3.6, -2.6)]
    liner = [(-3.3, -2.5), (-0.1, -4.95), (0.1, -4.95), (3.3, -2.5), (3.3, 1.5), (-3.3, 1.5)]
    pocket = [(-3.6, -2.6), (-0.2, 0.1), (0.2, 0.1), (3.6, -2.6), (3.6, 2.6), (-3.6, 2.6)]
    flap = [(-3.6, 2.6), (-0.3, 0.35), (0, 0.25), (0.3, 0.35), (3.6, 2.6)]
    place, paper = (x, y, angle_deg), ("envelope", 0.012, 0.003)
    back = np.array([*back, (3.6, 2.6), (-3.6, 2.6)])
    lined = placed(np.array(liner), *place)
    return [
        piece(back, place, (NAVY, None), paper, ppi),
        Sheet(
            (lined,),
            painted(lined, ppi, scales),
            thickness_in=0.006,
            material=Material("smooth", bevel_in=0.002),
            angle_deg=angle_deg,
        ),
        piece(np.array(pocket), place, (NAVY, None), paper, ppi),
        piece(np.array(flap), place, (NAVY, None), paper, ppi),
    ]


def supper(ppi: float) -> LitScene:
    """Nine sheets on plaster, an open envelope among them."""
    sheets = [
        *envelope(9.4, 7.6, 8, ppi),
        piece(arch(5, 7), (5.05, 5.0, -3), (CREAM, NAVY), ("cotton", 0.03, 0.006), ppi),
        piece(card(4.5, 6.25, 0.25), (12.2, 7.5, -9), (BUFF, NAVY), ("eggshell", 0.02, 0.004), ppi),
        piece(card(4.9, 3.5), (2.95, 9.05, 8), (RUST, CREAM), ("cotton", 0.02, 0.004), ppi),
        piece(stamp(0.9, 1.17), (0.95, 1.5, -9), (BLUE, None), ("smooth", 0.005, 0.001), ppi),
        piece(stamp(0.9, 1.17), (1.6, 2.0, 9), (CREAM, None), ("smooth", 0.005, 0.001), ppi),
    ]
    return LitScene(15, 11.25, settle(sheets, [0, 0, 0, 0, 0.12, 0.16, 0.1, 0, 0]))


def slate(ppi: float) -> LitScene:
    """Three pale cards on dark slate under a lower, smaller window from the right; one is bowed."""
    sheets = settle(
        [
            piece(card(5, 7, 0.2), (4, 5, 4), (CREAM, NAVY), ("laid", 0.02, 0.004), ppi),
            piece(card(4.5, 6.25), (8, 5.5, -6), (BUFF, RUST), ("kraft", 0.02, 0.004), ppi),
            piece(card(4, 3), (6.5, 8, 11), (CREAM, RUST), ("smooth", 0.016, 0.003), ppi),
        ],
        [0.1, 0.15, 0.05],
    )
    bowed = Sheet(**{**sheets[2].__dict__, "bow": Bow(6.5, 8, 11, 2, 0.12)})
    window = Window(30, 40, 60, 60, 35)
    return LitScene(12, 10, (*sheets[:2], bowed), Surface("slate", 3), window)


def stack(ppi: float) -> LitScene:
    """Seven cards in a tall, turning stack on linen."""
    sheets = [
        piece(
            card(5.2 - 0.25 * k, 7.2 - 0.3 * k, 0.1 * (k % 3)),
            (6 + 0.5 * math.sin(2.1 * k), 5 + 0.4 * math.cos(2.7 * k), 9 * math.sin(1.7 * k)),
            ((CREAM, RUST, BUFF, NAVY)[k % 4], (NAVY, CREAM, RUST, BUFF)[k % 4]),
            (("cotton", "eggshell", "smooth")[k % 3], 0.03, 0.005),
            ppi,
        )
        for k in range(7)
    ]
    lifts = [0.0, 0.1, 0.1, 0.0, 0.2, 0.1, 0.15]
    return LitScene(12, 10, settle(sheets, lifts), Surface("linen", 4))


def tags(ppi: float) -> LitScene:
    """Twenty small stamps and tags strewn over oak."""
    rng = np.random.default_rng(5)
    sheets = [
        piece(
            stamp(0.9, 1.17) if k % 2 else card(1.6, 0.9, 0.2),
            (*rng.uniform((1, 1), (11, 9)), rng.uniform(-40, 40)),
            ((CREAM, RUST, BLUE, NAVY)[k % 4], None),
            ("eggshell", 0.012, 0.003),
            ppi,
        )
        for k in range(20)
    ]
    lifts = [0.06 * (k % 3) for k in range(20)]
    return LitScene(12, 10, settle(sheets, lifts), Surface("oak", 6))


def shipped(name: str, ppi: float, things: bool = False) -> LitScene:
    """The demo suite on a scene that comes with the program, as the program lights it."""
    path = Path(__file__).parents[1] / "assets_demo" / "suite.toml"
    scene = read_scene(name, path.parent)
    shot = Shot(read_suite(path), scene, 1000, things=scene.things if things else ())
    laid = composed(shot)
    width_px = round(ppi * laid.frame.width_in)
    return lit_scene(replace(shot, width_px=width_px), laid)[0]


SCENES: dict[str, Callable[[float], LitScene]] = {
    "supper": supper,
    "slate": slate,
    "stack": stack,
    "tags": tags,
    **{f"at-{name}": partial(shipped, name) for name in scene_names()},
    **{f"at-{name}-things": partial(shipped, name, things=True) for name in scene_names()},
}
