"""What a lit flat-lay is made of: sheets at their heights, a table, a window and the sky.

Inches in table coordinates: x right, y down, z up towards the camera, which looks straight down
from far away. Angles in degrees, clockwise positive as seen. Colours of light are linear sRGB
radiances, colours of art sRGB bytes.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from mockup.colour.translucent import Film
from mockup.render.light.finish import Coat, Press, Skin

Rgb = tuple[float, float, float]
Rings = tuple[NDArray[np.float64], ...]
Floats = NDArray[np.floating]


# The paper's skin is porous and sends back less than solid resin (1.45) would. With this index,
# black comes out at L* 16 beside white paper in the open, which is the solid black of
# ISO 12647-2 on coated paper: the least light a printed sheet returns.
PAPER_IOR = 1.30


@dataclass(frozen=True)
class Plane:
    """The height of a sheet's underside: z0_in + gx x + gy y, inches."""

    z0_in: float = 0.0
    gx: float = 0.0
    gy: float = 0.0

    @property
    def stands(self) -> bool:
        """Whether a sheet on it stands rather than lies: it rises steeper than paper rests."""
        return math.hypot(self.gx, self.gy) > STEEP


STEEP = 0.3  # slope; paper that rests on paper leans by a tenth of it


@dataclass(frozen=True)
class Bow:
    """A gentle curl: the sheet rises by rise_in (u / half_in)^2 along one axis.

    u is the distance from (x_in, y_in) along the axis, which points `axis_deg` clockwise from x;
    past half_in, where a sheet ends, the rise stays what it is there.
    """

    x_in: float
    y_in: float
    axis_deg: float
    half_in: float
    rise_in: float

    @property
    def axis(self) -> tuple[float, float]:
        """The unit vector of the axis."""
        return math.cos(math.radians(self.axis_deg)), math.sin(math.radians(self.axis_deg))


@dataclass(frozen=True)
class Band:
    """Band-limited noise: cycles per inch from low to high, of a given rms.

    `stretch` above 1 draws the features out along `along_deg` (clockwise from the sheet's x), as
    fibres and laid lines are.
    """

    low_cpi: float
    high_cpi: float
    rms: float
    stretch: float = 1.0
    along_deg: float = 0.0


@dataclass(frozen=True)
class Lines:
    """Even straight lines, so many an inch, of a given rms slope, as a mould's wires leave."""

    per_in: float
    rms: float
    along_deg: float = 0.0


@dataclass(frozen=True)
class Fibres:
    """Single fibres in a sheet's face, each a little bent; or the open pores of wood.

    So many to a square inch, from half to one and a half times `length_in` long; `tone` is how
    much more (above 0) or less of the light each throws back than what is round it. They lie within
    `spread_deg` of the sheet's x: in every direction, where it is 180.
    """

    per_in2: float
    length_in: float
    width_in: float
    tone: float
    spread_deg: float = 180.0


@dataclass(frozen=True)
class Grain:
    """A paper's surface: relief bands (rms of slope) and mottle bands (rms of reflectance)."""

    relief: tuple[Band, ...]
    mottle: tuple[Band, ...] = ()
    unevenness: float = 0.25  # how much the relief's strength itself drifts over the sheet
    lines: tuple[Lines, ...] = ()
    fibres: tuple[Fibres, ...] = ()


@dataclass(frozen=True)
class Material:
    """How a sheet takes light: a diffuse body under a rough clear interface.

    `roughness` is the GGX alpha, `ior` the index of the interface, `bevel_in` the radius of the
    upper edge, `edge_rgb` the sRGB colour (0 to 255) of an edge that is painted or cut from another
    core than the face, `edge_skin` the metal of a gilded one, and `film` tells of a sheet that is
    seen through.
    """

    grain: str | Grain = "eggshell"
    roughness: float = 0.42
    ior: float = PAPER_IOR
    bevel_in: float = 0.004
    edge_rgb: tuple[int, int, int] | None = None
    edge_skin: Skin | None = None
    film: Film | None = None


@dataclass(frozen=True)
class Picture:
    """A sheet's art at the output's own resolution: (h, w, 3) uint8 sRGB, placed by pixel."""

    pixels: NDArray[np.uint8]
    left_px: int
    top_px: int


@dataclass(frozen=True)
class Flat:
    """One sRGB colour, 0 to 255."""

    rgb: tuple[int, int, int]


@dataclass(frozen=True)
class Crease:
    """A fold or score that shows as a soft ridge (slope above 0) or valley (below 0).

    From `start` to `end` in table inches; steepest `slope` at half `width_in` to either side.
    """

    start: tuple[float, float]
    end: tuple[float, float]
    width_in: float = 0.04
    slope: float = 0.12


