"""Folded cards on the table: closed, half open, open to their inside, or standing as a tent."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from mockup.artwork.objects import ArtObject, keep_clear
from mockup.artwork.page import ArtPage, Placement
from mockup.dies.folding import Fold, to_front, unfolded
from mockup.geometry.affine import IDENTITY, Affine, translation
from mockup.geometry.flatten import Ring, ring
from mockup.geometry.outline import Shape
from mockup.geometry.point import Box, Point
from mockup.render.light.scene import Crease, Plane, Rings, Sheet, raised
from mockup.render.light.settle import settle
from mockup.render.piece import located
from mockup.suite.suite import Piece

HALF_OPEN_DEG = 40.0
"""How far the front of a card half open stands off its back; judgement: the inside shows, and the
front can still be read."""
STANDING_DEG = 40.0
"""How steep the panels of a tent stand on the table; judgement: from above, a tent of 60 degrees
would show its type half as high, and turn it away from the light."""

_CREASE_WIDTH_IN, _CREASE_SLOPE = 0.05, -0.16  # an opened fold is a soft valley; by eye
_COARSE_IN = 0.01

Located = tuple[ArtPage, Placement]


@dataclass(frozen=True)
class Pose:
    """A piece as it is seen from above.

    `seen` is it with the outline it has on the table; `source` is the side whose art is seen, and
    `to_seen` the map from that side's inches to the outline's.
    """

    of: Piece
    seen: Piece
    source: Piece
    to_seen: Affine

    @property
    def is_raised(self) -> bool:
        """Whether a panel of it stands off the table, so that nothing can lie on it."""
        return self.of.fold is not None and self.of.shown in ("half-open", "standing")

    def kept_clear(self, marks: Sequence[ArtObject]) -> tuple[Ring | Box, ...]:
        """Returns what no other piece may hide of it, by the marks of its source's page."""
        die = self.source.die
        if self.is_raised:
            return (ring(self.seen.die.shape.outer, _COARSE_IN),)
        if self.of.fold is not None:
            marks = [each for each in marks if _is_on(each.box, die.width_in, die.height_in)]
        return tuple(keep_clear(marks, die.width_in, die.height_in))


def pose_of(piece: Piece) -> Pose:
    """Returns how a piece lies: a flat one as it is, a folded one as it is shown."""
    fold = piece.fold
    if fold is None or piece.side:
        return Pose(piece, piece, piece, IDENTITY)
    if piece.shown == "inside" and piece.back is not None:
        _, inside = piece.sides
        return Pose(piece, inside, inside, IDENTITY)
    if piece.shown == "standing":
        outside = piece.sides[0]
        low = _squeezed(fold, STANDING_DEG)
        shape, high = outside.die.shape.mapped(low), outside.die.height_in * low.d
        die = replace(outside.die, shape=shape, height_in=high, folds=())
        return Pose(piece, replace(outside, die=die), outside, low)
    angle = HALF_OPEN_DEG if piece.shown == "half-open" else 0.0
    return Pose(piece, piece, piece, _squeezed(fold, angle))


@dataclass(frozen=True)
class Leaf:
    """A panel of a folded card: its shape in the inches of what is seen of the card, its art and
    the map to those inches, how it rises; no art is bare paper."""

    shape: Shape
    art: Located | None
    to_seen: Affine
    rise: Rise | None = None
    valley: tuple[Point, Point] | None = None


@dataclass(frozen=True)
class Rise:
    """How a panel stands over what is under it: by (x - x_in) gx + (y - y_in) gy inches, and how
    steep the paper itself is. `footprint` is what a tent rests with, told by its first panel; any
    other panel stands on the panel before it."""

    x_in: float
    y_in: float
    gx: float
    gy: float
    angle_deg: float
    footprint: Shape | None = None

    def mapped(self, affine: Affine) -> Rise:
        """Returns it after a rigid motion of the table."""
        at, way = affine.point(Point(self.x_in, self.y_in)), affine.vector(Point(self.gx, self.gy))
        foot = self.footprint and self.footprint.mapped(affine)
        return Rise(*at, *way, self.angle_deg, foot)

    def over(self, ground: Plane) -> Plane:
        """Returns the plane of the panel's underside, over the plane it stands on."""
        z0 = ground.z0_in - self.x_in * self.gx - self.y_in * self.gy
        return Plane(z0, ground.gx + self.gx, ground.gy + self.gy)

    @property
    def upright(self) -> float:
        """How much thicker paper is straight up than across."""
        return 1 / math.cos(math.radians(self.angle_deg))


