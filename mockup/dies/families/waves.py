"""Cards of flowing curves: wavy edge, ogee label, petal."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import lru_cache

from mockup.dies.family import Family, choice, count, length, number
from mockup.dies.fit import ALL, EDGES, LEFT_RIGHT, TOP_BOTTOM, side_affine, within, within_number
from mockup.geometry.affine import Affine, rotation, scaling, translation
from mockup.geometry.fitting import Curve, fit
from mockup.geometry.outline import Line, Outline, Segment, Shape, circle_arc
from mockup.geometry.point import Point

_MIRROR = Affine(-1, 0, 0, 1, 0, 0)


def wavy_edge(width_in: float, height_in: float, wave: float, depth: float, edges: str) -> Shape:
    """Returns a card edged with sine waves, crest to trough `depth`, whole ones near `wave` long.

    All round: sine edges about a rectangle inset by depth / 2, joined trough to trough by one wave
    about each rounded corner (radius 2 wave / pi, amplitude A): area that of the rounded rectangle
    + pi A^2 / 2. On two edges: W (H - depth). Cubics at most 2e-8 in off.
    """
    within("wave", wave, 0.1, min(width_in, height_in) / 4)
    within("depth", depth, wave / 50, wave / 2)
    if edges == ALL:
        return _waves_round(width_in, height_in, wave, depth / 2)
    if edges == LEFT_RIGHT:
        turn = side_affine("right", width_in, height_in)
        return _waves_ends(height_in, width_in, wave, depth / 2).mapped(turn)
    return _waves_ends(width_in, height_in, wave, depth / 2)


def ogee_label(width_in: float, height_in: float, depth: float, edges: str) -> Shape:
    """Returns a label whose sides swell by `depth` in double curves of equal tangent arcs.

    A side of half-length h is drawn with arcs of radius (depth^2 + h^2) / 4 depth; by symmetry it
    adds depth times h to the rectangle it stands on.
    """
    least = min(width_in, height_in)
    within("depth", depth, least / 50, least / 6)
    shaped = {
        "top": edges != LEFT_RIGHT,
        "right": edges in (ALL, LEFT_RIGHT),
        "bottom": edges != LEFT_RIGHT,
        "left": edges in (ALL, LEFT_RIGHT),
    }
    segments: list[Segment] = []
    for side, along, neighbour in (
        ("top", width_in, "right"),
        ("right", height_in, "bottom"),
        ("bottom", width_in, "left"),
        ("left", height_in, "top"),
    ):
        inset = depth if shaped[neighbour] else 0.0
        row = _swelling(along, inset, depth) if shaped[side] else _straight(along, inset)
        turn = side_affine(side, width_in, height_in)
        segments += [segment.mapped(turn) for segment in row]
    return Shape(Outline(tuple(segments)))


def petal(width_in: float, height_in: float, petals: int, depth: float) -> Shape:
    """Returns the flower r = 1 - depth (1 - cos n t) / 2 about its middle, stretched to the card.

    Area before stretching pi ((1 - depth / 2)^2 + depth^2 / 8). Cubics at most 2e-8 of the
    radius off.
    """
    within_number("petals", petals, 3, 24)
    within_number("depth", depth, 0.02, 0.7)
    half = fit(_flower(petals, depth), 0.0, math.pi / petals)  # from the tip upright, clockwise
    second = [cubic.mapped(_MIRROR).reversed() for cubic in reversed(half)]
    turn = rotation(360 / petals)
    one: list[Segment] = [*half, *(cubic.mapped(turn) for cubic in second)]
    whole: list[Segment] = []
    for k in range(petals):
        whole += [segment.mapped(rotation(360 * k / petals)) for segment in one]
    outline = Outline(tuple(whole))
    box = outline.box
    fitted = scaling(width_in / box.width, height_in / box.height)
    return Shape(outline.mapped(fitted @ translation(-box.left, -box.top)))


@lru_cache(maxsize=64)  # fitted again at every look into a catalogue it took half of the reading
def _waves_round(width_in: float, height_in: float, wave: float, swing: float) -> Shape:
    radius = 2 * wave / math.pi  # a quarter turn of it is one wave long
    start = swing + radius
    corner = _there_and_back(fit(_corner_wave(radius, swing), 0.0, math.pi / 4), 45)
    segments: list[Segment] = []
    for side, along in (
        ("top", width_in),
        ("right", height_in),
        ("bottom", width_in),
        ("left", height_in),
    ):
        waves = max(1, round((along - 2 * start) / wave))
        row = _row(start, along - start, waves, swing)
        place = translation(along - start, start)
        row += [segment.mapped(place) for segment in corner]
        turn = side_affine(side, width_in, height_in)
        segments += [segment.mapped(turn) for segment in row]
    return Shape(Outline(tuple(segments)))


def _waves_ends(width_in: float, height_in: float, wave: float, swing: float) -> Shape:
    top = _row(0, width_in, max(1, round(width_in / wave)), swing)
    turn = side_affine("bottom", width_in, height_in)
    bottom = [segment.mapped(turn) for segment in top]
    high, low = 2 * swing, height_in - 2 * swing
    right = Line(Point(width_in, high), Point(width_in, low))
    return Shape(Outline((*top, right, *bottom, Line(Point(0, low), Point(0, high)))))


def _row(start: float, end: float, waves: int, swing: float) -> list[Segment]:
    """Returns whole waves along the top of a card, troughs at both ends, crests at y = 0."""
    pitch = (end - start) / waves
    half = fit(_sine(pitch, swing), 0.0, pitch / 2)
    back = [cubic.mapped(translation(pitch, 0) @ _MIRROR).reversed() for cubic in reversed(half)]
    return [
        segment.mapped(translation(start + pitch * k, 0))
        for k in range(waves)
        for segment in (*half, *back)
    ]


def _there_and_back(half: tuple[Segment, ...], axis_deg: float) -> list[Segment]:
    """Returns a curve and its mirror image, from twelve o'clock about an axis so far round."""
    turn = rotation(axis_deg) @ _MIRROR @ rotation(-axis_deg)
    return [*half, *(segment.mapped(turn).reversed() for segment in reversed(half))]


