"""Light on a sheet that stands: by where it faces; what it does not see of the sky is the table.

Everything else in this room is nearly level, and its light is the level face's, corrected. A panel
raised by its fold turns away far enough for that to fail.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.render.light.edge import arriving
from mockup.render.light.interface import Interface
from mockup.render.light.irradiance import OpenLight
from mockup.render.light.lamps import solid_angle, window_points
from mockup.render.light.lattice import Field, Lattice
from mockup.render.light.relief import FacingLight, facing_light
from mockup.render.light.scene import LitScene, Plane, Sheet, bounds, raised
from mockup.render.light.steep import normal_of
from mockup.render.light.surface import Ground
from mockup.render.light.tone import Lamps

Array = NDArray[np.float64]
_DIRECTIONS = 2048
_PATCH_PX = 24  # of the table, over which its colour is averaged


@dataclass(frozen=True)
class Floor:
    """The table before a standing sheet: its linear reflectance (3,), and the shares of the window
    and of the sky that reach it."""

    colour: Field
    window: float
    sky: float


@dataclass(frozen=True)
class StandingLight:
    """Light on a standing sheet before anything hides it.

    `facing` is at its middle (x_in, y_in), `along_x` and `along_y` how its window's light grows
    over an inch, as a share; `below` is the share of what it faces that is `floor`.
    """

    facing: FacingLight
    x_in: float
    y_in: float
    along_x: float
    along_y: float
    below: float
    floor: Floor
    out: float
    """What gets out of its body towards the camera, against straight up."""
    grazing: float
    """What its interface lets in of the table's light, which comes in aslant, against the sky's."""

    def growth(self, x: Field, y: Field) -> Field:
        """Returns the window's light at points of the sheet against that at its middle."""
        return 1 + (x - self.x_in) * self.along_x + (y - self.y_in) * self.along_y


def standing_light(
    scene: LitScene, surface: Interface, sheet: Sheet, floor: Floor
) -> StandingLight:
    """Returns the light on a standing sheet whose material has an interface."""
    left, head, right, foot = bounds(sheet.rings)
    x, y = (left + right) / 2, (head + foot) / 2
    top = raised(sheet)
    step_x, step_y = max((right - left) / 4, 1e-3), max((foot - head) / 4, 1e-3)

    def ratio(across: int, down: int) -> float:
        return _ratio(scene, surface, top, (x + across * step_x, y + down * step_y))

    usual = max(ratio(0, 0), 1e-6)
    along_x = (ratio(1, 0) - ratio(-1, 0)) / (2 * step_x * usual)
    along_y = (ratio(0, 1) - ratio(0, -1)) / (2 * step_y * usual)
    facing = facing_light(scene, surface, (x, y, _height(top, x, y)))
    upright = float(normal_of(top)[2])
    out = float(surface.let_in(np.array(upright)) / surface.let_in(np.array(1.0)))
    grazing, below = _grazing(surface, upright), (1 - upright) / 2
    return StandingLight(facing, x, y, along_x, along_y, below, floor, out, grazing)


def _grazing(surface: Interface, upright: float) -> float:
    """Returns what an interface lets in from below the horizon of a face, against from all round.

    Cosine-distributed directions: a golden-angle spiral lifted to the face's own hemisphere.
    """
    k = np.arange(_DIRECTIONS) + 0.5
    r2, turn = k / _DIRECTIONS, k * math.pi * (3 - 5**0.5)
    cosine = np.sqrt(1 - r2)
    rise = cosine * upright + np.sqrt(r2) * np.cos(turn) * math.sqrt(1 - upright**2)
    return float(surface.let_in(cosine[rise < 0]).mean() / surface.transmit_sky)


def floor_before(
    sheet: Sheet, ground: Ground, seen: Field, lattice: Lattice, size_px: tuple[int, int]
) -> Floor:
    """Returns the table before a standing sheet; `seen` is what the table sees, on its lattice, and
    `size_px` the picture's width and height."""
    points = _before(sheet)
    column = np.rint((points[:, 0] - lattice.left_in) / lattice.spacing_in).astype(np.intp)
    row = np.rint((points[:, 1] - lattice.top_in) / lattice.spacing_in).astype(np.intp)
    row = np.clip(row, 0, lattice.height - 1)
    column = np.clip(column, 0, lattice.width - 1)
    shares = seen[:, row, column].mean(axis=1)
    x, y = (
        int(np.clip(middle * lattice.ppi, 0, size - 1))
        for middle, size in zip(points.mean(axis=0), size_px, strict=True)
    )
    block = (y, min(y + _PATCH_PX, size_px[1])), (x, min(x + _PATCH_PX, size_px[0]))
    colour = ground.look(block)[0].mean(axis=(1, 2))
    return Floor(colour.astype(np.float32), float(shares[0]), float(shares[3]))


def from_floor(
    light: StandingLight, open_: OpenLight, lamps: Lamps, e: Field, fill: Field
) -> list[Field]:
    """Returns what the table throws on a standing sheet, one a channel, in the units of the open
    table's irradiance `e`; `fill` is the share of the sky's that the window takes the place of."""
    s, floor = open_.surface, light.floor
    dome = np.maximum(floor.sky - fill * floor.window, 0)
    thrown = light.below * light.grazing * s.body * s.transmit_sky
    return [
        thrown
        * floor.colour[c]
        * (e * floor.window + dome * (math.pi * s.transmit_sky * lamps.sky[c] / lamps.window[c]))
        for c in range(3)
    ]


def mirrored_floor(
    light: StandingLight, open_: OpenLight, lamps: Lamps, thrown: list[Field]
) -> list[Field]:
    """Returns the table's mirror image in a standing sheet, radiance, one a channel.

    `thrown` is what `from_floor` gave. A mirror turns what it shows by twice its own turn.
    """
    s = open_.surface
    share = s.shine_sky * 4 * light.below * (1 - light.below)  # sin squared of the rise
    whole = math.pi * light.below * light.grazing * s.transmit_sky
    return [share * lamps.window[c] / whole * thrown[c] for c in range(3)]


def _ratio(scene: LitScene, surface: Interface, top: Plane, at: tuple[float, float]) -> float:
    """Returns the window's light on a face at a place of it, against the level table's there."""
    points, area = window_points(scene, 6, 9, 1.0)
    place = np.array([*at, _height(top, *at)])
    own = arriving(*solid_angle(points, area, scene, place), normal_of(top), surface)
    level = solid_angle(points, area, scene, place * (1, 1, 0))
    return own / arriving(*level, np.array([0.0, 0.0, 1.0]), surface)


def _height(top: Plane, x: float, y: float) -> float:
    return top.z0_in + top.gx * x + top.gy * y


def _before(sheet: Sheet) -> Array:
    """Returns points of the table before a standing sheet's foot, as far as it is high, (n, 2)."""
    gx, gy = sheet.plane.gx, sheet.plane.gy
    steep = math.hypot(gx, gy)
    ahead = np.array([-gx, -gy]) / steep
    side = np.array([-ahead[1], ahead[0]])
    # Along its own axes: the box about a panel that lies askew reaches far beyond its foot.
    long, wide = (sheet.rings[0] @ axis for axis in (ahead, side))
    out = long.max() + np.linspace(0.05, 0.3, 6) * np.ptp(long) * steep
    across = (wide.max() + wide.min()) / 2 + np.linspace(-0.8, 0.8, 5) * np.ptp(wide) / 2
    return np.array([ahead * o + side * a for o in out for a in across])
