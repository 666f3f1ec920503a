"""Things that lie beside the paper, read from SVG: seal, stamps, twine, sprigs.

Each child of the drawing's root is one part, a slab with its own outline, thickness and height. A
group's first shape is the part's outline; the shapes after it are printed on it, or pressed into
or raised from it. Measures are inches, written as data-* attributes:

- on a part: data-thickness-in, data-lift-in (one number, or two: at the outline's first point and
  at the point farthest from it), data-curl-in, data-roughness, data-ior, data-grain;
- on an outline: data-round-in (how far its edge is rounded); where it is a stroke,
  data-twist-in (the pitch of two plies), data-wave-in (height and length of a ribbon's waves);
- on a shape after it: data-rise-in (below 0: pressed in), data-round-in (the width of its flank),
  data-dome-in (a rounded body that reaches this height), data-cut (a hole through the part).

A shape is a stroke where its fill is "none", else a fill; colours are six hex digits.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from xml.etree.ElementTree import Element

import numpy as np
from defusedxml.ElementTree import fromstring
from numpy.typing import NDArray
from shapely import LineString, Polygon, box, unary_union
from shapely.geometry.base import BaseGeometry

from mockup.artwork.svg import check_svg
from mockup.colour.srgb import Rgb, parse_hex
from mockup.errors import InputError, LimitError, SuiteError, nearest
from mockup.geometry.affine import Affine, scaling
from mockup.geometry.offset import polygons_of
from mockup.geometry.outline import Arc, Line, Segment
from mockup.shipped import shipped
from mockup.trade.limits import SVG_MAX_BYTES
from mockup.vector.pen import PathPen
from mockup.vector.svg_shapes import SHAPES, numbers, svg_length, transform

Points = NDArray[np.float64]
Style = Mapping[str, str]

_PX_PER_INCH = 96.0  # CSS 2.1 4.3.2
_INHERITED = ("fill", "stroke", "stroke-width", "stroke-linecap", "opacity", "fill-rule")
_STEPS = 24  # chords to a curved segment, thinned out again where fewer do
_ARC_STEP_DEG = 3.0
_CHORD_IN = 0.0004
_SMOOTHEST = 0.08  # of GGX: anything smoother would mirror the window as an image
_SHORT_HEX = re.compile(r"^#([0-9a-fA-F]{3})$")


@dataclass(frozen=True)
class Mark:
    """A shape on a part: printed in `rgb` if any, raised by `rise_in` over `round_in`.

    One with a `dome_in` is a rounded body that reaches that height above the part's own face.
    """

    area: BaseGeometry
    rgb: Rgb | None
    opacity: float
    rise_in: float
    round_in: float
    dome_in: float


@dataclass(frozen=True)
class Spine:
    """The line a stroke is drawn along, (n, 2) inches, and what runs along it."""

    points: Points
    width_in: float
    twist_in: float
    wave_in: tuple[float, float]


@dataclass(frozen=True)
class Part:
    """One slab of a thing. `lift_in` is its height at `from_to`'s first and second point."""

    area: Polygon
    rgb: Rgb
    marks: tuple[Mark, ...]
    spine: Spine | None
    thickness_in: float
    round_in: float
    lift_in: tuple[float, float]
    from_to: tuple[tuple[float, float], tuple[float, float]]
    curl_in: float
    roughness: float
    ior: float
    grain: str


@dataclass(frozen=True)
class Thing:
    """A thing, its parts from the bottom up, in inches about the middle of its drawing."""

    name: str
    width_in: float
    height_in: float
    parts: tuple[Part, ...]

    @property
    def area(self) -> BaseGeometry:
        """What the thing covers, seen from above."""
        return unary_union([part.area for part in self.parts])

    @property
    def head(self) -> BaseGeometry:
        """The upper part of its drawing: ears and leaves, where a stalk is the lower."""
        side = max(self.width_in, self.height_in)
        return self.area.intersection(box(-side, -side, side, -0.05 * self.height_in))


@dataclass(frozen=True)
class PlacedThing:
    """A thing on the table: the map from its inches to the table's, and what it lies with.

    `under` the paper it lies on the bare table, pressed flat; otherwise on whatever is there.
    `lift_in` raises all of it: a branch that hangs outside the picture.
    """

    thing: Thing
    to_table: Affine
    under: bool = False
    lift_in: float = 0.0


