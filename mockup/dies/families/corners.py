"""Cards whose corners are shaped, each corner apart: rounded, ticket, chamfered, notched."""

from __future__ import annotations

from collections.abc import Callable

from mockup.dies.family import Corners, Family, corners
from mockup.dies.fit import within
from mockup.geometry.outline import Arc, Line, Outline, Segment, Shape
from mockup.geometry.point import Point

# The corners clockwise from the top left: how one walks in, and how one walks out.
_IN = (Point(0, -1), Point(1, 0), Point(0, 1), Point(-1, 0))
_OUT = (Point(1, 0), Point(0, 1), Point(-1, 0), Point(0, -1))
_BITE = 0.45  # bites larger than this share of a side would leave too little of it standing

Turning = Callable[[Point, Point, Point], list[Segment]]
"""From a corner and the two reaches (towards it, away from it) to what replaces the corner."""


def rounded_corner(width_in: float, height_in: float, radius: Corners) -> Shape:
    """Returns the card with rounded corners; W H - (4 - pi) r^2, 2 (W + H) - 8 r + 2 pi r."""
    _fit("radius", radius, min(width_in, height_in) / 2)
    return cornered(width_in, height_in, radius, radius, rounded)


def ticket_corner(width_in: float, height_in: float, radius: Corners) -> Shape:
    """Returns the card with quarter discs bitten out; W H - pi r^2, 2 (W + H) - 8 r + 2 pi r."""
    _fit("radius", radius, _BITE * min(width_in, height_in))
    return cornered(width_in, height_in, radius, radius, _bitten)


def chamfered_corner(width_in: float, height_in: float, cut: Corners) -> Shape:
    """Returns the card, corners cut at 45 degrees; W H - 2 c^2, 2 (W + H) - 8 c + 4 c sqrt 2."""
    _fit("cut", cut, min(width_in, height_in) / 2)
    return cornered(width_in, height_in, cut, cut, _chamfered)


def notched_corner(width_in: float, height_in: float, across: Corners, down: Corners) -> Shape:
    """Returns the card with a p x q rectangle out of each corner; W H - 4 p q, 2 (W + H)."""
    _fit("across", across, _BITE * width_in)
    _fit("down", down, _BITE * height_in)
    return cornered(width_in, height_in, across, down, _notched)


def _fit(name: str, reach: Corners, most: float) -> None:
    for each in reach:
        within(name, each, 0, most)


def cornered(
    width_in: float, height_in: float, across: Corners, down: Corners, turning: Turning
) -> Shape:
    """Returns a card whose corners are replaced, reaching so far across and down, clockwise."""
    places = (Point(0, 0), Point(width_in, 0), Point(width_in, height_in), Point(0, height_in))
    segments: list[Segment] = []
    for k, place in enumerate(places):
        inward, outward = (down[k], across[k]) if k % 2 == 0 else (across[k], down[k])
        come = Point(_IN[k].x * inward, _IN[k].y * inward)
        leave = Point(_OUT[k].x * outward, _OUT[k].y * outward)
        if inward > 0 and outward > 0:
            segments += turning(place, come, leave)
        else:
            segments.append(Line(place, place))
    return Shape(_linked(segments))


def _linked(segments: list[Segment]) -> Outline:
    """Returns the outline with straight lines between what stands at the corners."""
    path: list[Segment] = []
    for segment, after in zip(segments, [*segments[1:], segments[0]], strict=True):
        if segment.start != segment.end:
            path.append(segment)
        if _apart(segment.end, after.start):
            path.append(Line(segment.end, after.start))
    return Outline(tuple(path))


def _apart(a: Point, b: Point) -> bool:
    return abs(a.x - b.x) + abs(a.y - b.y) > 1e-9


def rounded(corner: Point, come: Point, leave: Point) -> list[Segment]:
    """Returns the quarter of an ellipse that rounds a corner."""
    centre = Point(corner.x - come.x + leave.x, corner.y - come.y + leave.y)
    return [Arc(centre, Point(-leave.x, -leave.y), come, 0, 90)]


def _bitten(corner: Point, come: Point, leave: Point) -> list[Segment]:
    return [Arc(corner, Point(-come.x, -come.y), leave, 0, 90)]


def _chamfered(corner: Point, come: Point, leave: Point) -> list[Segment]:
    start = Point(corner.x - come.x, corner.y - come.y)
    return [Line(start, Point(corner.x + leave.x, corner.y + leave.y))]


def _notched(corner: Point, come: Point, leave: Point) -> list[Segment]:
    start = Point(corner.x - come.x, corner.y - come.y)
    inner = Point(start.x + leave.x, start.y + leave.y)
    return [Line(start, inner), Line(inner, Point(corner.x + leave.x, corner.y + leave.y))]


def _small(share: float, most_in: float) -> Callable[[float, float], float]:
    """Returns a default of `most_in`, less on a card whose short side is small."""
    return lambda width_in, height_in: min(most_in, share * min(width_in, height_in))


ROUNDED_CORNER = Family(
    "rounded-corner",
    "a card with rounded corners",
    "quarter circles tangent to both sides",
    (corners("radius", _small(0.1, 0.25), "radius of the corners"),),
    rounded_corner,
)
TICKET_CORNER = Family(
    "ticket-corner",
    "a card with a quarter disc bitten out of each corner",
    "quarter circles centred on the corners",
    (corners("radius", _small(0.1, 0.5), "radius of the bites"),),
    ticket_corner,
)
CHAMFERED_CORNER = Family(
    "chamfered-corner",
    "a card with its corners cut off at 45 degrees",
    "right isosceles triangles off the corners",
    (corners("cut", _small(0.1, 0.5), "how far along each side the cut begins"),),
    chamfered_corner,
)
NOTCHED_CORNER = Family(
    "notched-corner",
    "a card with a rectangle out of each corner",
    "rectangles off the corners",
    (
        corners("across", _small(0.06, 0.3), "width of the notch"),
        corners("down", _small(0.06, 0.3), "height of the notch"),
    ),
    notched_corner,
)