def _sine(pitch: float, swing: float) -> Curve:
    """Returns y = swing (1 + cos(2 pi x / pitch)): a trough at x = 0, y down."""
    k = 2 * math.pi / pitch

    def at(x: float) -> tuple[Point, Point]:
        return Point(x, swing * (1 + math.cos(k * x))), Point(1, -swing * k * math.sin(k * x))

    def off(point: Point) -> float:
        (_, y), (_, slope) = at(point.x)
        return (point.y - y) / math.hypot(1, slope)

    return Curve(at, off)


def _corner_wave(radius: float, swing: float) -> Curve:
    """Returns r = radius - swing cos 4t, t clockwise from twelve o'clock: a crest at 45 degrees."""
    return _polar(lambda t: radius - swing * math.cos(4 * t), lambda t: 4 * swing * math.sin(4 * t))


def _flower(petals: int, depth: float) -> Curve:
    n = petals
    return _polar(
        lambda t: 1 - depth * (1 - math.cos(n * t)) / 2,
        lambda t: -depth * n * math.sin(n * t) / 2,
    )


def _polar(reach: Callable[[float], float], growth: Callable[[float], float]) -> Curve:
    """Returns a curve told by its distance from the origin, t clockwise from twelve o'clock."""

    def at(t: float) -> tuple[Point, Point]:
        r, dr, sin, cos = reach(t), growth(t), math.sin(t), math.cos(t)
        return Point(r * sin, -r * cos), Point(dr * sin + r * cos, -dr * cos + r * sin)

    def off(point: Point) -> float:
        t = math.atan2(point.x, -point.y)
        r = math.hypot(*point)
        return (r - reach(t)) / math.hypot(1, growth(t) / r)

    return Curve(at, off)


def _swelling(along: float, inset: float, depth: float) -> list[Segment]:
    half = along / 2 - inset
    radius = (depth * depth + half * half) / (4 * depth)
    turn = math.degrees(math.asin(half / (2 * radius)))
    rising: list[Segment] = [
        circle_arc(Point(inset, depth - radius), radius, 90, -turn),
        circle_arc(Point(along / 2, radius), radius, 270 - turn, turn),
    ]
    flip = Affine(-1, 0, 0, 1, along, 0)
    return [*rising, *(segment.mapped(flip).reversed() for segment in reversed(rising))]


def _straight(along: float, inset: float) -> list[Segment]:
    return [Line(Point(inset, 0), Point(along - inset, 0))]


WAVY_EDGE = Family(
    "wavy-edge",
    "a card edged with sine waves, closed without a kink",
    "sine curves; each corner one wave about a quarter circle",
    (
        length("wave", lambda w, h: min(0.5, min(w, h) / 6), "length of a wave, about"),
        length("depth", lambda w, h: min(0.125, min(w, h) / 24), "trough to crest"),
        EDGES,
    ),
    wavy_edge,
)
OGEE_LABEL = Family(
    "ogee-label",
    "a label with double-curved sides",
    "reverse curves of equal tangent arcs",
    (
        length("depth", lambda w, h: min(w, h) / 12, "how far a side swells"),
        choice("edges", (LEFT_RIGHT, TOP_BOTTOM, ALL), EDGES.about),
    ),
    ogee_label,
)
PETAL = Family(
    "petal",
    "a flower of round petals",
    "r = 1 - depth (1 - cos n t) / 2",
    (
        count("petals", 6, "how many"),
        number("depth", 0.25, "how deep the valleys, as a share of the radius"),
    ),
    petal,
)