def thing_names() -> list[str]:
    """Returns the names of the things that come with the program."""
    return sorted(path.stem for path in (shipped("scenes") / "things").glob("*.svg"))


def read_thing(name: str, beside: Path) -> Thing:
    """Returns a thing by its name, or by the path of an SVG relative to `beside`.

    Raises SuiteError for an unknown name, InputError and LimitError for an SVG that cannot be read.
    """
    own = beside / name
    path = own if own.is_file() else shipped("scenes") / "things" / f"{name}.svg"
    if not path.is_file():
        raise SuiteError(f'no thing called "{name}"{nearest(name, thing_names())}')
    source = path.read_bytes()
    if len(source) > SVG_MAX_BYTES:
        raise LimitError(f"{path}: the SVG is over {SVG_MAX_BYTES // 1024**2} MB, the limit")
    check_svg(path, source)
    try:
        return _thing(path.stem, fromstring(source, forbid_entities=True, forbid_external=True))
    except (ValueError, SuiteError) as error:
        raise InputError(f"{path}: {error}") from error


def _thing(name: str, root: Element) -> Thing:
    width, height = (svg_length(root.get(k, "0"), 0.0) / _PX_PER_INCH for k in ("width", "height"))
    box = numbers(root.get("viewBox", ""))
    if width <= 0 or height <= 0 or len(box) != 4:
        raise ValueError("a thing needs width, height and viewBox, for its true size")
    scale = width / box[2]
    to_inches = scaling(scale) @ Affine(
        1, 0, 0, 1, -box[0] - box[2] / 2, -box[1] - height / scale / 2
    )
    parts = tuple(
        part for child in root if _drawn(child) for part in _parts(child, to_inches, _own({}, root))
    )
    if not parts:
        raise ValueError("nothing is drawn in it")
    return Thing(name, width, height, parts)


def _parts(element: Element, to_inches: Affine, style: Style) -> Iterator[Part]:
    """Yields the parts of a child of the root: one, or as many as its outline falls apart into."""
    shapes = list(_shapes(element, to_inches, style))
    if not shapes:
        return
    first, affine, own = shapes[0]
    area, line = _outline(first, affine, own)
    marks: list[Mark] = []
    for shape, at, drawn in shapes[1:]:
        if "data-cut" in drawn:
            area = area.difference(_outline(shape, at, drawn)[0])
        else:
            marks.append(_mark(shape, at, drawn))
    start = line[0]
    for polygon in polygons_of(area):
        ends = np.asarray(polygon.exterior.coords)
        far = ends[np.hypot(*(ends - start).T).argmax()]
        yield Part(
            polygon,
            _paint(own) or (200, 200, 200),
            tuple(marks),
            _spine(line, affine, own) if _is_stroke(own) else None,
            _number(own, "thickness", 0.01),
            _number(own, "round", 0.0),
            _pair(own, "lift", 0.0),
            ((float(start[0]), float(start[1])), (float(far[0]), float(far[1]))),
            _number(own, "curl", 0.0),
            max(_SMOOTHEST, float(own.get("data-roughness", "0.42"))),
            max(1.0, float(own.get("data-ior", "1.45"))),
            own.get("data-grain", "smooth"),
        )


def _spine(line: Points, affine: Affine, style: Style) -> Spine:
    twist, wave = _number(style, "twist", 0.0), _pair(style, "wave", 0.0)
    return Spine(line, _stroke_width(affine, style), twist, wave)


def _mark(shape: Element, affine: Affine, style: Style) -> Mark:
    area, _ = _outline(shape, affine, style)
    rise, flank = _number(style, "rise", 0.0), _number(style, "round", 0.01)
    opacity, dome = float(style.get("opacity", "1")), _number(style, "dome", 0.0)
    return Mark(area, _paint(style), opacity, rise, flank, dome)


def _shapes(
    element: Element, affine: Affine, style: Style
) -> Iterator[tuple[Element, Affine, dict[str, str]]]:
    """Yields an element's shapes in the order they are drawn, with their maps and styles."""
    affine = affine @ transform(element.get("transform", ""))
    own = _own(style, element)
    if _tag(element) in SHAPES:
        yield element, affine, own
    for child in element:
        if _drawn(child):
            yield from _shapes(child, affine, own)


