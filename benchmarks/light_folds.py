"""Scenes of folded cards for the light engine, and their panels once more as turned boxes.

The engine is given a panel as every sheet: an outline seen from above and the plane it lies in. The
path tracer gets a box of paper turned about its fold in space, made from the panel's own size and
angle alone, so that neither outline, plane nor normal is shared.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from benchmarks import light_scenes
from mockup.render.light.scene import Flat, LitScene, Material, Plane, Sheet, Surface, Window
from mockup.render.light.settle import settle

Points = NDArray[np.float64]
Solid = tuple[Points, Points]
"""Triangles (n, 3, 3) of a panel's upper face, and of its other five, the tracer's y up."""

CREAM, BUFF, RUST = light_scenes.CREAM, light_scenes.BUFF, light_scenes.RUST


@dataclass(frozen=True)
class Panel:
    """A panel hinged at a line: where the hinge's middle lies (x, y, z), which way the panel goes
    from it as seen from above, its length that way and along the hinge, how steep it rises
    (negative: falls)."""

    hinge: tuple[float, float, float]
    way_deg: float
    long_in: float
    wide_in: float
    rise_deg: float
    thick_in: float
    rgb: tuple[int, int, int]

    def sheet(self) -> Sheet:
        """The panel as the engine takes it: outline from above and plane."""
        x, y, z = self.hinge
        ux, uy = math.cos(math.radians(self.way_deg)), math.sin(math.radians(self.way_deg))
        seen = self.long_in * math.cos(math.radians(self.rise_deg))
        half = self.wide_in / 2
        corners = [(0, -half), (seen, -half), (seen, half), (0, half)]
        ring = np.array([(x + a * ux - b * uy, y + a * uy + b * ux) for a, b in corners])
        steep = math.tan(math.radians(self.rise_deg))
        gx, gy = steep * ux, steep * uy
        thick = self.thick_in / math.cos(math.radians(self.rise_deg))
        plane = Plane(z - gx * x - gy * y - (thick if abs(steep) > 0.3 else 0.0), gx, gy)
        paper = Material("smooth", bevel_in=0.003)
        return Sheet((ring,), Flat(self.rgb), plane, thick, paper, self.way_deg)

    def solid(self) -> Solid:
        """The panel as a box turned in space; its hinge is its upper face's edge where it stands,
        its lower face's where it lies. One that falls from its hinge meets its like in a ridge, and
        is mitred there: a square end would stand out of the other's face."""
        rise, way = math.radians(self.rise_deg), math.radians(self.way_deg)
        ahead = np.array([math.cos(rise), 0.0, math.sin(rise)])
        up = np.array([-math.sin(rise), 0.0, math.cos(rise)])
        side = np.array([0.0, 1.0, 0.0])
        low, high = (-self.thick_in, 0.0) if abs(self.rise_deg) > 17 else (0.0, self.thick_in)
        mitre = math.tan(min(rise, 0.0))
        corners = [
            a * ahead + b * side + c * up
            for c in (low, high)
            for a, b in (
                (c * mitre, -self.wide_in / 2),
                (self.long_in, -self.wide_in / 2),
                (self.long_in, self.wide_in / 2),
                (c * mitre, self.wide_in / 2),
            )
        ]
        turn = np.array(
            [
                [math.cos(way), -math.sin(way), 0.0],
                [math.sin(way), math.cos(way), 0.0],
                [0.0, 0.0, 1.0],
            ]
        )
        placed = np.array(corners) @ turn.T + np.array(self.hinge)
        placed[:, 1] *= -1
        faces = [(4, 5, 6, 7), (0, 1, 2, 3), (0, 1, 5, 4), (1, 2, 6, 5), (2, 3, 7, 6), (3, 0, 4, 7)]
        triangles = np.array([[placed[[a, b, c]], placed[[a, c, d]]] for a, b, c, d in faces])
        return triangles[0], triangles[1:].reshape(-1, 3, 3)


def half_open(x: float, y: float, way_deg: float, rise_deg: float) -> list[Panel]:
    """A card of 5 by 7 in folded at its left, its front raised."""
    thick = 0.02
    return [
        Panel((x, y, 0.02), way_deg, 5.0, 7.0, 0.0, thick, BUFF),
        Panel((x, y, 0.04 + thick), way_deg, 5.0, 7.0, rise_deg, thick, CREAM),
    ]


def tent(x: float, y: float, way_deg: float, rise_deg: float) -> list[Panel]:
    """A tent of two panels of 2 by 3.5 in that meet in a ridge."""
    high = 2.0 * math.sin(math.radians(rise_deg)) + 0.02
    return [
        Panel((x, y, high), way_deg + 180, 2.0, 3.5, -rise_deg, 0.02, RUST),
        Panel((x, y, high), way_deg, 2.0, 3.5, -rise_deg, 0.02, CREAM),
    ]


PANELS: dict[str, Callable[[], list[Panel]]] = {
    "half-open": lambda: half_open(3.5, 5.2, 0.0, 40.0),
    "half-open-top": lambda: half_open(7.0, 2.0, 90.0, 40.0),
    "tent": lambda: [*tent(4.0, 4.0, 90.0, 45.0), *tent(9.5, 6.0, 20.0, 55.0)],
}
"""What stands in each scene, bottom to top."""

TABLES: Mapping[str, tuple[Surface, Window]] = {
    "half-open": (Surface(), Window()),
    "half-open-top": (Surface("slate", 3), Window(30, 40, 60, 60, 35)),
    "tent": (Surface("linen", 4), Window()),
}


def scene_of(name: str) -> LitScene:
    """A table of 14 by 10.5 in with panels on it."""
    return LitScene(14, 10.5, tuple(each.sheet() for each in PANELS[name]()), *TABLES[name])


def half_drawn(ppi: float) -> LitScene:
    """A card half drawn out of an open envelope: back, liner, card, pocket, bottom flap."""
    back, liner, *pocket = light_scenes.envelope(7.0, 6.5, -6, ppi)
    ring = light_scenes.placed(light_scenes.card(6.9, 4.9), 7.15, 4.6, -6)
    paint = light_scenes.lines(CREAM, RUST, (7.15, 4.6, -6), (6.9, 4.9))
    paper = Material("cotton", bevel_in=0.004)
    art = light_scenes.painted(ring, ppi, paint)
    card = Sheet((ring,), art, thickness_in=0.03, material=paper, angle_deg=-6)
    lifts = [0.0, 0.0, 0.0, 0.01, 0.01]
    return LitScene(14, 10.5, settle([back, liner, card, *pocket], lifts))


SCENES: dict[str, Callable[[float], LitScene]] = {
    **{name: lambda ppi, name=name: scene_of(name) for name in PANELS},
    "half-drawn": half_drawn,
}
SOLIDS: dict[str, Callable[[], dict[int, Solid]]] = {
    name: lambda name=name: {k: each.solid() for k, each in enumerate(PANELS[name]())}
    for name in PANELS
}
