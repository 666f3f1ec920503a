"""Scalloped cards: whole lobes all round or on two edges, and the scalloped circle."""

from __future__ import annotations

import math

from mockup.dies.families.rounds import need_square
from mockup.dies.family import Family, count, length
from mockup.dies.fit import ALL, EDGES, LEFT_RIGHT, MisfitError, side_affine, within, within_number
from mockup.errors import Mistake
from mockup.geometry.outline import Arc, Line, Outline, Segment, Shape, circle_arc, ellipse_arc
from mockup.geometry.point import Point


def scalloped_edge(width_in: float, height_in: float, lobe: float, edges: str) -> Shape:
    """Returns a card edged with half-round lobes, as near to `lobe` inches wide as fit whole.

    All round, each corner is three quarters of a disc of radius r and the lobes stand on the
    rectangle inset by r: (W - 2r)(H - 2r) + sides pi r^2 / 2 + 3 pi r^2. On two edges the lobes
    are half circles that end at the corners.
    """
    if edges == ALL:
        return _all_round(width_in, height_in, lobe)
    if edges == LEFT_RIGHT:
        return _two_ends(height_in, width_in, lobe).mapped(
            side_affine("right", width_in, height_in)
        )
    return _two_ends(width_in, height_in, lobe)


def _all_round(width_in: float, height_in: float, lobe: float) -> Shape:
    within("lobe", lobe, 0.05, min(width_in, height_in) / 3)
    across, down = _whole_lobes(width_in, height_in, lobe)
    radius = (width_in / across + height_in / down) / 4
    corner = circle_arc(Point(radius, radius), radius, 90, 270)
    segments: list[Segment] = []
    for side, along, lobes in (
        ("top", width_in, across),
        ("right", height_in, down),
        ("bottom", width_in, across),
        ("left", height_in, down),
    ):
        pitch = (along - 4 * radius) / (lobes - 2)
        row = [corner, *_row(2 * radius, radius, pitch, radius, lobes - 2)]
        turn = side_affine(side, width_in, height_in)
        segments += [segment.mapped(turn) for segment in row]
    return Shape(Outline(tuple(segments)))


def _whole_lobes(width_in: float, height_in: float, lobe: float) -> tuple[int, int]:
    """Returns how many lobes go across and down so that they are most nearly alike and as asked."""

    def misfit(counts: tuple[int, int]) -> float:
        wide, high = width_in / counts[0], height_in / counts[1]
        return 4 * abs(math.log(wide / high)) + abs(math.log(math.sqrt(wide * high) / lobe))

    near = [(width_in / lobe, height_in / lobe)[k] for k in (0, 1)]
    tries = [range(max(3, math.floor(n) - 1), math.ceil(n) + 3) for n in near]
    return min(((a, b) for a in tries[0] for b in tries[1]), key=misfit)


def _two_ends(width_in: float, height_in: float, lobe: float) -> Shape:
    within("lobe", lobe, 0.05, min(width_in, height_in / 1.5))
    lobes = max(1, round(width_in / lobe))
    radius = width_in / lobes / 2
    top = _row(0, radius, 2 * radius, radius, lobes)
    turn = side_affine("bottom", width_in, height_in)
    bottom = [segment.mapped(turn) for segment in top]
    right = Line(Point(width_in, radius), Point(width_in, height_in - radius))
    left = Line(Point(0, height_in - radius), Point(0, radius))
    return Shape(Outline((*top, right, *bottom, left)))


def _row(start: float, base: float, pitch: float, depth: float, lobes: int) -> list[Arc]:
    """Returns half-round lobes standing on the line y = `base`, from x = `start` on."""
    return [
        ellipse_arc(Point(start + pitch * (k + 0.5), base), pitch / 2, depth, 180, 180)
        for k in range(lobes)
    ]


SCALLOPED_EDGE = Family(
    "scalloped-edge",
    "a card edged with half-round lobes, whole ones at every corner",
    "half circles on a rectangle inset by their radius",
    (
        length("lobe", lambda w, h: min(0.5, min(w, h) / 6), "width of a lobe, about"),
        EDGES,
    ),
    scalloped_edge,
)


def scalloped_circle(width_in: float, height_in: float, lobes: int) -> Shape:
    """Returns N half circles on the sides of a regular N-gon of circumradius R.

    Area N R^2 sin(2 pi / N) / 2 + N pi s^2 / 8, perimeter N pi s / 2, s = 2 R sin(pi / N). A lobe
    points to each side of the card, so N is a multiple of four and W = 2 R (cos + sin)(pi / N).
    """
    need_square("scalloped-circle", "scalloped-edge", width_in, height_in)
    within_number("lobes", lobes, 8, 96)
    if lobes % 4:
        said = f"{lobes} lobes do not touch all four sides; use {4 * max(2, round(lobes / 4))}"
        raise MisfitError(lambda _: Mistake(said, key="lobes"))
    half = math.pi / lobes
    ring = width_in / 2 / (math.cos(half) + math.sin(half))
    middle = Point(width_in / 2, width_in / 2)
    arcs: list[Arc] = []
    for k in range(lobes):
        turn = math.degrees(2 * half * k) - 90
        out = circle_arc(middle, ring * math.cos(half), turn, 0).start
        arcs.append(circle_arc(out, ring * math.sin(half), turn - 90, 180))
    return Shape(Outline(tuple(arcs)))


SCALLOPED_CIRCLE = Family(
    "scalloped-circle",
    "a disc edged with half-round lobes; the card must be square",
    "half circles on the sides of a regular polygon",
    (count("lobes", 24, "how many, a multiple of four"),),
    scalloped_circle,
)
