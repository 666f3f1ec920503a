"""Things as sheets of the light scene: painted, modelled and set at their heights."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from shapely import Polygon, unary_union
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from mockup.colour.srgb import encode, linear
from mockup.geometry.affine import Affine
from mockup.geometry.offset import polygons_of
from mockup.geometry.point import Point
from mockup.pixels import Coverage, View
from mockup.render.coverage import coverage
from mockup.render.light.distance import sample, signed_distance
from mockup.render.light.grain import noise
from mockup.render.light.scene import (
    Band,
    Bow,
    Flat,
    Grain,
    Material,
    Picture,
    Plane,
    Relief,
    Rings,
    Sheet,
    bounds,
)
from mockup.render.things.reading import Mark, Part, PlacedThing, Spine

Field = NDArray[np.floating]

_FINE_PPI = 240.0  # modelled at least this finely, then averaged to the picture's pixels
_DISTANCE_PPI = 160.0
_BEVEL_SHARE = 0.2  # of the thickness, for parts that are cut and not rounded
_ROOM_IN = 0.045  # to which what lies under paper is pressed; the paper then rests on it
_PROP_IN = 0.02  # how finely its outline is followed there
_HOLLOW_IN = 0.03  # how far around a point its surroundings shade it
_FIBRES = Grain((Band(8, 60, 0.10, 5.0),), (Band(8, 60, 0.05, 5.0),))


def sheets_of(placed: PlacedThing, view: View, rest: Plane) -> list[Sheet]:
    """Returns a thing's parts as sheets of the light scene, bottom to top.

    `rest` is the plane it lies on. Under paper its parts are pressed down, and the paper rests on
    them: `props_of`.
    """
    press = _pressed(placed)[1] if placed.under else 1.0
    return [_sheet(part, placed.to_table, view, rest, press) for part in placed.thing.parts]


def props_of(placed: PlacedThing, papers: Sequence[Sheet]) -> list[Sheet]:
    """Returns what of a thing under paper holds the paper up, as flat sheets on the table."""
    paper = unary_union([Polygon(sheet.rings[0]) for sheet in papers])
    hidden = mapped(placed.thing.area, placed.to_table).intersection(paper)
    highest_in, press = _pressed(placed)
    return [
        Sheet(_rings(part.simplify(_PROP_IN)), Flat((0, 0, 0)), thickness_in=highest_in * press)
        for part in polygons_of(hidden)
        if part.area > _PROP_IN**2
    ]


def _pressed(placed: PlacedThing) -> tuple[float, float]:
    """Returns a thing's greatest height, inches, and what of it is left under paper."""
    parts = placed.thing.parts
    highest_in = max(max(part.lift_in) + part.thickness_in + part.curl_in for part in parts)
    return highest_in, min(1.0, _ROOM_IN / highest_in)


def footprint(placed: PlacedThing) -> Sheet:
    """Returns the thing as one flat sheet, to find out how it comes to rest."""
    hull = mapped(placed.thing.area, placed.to_table).convex_hull
    return Sheet(_rings(hull), Flat((0, 0, 0)), thickness_in=0.0)


def _sheet(part: Part, to_table: Affine, view: View, rest: Plane, press: float) -> Sheet:
    area = mapped(part.area, to_table)
    rings = _rings(area)
    angle_deg = math.degrees(math.atan2(to_table.b, to_table.a))
    modelled = _modelled(part)
    bevel_in = 0.0 if part.round_in else part.thickness_in * _BEVEL_SHARE
    art, relief = Flat(part.rgb), None
    own = view.within(bounds(rings), 1)
    if own.width_px and own.height_px and (part.marks or modelled):
        art, relief = _surface(part, to_table, area, own, view, modelled)
    return Sheet(
        rings,
        art,
        _plane(part, to_table, rest, press),
        part.thickness_in,
        Material(part.grain, part.roughness, part.ior, bevel_in),
        angle_deg,
        _curl(part, to_table, rings, press),
        relief=relief,
    )


def _modelled(part: Part) -> bool:
    return (
        part.round_in > 0
        or part.spine is not None
        or any(mark.rise_in or mark.dome_in for mark in part.marks)
    )