@dataclass(frozen=True)
class Relief:
    """A sheet's own modelled surface at the output's resolution, placed by pixel.

    `values` is (3, h, w) float32: the normal's x and y per unit of z, and the share of light that
    reaches into it (1 where it lies open).
    """

    values: NDArray[np.float32]
    left_px: int
    top_px: int


@dataclass(frozen=True)
class Sheet:
    """A piece of paper: its outline and holes, its art, where it rests and what it is made of."""

    rings: Rings
    art: Picture | Flat
    plane: Plane = Plane()
    thickness_in: float = 0.02
    material: Material = Material()
    angle_deg: float = 0.0
    bow: Bow | None = None
    creases: tuple[Crease, ...] = ()
    relief: Relief | None = None
    presses: tuple[Press, ...] = ()
    coats: tuple[Coat, ...] = ()
    folded: bool = False
    """Whether it is a part of a folded thing, of one colour with what it lies on."""


@dataclass(frozen=True)
class Window:
    """A bright rectangle that faces the middle of the picture.

    `azimuth_deg` is where it stands, clockwise from the top of the picture; `distance_in` is
    measured from the middle of the table to the middle of the window.
    """

    width_in: float = 40.0
    height_in: float = 60.0
    distance_in: float = 60.0
    azimuth_deg: float = 315.0
    elevation_deg: float = 45.0
    radiance: Rgb = (0.96 * 1.9, 1.00 * 1.9, 1.05 * 1.9)


@dataclass(frozen=True)
class Sky:
    """Even light from everywhere above the table that the window does not cover."""

    radiance: Rgb = (1.06 * 0.13, 1.00 * 0.13, 0.92 * 0.13)


@dataclass(frozen=True)
class Room:
    """What mirrors see of the room, for they look straight up: judgements, no source.

    A ceiling, so far above the table, is lit by the window: `fall_in` along it from the picture's
    middle it is brighter than the sky's radiance by 0.7 of `contrast` on the window's side, and
    darker by as much on the other. Before it hang the camera and who holds it: dark by `shade` in
    the middle, and gone some `shade_in` away.
    """

    ceiling_in: float = 66.0
    fall_in: float = 30.0
    contrast: float = 0.75
    shade: float = 0.78
    shade_in: float = 26.0


@dataclass(frozen=True)
class Photograph:
    """A picture of a real table: (h, w, 3) uint8 sRGB at `ppi`, mirrored on where it ends."""

    pixels: NDArray[np.uint8]
    ppi: float


@dataclass(frozen=True)
class Surface:
    """The table: a named surface (plaster, linen, oak, slate), or a photograph, and its seed.

    `rgb` (sRGB, 0 to 255) dyes a named surface; without it the surface keeps its own colour.
    """

    kind: str | Photograph = "plaster"
    seed: int = 1
    rgb: tuple[int, int, int] | None = None


@dataclass(frozen=True)
class LitScene:
    """A table of width_in by height_in under a window and a sky, sheets from bottom to top."""

    width_in: float
    height_in: float
    sheets: tuple[Sheet, ...]
    surface: Surface = Surface()
    window: Window = Window()
    sky: Sky = Sky()
    seed: int = field(default=1)
    room: Room = Room()


def height(plane: Plane, bow: Bow | None, x: Floats, y: Floats) -> Floats:
    """Returns z in inches of a plane and its bow at points given in inches (any equal shapes)."""
    z = x * plane.gx
    z += y * plane.gy
    z += plane.z0_in
    if bow is not None:
        u = _along(bow, x, y)
        u *= u
        u *= bow.rise_in / bow.half_in**2
        z += u
    return z


def slopes(
    plane: Plane, bow: Bow | None, x: Floats, y: Floats
) -> tuple[Floats | float, Floats | float]:
    """Returns (dz/dx, dz/dy) of a plane and its bow; plain numbers where there is no bow."""
    if bow is None:
        return plane.gx, plane.gy
    ax, ay = bow.axis
    steep = _along(bow, x, y) * (2 * bow.rise_in / bow.half_in**2)
    return steep * ax + plane.gx, steep * ay + plane.gy


def _along(bow: Bow, x: Floats, y: Floats) -> Floats:
    ax, ay = bow.axis
    u = (x - bow.x_in) * ax + (y - bow.y_in) * ay
    return np.clip(u, -bow.half_in, bow.half_in)


def raised(sheet: Sheet) -> Plane:
    """Returns the plane of a sheet's upper face."""
    return Plane(sheet.plane.z0_in + sheet.thickness_in, sheet.plane.gx, sheet.plane.gy)


def bounds(rings: Rings) -> tuple[float, float, float, float]:
    """Returns (left, top, right, bottom) of the outer ring, inches."""
    low, high = rings[0].min(axis=0), rings[0].max(axis=0)
    return float(low[0]), float(low[1]), float(high[0]), float(high[1])
