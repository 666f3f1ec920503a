"""Where things lie beside the paper: on empty table, on an envelope, or outside the picture.

The table is a grid of tenths of an inch. A drawing is tried at every node and at several turns
(correlation of masks), and lies where there is most room. It never lies on a piece.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from shapely import Polygon, box, unary_union
from shapely.geometry.base import BaseGeometry

from mockup.envelopes.views import ClosedBack, FaceUp
from mockup.errors import SuiteError
from mockup.geometry.affine import Affine, rotation, translation
from mockup.geometry.flatten import ring
from mockup.geometry.offset import polygons_of
from mockup.geometry.point import Point
from mockup.pixels import View
from mockup.render.composition import Composition, LaidEnvelope, outline_points
from mockup.render.coverage import coverage
from mockup.render.light.scene import Window
from mockup.render.memory import remembered
from mockup.render.scenes import Scene, Wish
from mockup.render.things.on_piece import MisplacedError, lie_on
from mockup.render.things.on_shown import mistake_of
from mockup.render.things.reading import PlacedThing, Thing, read_thing
from mockup.render.things.sheets import mapped
from mockup.trade.postal import postage_corner

Grid = NDArray[np.float64]

_PPI = 10.0
_AIR_IN = 0.22  # between a thing and paper it does not touch
_HIDDEN = (0.12, 0.40)  # share of a tucked thing that paper hides
_TURN_STEP_DEG = 15.0
_SLIP = 0.002  # of a thing's area: what rounding to the grid may cost
_TIP_IN = 0.12  # a seal's middle lies this far inside the flap's tip
_IN_THE_MIDDLE = (0.5, 0.5)
_LOWEST_IN, _HIGHEST_IN = 1.0, 30.0  # how high a branch outside the picture may hang


@dataclass(frozen=True)
class _Table:
    """The table as areas: all paper, each envelope's free paper, things laid so far."""

    composition: Composition
    window: Window
    paper: BaseGeometry
    things: BaseGeometry

    @property
    def frame(self) -> tuple[float, float]:
        """Width and height of the picture, inches."""
        return self.composition.frame.width_in, self.composition.frame.height_in


def place_things(
    wishes: Sequence[Wish], scene: Scene, composition: Composition
) -> tuple[PlacedThing | None, ...]:
    """Returns for every wish where its thing lies, None where there is no room for it.

    Raises SuiteError for one that cannot lie on the piece it names; SuiteError, InputError and
    LimitError as reading a thing does.
    """
    paper = unary_union([Polygon(outline_points(each)) for each in composition.laid])
    table = _Table(composition, scene.window, paper, Polygon())
    placed: list[PlacedThing | None] = []
    for wish in wishes:
        thing = read_thing(wish.svg, scene.folder)
        try:
            found = _PLACES[wish.where](wish, thing, table)
        except MisplacedError as error:
            raise SuiteError(mistake_of(wish, scene, error.key, error.sentence)) from error
        placed.append(found)
        if found is not None:
            covered = mapped(thing.area, found.to_table)
            table = replace(table, things=unary_union([table.things, covered]))
    return tuple(placed)


def _empty(wish: Wish, thing: Thing, table: _Table) -> PlacedThing | None:
    near = table.paper.buffer(_AIR_IN)
    free = table.paper.buffer(_AIR_IN / 2)

    def clear(area: BaseGeometry) -> bool:
        return not area.intersects(free)

    return _roomiest(wish, thing, table, near, (0.0, 0.0), table.things, clear)


def _under(wish: Wish, thing: Thing, table: _Table) -> PlacedThing | None:
    def whole(area: BaseGeometry) -> bool:
        # What shows hangs together: no tip looks out again on the paper's other side.
        return len(polygons_of(area.buffer(0.05).difference(table.paper))) == 1

    found = _roomiest(wish, thing, table, table.paper, _HIDDEN, table.things, whole)
    return found and replace(found, under=True)


def _envelope(wish: Wish, thing: Thing, table: _Table) -> PlacedThing | None:
    """Returns a place in the postage corner of an address side that lies up: a back has no post."""
    for number, each in enumerate(table.composition.laid):
        if not (isinstance(each, LaidEnvelope) and isinstance(each.back, FaceUp)):
            continue
        face = each.back.sheet.outer.box
        corner = postage_corner(face.width, face.height).box
        middle = Point((corner.left + corner.right) / 2, (corner.top + corner.bottom) / 2)
        body = Polygon(outline_points(each))
        placed = _on(each, middle, wish, thing, number, table)
        if placed is not None and body.contains(mapped(thing.area, placed.to_table)):
            return placed
    return None