def _own(style: Style, element: Element) -> dict[str, str]:
    """Returns the style an element draws with: its own attributes over those around it."""
    declared = (part.partition(":") for part in element.get("style", "").split(";"))
    own = {**element.attrib, **{key.strip(): value.strip() for key, _, value in declared}}
    return {
        **style,
        **{key: v for key, v in own.items() if key in _INHERITED or key.startswith("data-")},
    }


def _outline(shape: Element, affine: Affine, style: Style) -> tuple[BaseGeometry, Points]:
    """Returns what a shape covers, and the points of its first run, inches."""
    pen = PathPen(affine)
    SHAPES[_tag(shape)](shape, pen, 0.0, 0.0)
    pen.end()
    lines = [_flat(segments) for segments, _ in pen.runs]
    if not lines:
        raise ValueError(f"a {_tag(shape)} has nothing to draw")
    if _is_stroke(style):
        cap = "round" if style.get("stroke-linecap") == "round" else "flat"
        half = _stroke_width(affine, style) / 2
        strokes = [LineString(line).buffer(half, cap_style=cap, quad_segs=12) for line in lines]
        return unary_union(strokes).simplify(_CHORD_IN), lines[0]
    loops = [Polygon(line) for line in lines]
    return _filled(loops, style.get("fill-rule", "nonzero")).simplify(_CHORD_IN), lines[0]


def _filled(loops: list[Polygon], rule: str) -> BaseGeometry:
    """Returns what loops fill (SVG 1.1 11.3).

    By nonzero, a loop that runs the other way round inside those of the first's way is a hole.
    """
    sound = [loop.buffer(0) for loop in loops]
    if rule == "evenodd":
        area: BaseGeometry = Polygon()
        for loop in sound:
            area = area.symmetric_difference(loop)
        return area
    forward = loops[0].exterior.is_ccw
    same = [loop.exterior.is_ccw == forward for loop in loops]
    solid = unary_union([loop for loop, alike in zip(sound, same, strict=True) if alike])
    other = [loop for loop, alike in zip(sound, same, strict=True) if not alike]
    holes = [loop for loop in other if solid.contains(loop)]
    outside = [loop for loop in other if not solid.contains(loop)]
    return unary_union([solid, *outside]).difference(unary_union(holes))


def _flat(segments: list[Segment]) -> Points:
    points = [segments[0].start]
    for segment in segments:
        steps = 1 if isinstance(segment, Line) else _STEPS
        if isinstance(segment, Arc):
            steps = max(_STEPS, round(abs(segment.sweep_deg) / _ARC_STEP_DEG))
        points += [segment.at((k + 1) / steps) for k in range(steps)]
    return np.array(points, dtype=np.float64)


def _is_stroke(style: Style) -> bool:
    return style.get("fill") == "none" and style.get("stroke", "none") != "none"


def _stroke_width(affine: Affine, style: Style) -> float:
    return float(style.get("stroke-width", "1")) * math.sqrt(abs(affine.determinant))


def _paint(style: Style) -> Rgb | None:
    paint = style.get("stroke") if _is_stroke(style) else style.get("fill", "#000000")
    if paint is None or paint == "none":
        return None
    short = _SHORT_HEX.match(paint)
    return parse_hex("#" + "".join(2 * digit for digit in short[1]) if short else paint)


def _number(style: Style, name: str, default: float) -> float:
    text = style.get(f"data-{name}-in", str(default))
    try:
        return float(text)
    except ValueError:
        raise ValueError(f'data-{name}-in: "{text[:40]}" is no number') from None


def _pair(style: Style, name: str, default: float) -> tuple[float, float]:
    text = style.get(f"data-{name}-in", str(default))
    values = numbers(text)
    if not values:
        raise ValueError(f'data-{name}-in: "{text[:40]}" is no number')
    return values[0], values[-1]


def _drawn(element: Element) -> bool:
    return _tag(element) in SHAPES or _tag(element) == "g"


def _tag(element: Element) -> str:
    return str(element.tag).rpartition("}")[2]