def leaves_of(pose: Pose, page: ArtPage, placement: Placement) -> list[Leaf]:
    """Returns the papers a folded card is seen as, the lowest first.

    Raises InputError and LimitError for an inside that cannot be read.
    """
    piece, fold = pose.of, pose.of.fold
    assert fold is not None
    front = (page, placement)
    shape = piece.die.shape
    if pose.source.side == "inside":
        line = unfolded(piece.die, fold).folds[0][0]
        return [Leaf(pose.seen.die.shape, front, IDENTITY, None, (line.start, line.end))]
    if pose.of.shown == "standing":
        return _tent(pose, fold, front)
    under = Leaf(shape, *_inside_under(piece, fold))
    if piece.shown == "half-open":
        rise = _rise(fold, HALF_OPEN_DEG, Point(0.0, 0.0), 1.0)
        return [under, Leaf(shape.mapped(pose.to_seen), front, pose.to_seen, rise)]
    return [replace(under, art=None), Leaf(shape, front, IDENTITY)]


def _inside_under(piece: Piece, fold: Fold) -> tuple[Located | None, Affine]:
    """Returns the art of the panel that lies under the front, and the map from its flat sheet."""
    if piece.back is None:
        return None, IDENTITY
    _, inside = piece.sides
    return located(inside), to_front(piece.die.width_in, piece.die.height_in, fold).inverse()


def _tent(pose: Pose, fold: Fold, art: Located) -> list[Leaf]:
    """Returns the back and the front panel, which meet in the ridge."""
    die, low = pose.of.die, pose.to_seen
    high_in = die.height_in * low.d
    front = die.shape.mapped(translation(0.0, high_in) @ low)
    back = die.shape.mapped(Affine(1, 0, 0, -low.d, 0.0, high_in))
    back = Shape(back.outer.reversed(), tuple(hole.reversed() for hole in back.holes))
    behind = _rise(fold, STANDING_DEG, Point(0.0, 0.0), 1.0)
    before = _rise(fold, STANDING_DEG, Point(0.0, 2 * high_in), -1.0)
    ground = pose.seen.die.shape
    return [
        Leaf(back, art, low, replace(behind, footprint=ground)),
        Leaf(front, art, low, before),
    ]


def _rise(fold: Fold, angle_deg: float, foot: Point, way: float) -> Rise:
    """Returns a panel that rises from its foot at an angle, right and down where `way` is 1."""
    steep = way * math.tan(math.radians(angle_deg))
    gx, gy = (steep, 0.0) if fold == "left" else (0.0, steep)
    return Rise(foot.x, foot.y, gx, gy, angle_deg)


def _squeezed(fold: Fold, angle_deg: float) -> Affine:
    """Returns how a panel that stands at an angle is seen from above: drawn in towards its fold."""
    short = math.cos(math.radians(angle_deg))
    return Affine(short, 0, 0, 1, 0, 0) if fold == "left" else Affine(1, 0, 0, short, 0, 0)


def _is_on(box: Box, width_in: float, height_in: float) -> bool:
    return box.right > 0 and box.left < width_in and box.bottom > 0 and box.top < height_in


def valley(ends: tuple[Point, Point], to_table: Affine) -> Crease:
    """Returns an opened fold as the light sees it."""
    start, end = (to_table.point(point) for point in ends)
    return Crease((start.x, start.y), (end.x, end.y), _CREASE_WIDTH_IN, _CREASE_SLOPE)


def at_rest(
    sheets: Sequence[Sheet], lifts_in: Sequence[float], rises: Sequence[tuple[Rise, Rings] | None]
) -> list[Plane]:
    """Returns the plane of each sheet, bottom to top, raised panels on what they stand on.

    Nothing else rests on a raised panel: sheets above come to lie on what is under it.
    """
    lying = [k for k, each in enumerate(rises) if each is None or len(each[1])]
    stand_ins = [_stand_in(sheets[k], rises[k]) for k in lying]
    settled = dict(zip(lying, settle(stand_ins, [lifts_in[k] for k in lying]), strict=True))
    planes: list[Plane] = []
    ground = Plane()
    for k, each in enumerate(rises):
        if each is None:
            planes.append(settled[k].plane)
            ground = raised(settled[k])
            continue
        rise, foot = each
        ground = settled[k].plane if len(foot) else ground
        planes.append(rise.over(ground))
    return planes


def _stand_in(sheet: Sheet, raised_by: tuple[Rise, Rings] | None) -> Sheet:
    """Returns what settles in a sheet's place: a tent comes to rest with all it stands on."""
    return sheet if raised_by is None else replace(sheet, rings=raised_by[1], thickness_in=0.0)