def _flap(wish: Wish, thing: Thing, table: _Table) -> PlacedThing | None:
    """Returns a place on the tip of a closed envelope's flap that nothing lies on."""
    for number, each in enumerate(table.composition.laid):
        if not (isinstance(each, LaidEnvelope) and isinstance(each.back, ClosedBack)):
            continue
        points = ring(each.back.flap.outer)
        tip = points[points[:, 1].argmax()]
        at = Point(float(tip[0]), float(tip[1]) - _TIP_IN)
        placed = _on(each, at, wish, thing, number, table)
        if placed is not None:
            return placed
    return None


def _on(
    laid: LaidEnvelope, at: Point, wish: Wish, thing: Thing, number: int, table: _Table
) -> PlacedThing | None:
    """Returns the thing at a point of an envelope, the `number`-th laid, and turned with it; None
    where paper or another thing lies on it, or the picture ends."""
    angle_deg = laid.placed.angle_deg + wish.angle_deg
    placed = PlacedThing(thing, _laid(laid.placed.to_table.point(at), angle_deg))
    above = [Polygon(outline_points(each)) for each in table.composition.laid[number + 1 :]]
    area = mapped(thing.area, placed.to_table)
    free = not area.intersects(unary_union([*above, table.things]))
    return placed if free and _frame(table, 0.0).contains(area) else None


def _on_piece(wish: Wish, thing: Thing, table: _Table) -> PlacedThing | None:
    return lie_on(wish, thing, table.composition, table.things)


def _outside(wish: Wish, thing: Thing, table: _Table) -> PlacedThing | None:
    """Returns a place beyond the picture, as low as can be, from where the shadow falls at `at`."""
    width, height = table.frame
    across, down = wish.at or _IN_THE_MIDDLE
    at = np.array([across * width, down * height, 0.0])
    away = _window_middle(table.window, width, height) - at
    for lift_in in np.arange(_LOWEST_IN, min(_HIGHEST_IN, 0.5 * away[2]), 0.5):
        x, y, _ = at + away * (lift_in / away[2])
        to_table = _laid(Point(float(x), float(y)), wish.angle_deg)
        if not mapped(thing.area, to_table).intersects(_frame(table, 0.0)):
            return PlacedThing(thing, to_table, lift_in=float(lift_in))
    return None


_PLACES: dict[str, Callable[[Wish, Thing, _Table], PlacedThing | None]] = {
    "empty": _empty,
    "under": _under,
    "envelope": _envelope,
    "flap": _flap,
    "on": _on_piece,
    "outside": _outside,
}


def _window_middle(window: Window, width: float, height: float) -> Grid:
    """Returns the middle of the window, (x, y, z) in table inches."""
    azimuth, elevation = math.radians(window.azimuth_deg), math.radians(window.elevation_deg)
    level = window.distance_in * math.cos(elevation)
    return np.array(
        [
            width / 2 + level * math.sin(azimuth),
            height / 2 - level * math.cos(azimuth),
            window.distance_in * math.sin(elevation),
        ]
    )


def _roomiest(
    wish: Wish,
    thing: Thing,
    table: _Table,
    ground: BaseGeometry,
    on_ground: tuple[float, float],
    closed: BaseGeometry,
    accepts: Callable[[BaseGeometry], bool] = lambda area: not area.is_empty,
) -> PlacedThing | None:
    """Returns the place with most room where the share on `ground` is as asked, none on `closed`.

    A turn away from the one wished for costs a little, running out of the picture more, and most
    where it is the thing's head that runs out or lies on the ground, which may hide it.
    `accepts` has the last word on a place.
    """
    areas = (thing.area, thing.head, ground, closed, table.paper, table.things)
    key = ("room", wish, on_ground, table.frame, *(each.wkb for each in areas))
    places = remembered(key, lambda: _roomy(wish, thing, table, ground, on_ground, closed))
    best = (at for at in places if accepts(mapped(thing.area, at)))
    to_table = next(best, None)
    return None if to_table is None else PlacedThing(thing, to_table)