def _surface(
    part: Part, to_table: Affine, area: BaseGeometry, own: View, view: View, modelled: bool
) -> tuple[Picture, Relief | None]:
    """Returns a part's colours and its modelled surface at the picture's pixels."""
    fold = max(1, min(4, math.ceil(_FINE_PPI / view.ppi)))
    fine = View(own.left_in, own.top_in, own.width_px * fold, own.height_px * fold, own.ppi * fold)
    left_px, top_px = own.offset_in(view)
    colour = np.empty((fine.height_px, fine.width_px, 3), np.float32)
    colour[:] = linear(part.rgb)
    height, open_share = _body(part, to_table, area, fine)
    for mark in part.marks:
        _marked(mark, to_table, fine, colour, height)
    picture = Picture(encode(_folded(colour, fold)), left_px, top_px)
    if not modelled:
        return picture, None
    gy, gx = np.gradient(height, 1 / fine.ppi)
    values = np.stack([-gx, -gy, open_share * _hollows(height, fine.ppi)], axis=-1)
    relief = np.ascontiguousarray(_folded(values, fold).transpose(2, 0, 1))
    return picture, Relief(relief.astype(np.float32), left_px, top_px)


def _marked(mark: Mark, to_table: Affine, fine: View, colour: Field, height: Field) -> None:
    """Prints, presses or raises a mark on a part, in place, where it reaches."""
    area = mapped(mark.area, to_table)
    here = fine.within(area.buffer(mark.round_in).bounds, 1)
    left, top = here.offset_in(fine)
    window = np.s_[top : top + here.height_px, left : left + here.width_px]
    if here.width_px == 0 or here.height_px == 0:
        return
    if mark.rgb is not None:
        share = (_covered(area, here) * np.float32(mark.opacity))[..., None]
        colour[window] += (linear(mark.rgb) - colour[window]) * share
    if not (mark.rise_in or mark.dome_in):
        return  # printed, and no more
    into = _depth(area, *_places(here)) / np.float32(max(mark.round_in, 1e-4))
    if mark.rise_in:
        ease = np.clip(into + 0.5, 0, 1)
        height[window] += np.float32(mark.rise_in) * ease * ease * (3 - 2 * ease)
    if mark.dome_in:
        dome = np.where(into > 0, _quarter_round(into) * np.float32(mark.dome_in), 0)
        height[window] = np.maximum(height[window], dome)


def _body(part: Part, to_table: Affine, area: BaseGeometry, fine: View) -> tuple[Field, Field]:
    """Returns a part's own height and how open it lies, before its marks."""
    x, y = _places(fine)
    height = np.zeros(x.shape, np.float32)
    open_share = np.ones(x.shape, np.float32)
    if part.round_in:
        into = _depth(area, x, y) / np.float32(part.round_in)
        height += _quarter_round(into) * np.float32(min(part.thickness_in, part.round_in))
    if part.spine is not None and (part.spine.twist_in or part.spine.wave_in[0]):
        along, across = _along(part.spine, to_table, x, y)
        if part.spine.twist_in:
            ply, fibre = _plies(part.spine, along, across)
            height *= 0.70 + 0.30 * ply
            open_share *= (0.50 + 0.50 * ply) * fibre
        rise_in, length_in = part.spine.wave_in
        if rise_in:
            height += np.float32(rise_in) * np.sin(along * (2 * math.pi / length_in) + 0.7 * across)
    return height, open_share


def _plies(spine: Spine, along: Field, across: Field) -> tuple[Field, Field]:
    """Returns the height of two twisted plies, 0 to 1, and the tone of their fibres."""
    turn = along / spine.twist_in + 0.32 * across
    ply = np.sqrt(np.abs(np.sin(turn * math.pi)))
    # Fibres run along the ply: noise drawn in the stroke's own coordinates.
    tile = noise(_FIBRES, (256, 256), 160.0, 0.0, 5)[2]
    column = (along * 160).astype(int) % 256
    row = ((across + 2) * 30 + turn * 24).astype(int) % 256
    return ply, tile[row, column]


def _along(spine: Spine, to_table: Affine, x: Field, y: Field) -> tuple[Field, Field]:
    """Returns each pixel's place along a spine, inches, and across it, -1 to 1 half widths."""
    points = np.array([to_table.point(Point(*p)) for p in spine.points])
    half = spine.width_in / 2
    nearest = np.full(x.shape, np.inf, np.float32)
    along, across = np.zeros_like(nearest), np.zeros_like(nearest)
    done = 0.0
    for (ax, ay), (bx, by) in pairwise(points.tolist()):
        length = math.hypot(bx - ax, by - ay)
        columns = _within(x[0], min(ax, bx) - half, max(ax, bx) + half)
        rows = _within(y[:, 0], min(ay, by) - half, max(ay, by) + half)
        px, py = x[rows, columns] - ax, y[rows, columns] - ay
        if length > 0 and px.size:
            ux, uy = (bx - ax) / length, (by - ay) / length
            forth = np.clip(px * ux + py * uy, 0, length)
            far = np.hypot(px - forth * ux, py - forth * uy)
            closer = far < nearest[rows, columns]
            nearest[rows, columns][closer] = far[closer]
            along[rows, columns][closer] = (done + forth)[closer]
            across[rows, columns][closer] = ((py * ux - px * uy) / half)[closer]
        done += length
    return along, np.clip(across, -1, 1)