def _roomy(
    wish: Wish,
    thing: Thing,
    table: _Table,
    ground: BaseGeometry,
    on_ground: tuple[float, float],
    closed: BaseGeometry,
) -> tuple[Affine, ...]:
    """Returns the best place at each turn, the one with most room first."""
    view = _wider(thing, table)
    frame = _frame(table, 0.0 if wish.run_out else _AIR_IN)
    crowd = _blurred(_mask(unary_union([table.paper, table.things]), view))
    masks = (_mask(ground, view), _mask(closed, view), _mask(frame, view), crowd)
    on_it, on_closed, inside, near = (np.fft.rfft2(mask) for mask in masks)
    found: list[tuple[float, Affine]] = []
    for angle_deg in _turns(wish):
        around = rotation(angle_deg)
        share = _share_of(mapped(thing.area, around), view)
        within = share(inside)
        ok = within >= 1 - wish.run_out - _SLIP
        if not ok.any():
            continue
        on = share(on_it)
        ok &= (on >= on_ground[0] - _SLIP) & (on <= on_ground[1] + _SLIP)
        ok &= share(on_closed) < _SLIP
        if not ok.any():
            continue
        head = _share_of(mapped(thing.head, around), view)
        cost = share(near) + 0.25 * (1 - within) + (1 - head(inside)) + 0.6 * head(on_it)
        cost += 0.1 * _turned(angle_deg, wish.angle_deg) / 180
        cost = np.where(ok, cost, np.inf)
        row, column = np.unravel_index(int(cost.argmin()), cost.shape)
        at = translation(view.left_in + column / _PPI, view.top_in + row / _PPI)
        found.append((float(cost[row, column]), at @ around))
    return tuple(at for _, at in sorted(found))


def _wider(thing: Thing, table: _Table) -> View:
    """Returns the grid: the picture, and round it what of the thing may lie outside.

    Its sides are multiples of 32 nodes: a Fourier transform of a side that is a large prime number
    takes several times as long.
    """
    reach = math.hypot(thing.width_in, thing.height_in) / 2 + 2 / _PPI
    wide, high = (32 * math.ceil((side + 2 * reach) * _PPI / 32) for side in table.frame)
    return View(-reach, -reach, wide, high, _PPI)


def _share_of(area: BaseGeometry, view: View) -> Callable[[NDArray[np.complex128]], Grid]:
    """Returns what gives a field's mean under the area, by where the area's origin lies.

    It takes the field's transform.
    """
    rows, columns = view.height_px, view.width_px
    # The origin in the middle of the grid; correlation then moves it to every node.
    centred = View(-(columns // 2) / _PPI, -(rows // 2) / _PPI, columns, rows, _PPI)
    mask = np.fft.ifftshift(_mask(area, centred))
    spectrum = np.conj(np.fft.rfft2(mask)) / mask.sum()
    return lambda field: np.fft.irfft2(field * spectrum, s=(rows, columns))


def _mask(area: BaseGeometry, view: View) -> Grid:
    total = np.zeros((view.height_px, view.width_px))
    for polygon in polygons_of(area):
        edges = (polygon.exterior, *polygon.interiors)
        rings = [np.asarray(edge.coords, dtype=np.float64)[:-1] for edge in edges]
        total = np.maximum(total, coverage(rings, view))
    return total


def _blurred(grid: Grid) -> Grid:
    """Returns a grid smoothed over about an inch and a half, at its own size."""
    fy, fx = np.fft.fftfreq(grid.shape[0])[:, None], np.fft.rfftfreq(grid.shape[1])[None, :]
    spread = 0.8 * _PPI
    soft = np.exp(-2 * (math.pi * spread) ** 2 * (fx * fx + fy * fy))
    return np.fft.irfft2(np.fft.rfft2(grid) * soft, s=grid.shape)


def _turns(wish: Wish) -> list[float]:
    many = int(wish.turn_deg // _TURN_STEP_DEG)
    return [wish.angle_deg + k * _TURN_STEP_DEG for k in range(-many, many + 1)]


def _turned(angle_deg: float, wished_deg: float) -> float:
    return abs((angle_deg - wished_deg + 180) % 360 - 180)


def _laid(at: Point, angle_deg: float) -> Affine:
    return translation(*at) @ rotation(angle_deg)


def _frame(table: _Table, inset_in: float) -> Polygon:
    width, height = table.frame
    return box(inset_in, inset_in, width - inset_in, height - inset_in)