def _within(axis: Field, low: float, high: float) -> slice:
    first, last = np.searchsorted(axis, (low, high))
    return slice(int(first), int(last))


def _quarter_round(into: Field) -> Field:
    """Returns the height of a round edge, 0 at the outline to 1 a radius inside it."""
    return np.sqrt(1 - (1 - np.clip(into, 0, 1)) ** 2)


def _depth(area: BaseGeometry, x: Field, y: Field) -> Field:
    """Returns how deep inside an area points lie, inches, negative outside."""
    depth = np.full(x.shape, -1.0, np.float32)
    for polygon in polygons_of(area):
        np.maximum(depth, sample(signed_distance(_rings(polygon), _DISTANCE_PPI), x, y), out=depth)
    return depth


def _hollows(height: Field, ppi: float) -> Field:
    """Returns the share of light that reaches into a surface: less where it lies in a hollow."""
    reach = max(1, round(_HOLLOW_IN * ppi))
    padded = np.pad(height, reach, mode="edge")
    total = np.pad(padded.cumsum(axis=0).cumsum(axis=1), ((1, 0), (1, 0)))
    side = 2 * reach + 1
    mean = total[side:, side:] - total[:-side, side:] - total[side:, :-side] + total[:-side, :-side]
    below = np.maximum(mean / side**2 - height, 0) / _HOLLOW_IN
    return np.clip(1 - 1.6 * below, 0.35, 1)


def _plane(part: Part, to_table: Affine, rest: Plane, press: float) -> Plane:
    """Returns the plane of a part's underside: as high as it is lifted over what it lies on."""
    (x0, y0), (x1, y1) = (to_table.point(Point(*p)) for p in part.from_to)
    near, far = (lift_in * press for lift_in in part.lift_in)
    squared = max((x1 - x0) ** 2 + (y1 - y0) ** 2, 1e-9)
    gx, gy = (far - near) * (x1 - x0) / squared, (far - near) * (y1 - y0) / squared
    z0 = rest.z0_in + near - gx * x0 - gy * y0
    return Plane(z0, rest.gx + gx, rest.gy + gy)


def _curl(part: Part, to_table: Affine, rings: Rings, press: float) -> Bow | None:
    if not part.curl_in:
        return None
    (x0, y0), (x1, y1) = (to_table.point(Point(*p)) for p in part.from_to)
    left, top, right, bottom = bounds(rings)
    half = math.hypot(x1 - x0, y1 - y0) / 2
    turn = math.degrees(math.atan2(y1 - y0, x1 - x0))
    return Bow((left + right) / 2, (top + bottom) / 2, turn, half, part.curl_in * press)


def mapped(area: BaseGeometry, to_table: Affine) -> BaseGeometry:
    """Returns the image of an area under an affine map."""
    m = to_table
    return affine_transform(area, [m.a, m.c, m.b, m.d, m.e, m.f])


def _rings(area: BaseGeometry) -> Rings:
    polygon = next(iter(polygons_of(area)), Polygon())
    edges = (polygon.exterior, *polygon.interiors)
    return tuple(np.asarray(edge.coords, dtype=np.float64)[:-1, :2] for edge in edges)


def _covered(area: BaseGeometry, fine: View) -> Coverage:
    total = np.zeros((fine.height_px, fine.width_px), np.float32)
    for polygon in polygons_of(area):
        total = np.maximum(total, coverage(_rings(polygon), fine))
    return total


def _places(fine: View) -> tuple[Field, Field]:
    """Returns the x and y of a view's pixel centres, inches, (h, w) float32."""
    x = fine.left_in + (np.arange(fine.width_px) + 0.5) / fine.ppi
    y = fine.top_in + (np.arange(fine.height_px) + 0.5) / fine.ppi
    grid = np.meshgrid(x.astype(np.float32), y.astype(np.float32))
    return grid[0], grid[1]


def _folded(values: Field, fold: int) -> Field:
    """Returns (h, w, c) averaged over fold x fold pixels."""
    height, width, channels = values.shape
    blocks = values.reshape(height // fold, fold, width // fold, fold, channels)
    return blocks.mean(axis=(1, 3), dtype=np.float32)
