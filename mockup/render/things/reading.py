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

A shape is a stroke where its fill is "none", else a fill; its colour is plain, as CSS writes it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from shapely import LineString, Polygon, box, unary_union
from shapely.geometry.base import BaseGeometry

from mockup.colour.srgb import Rgb
from mockup.errors import InputError, LimitError, Mistake
from mockup.geometry.affine import Affine, translation
from mockup.geometry.offset import polygons_of
from mockup.geometry.outline import Arc, Line, Segment
from mockup.render.memory import remembered
from mockup.sources import read_whole, sha256_of
from mockup.suite.scene_file import thing_file
from mockup.trade.limits import SVG_MAX_BYTES, THING_SEGMENTS_MAX
from mockup.vector.drawing import Drawing, DrawnShape
from mockup.workshop import crew
from mockup.workshop.job import Job

Points = NDArray[np.float64]
Data = Mapping[str, str]

_READ = "mockup.vector.svg_reading:read_svg"
_MEASURE_MAX = 100.0  # inches, and of what has no unit; judgement: a thing lies on a table
_PLAIN: Rgb = (200, 200, 200)  # of a part that says no colour
_STEPS = 24  # chords to a curved segment, thinned out again where fewer do
_ARC_STEP_DEG = 3.0
_CHORD_IN = 0.0004
_SMOOTHEST = 0.08  # of GGX: anything smoother would mirror the window as an image


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


def read_thing(name: str, beside: Path) -> Thing:
    """Returns a thing by its name, or by the path of an SVG relative to `beside`.

    Raises SuiteError for an unknown name, InputError and LimitError for an SVG that cannot be read.
    """
    path = thing_file(name, beside)
    source = read_whole(path, SVG_MAX_BYTES)
    mark = sha256_of(source)
    return remembered(("thing", str(path), mark), lambda: _thing(path.stem, _drawing(path, source)))


def _drawing(path: Path, source: bytes) -> Drawing:
    mark = sha256_of(source)
    job = Job((str(path), source), str(path), mark, (str(path), mark))
    (drawing,) = crew.done(_READ, [job])
    return drawing


def _thing(name: str, drawing: Drawing) -> Thing:
    width, height = drawing.width_in, drawing.height_in
    if not drawing.sized:
        raise InputError(f"{drawing.name}: a thing needs width and height, for its true size")
    to_middle = translation(-width / 2, -height / 2)
    shown = [shape for shape in drawing.shapes if not shape.hidden]
    if sum(len(run.segments) for shape in shown for run in shape.runs) > THING_SEGMENTS_MAX:
        said = (
            f"draws over {THING_SEGMENTS_MAX} lines and curves, the limit of a thing; simplify it"
        )
        raise LimitError(f"{drawing.name}: {said}")
    parts = tuple(
        part
        for _, shapes in groupby(shown, key=lambda shape: shape.child)
        for part in _parts([_Shape(drawing.name, each, to_middle) for each in shapes])
    )
    if not parts:
        raise InputError(f"{drawing.name}: nothing is drawn in it")
    return Thing(name, width, height, parts)


class _Shape:
    """A shape of the drawing: what it covers, its colour, and the measures it is given."""

    def __init__(self, file: str, drawn: DrawnShape, to_middle: Affine) -> None:
        self.drawn = drawn
        self._file = file
        self._to_middle = to_middle
        self._data: Data = dict(drawn.data)

    @property
    def is_cut(self) -> bool:
        """Whether it is a hole through the part."""
        return "data-cut" in self._data

    @property
    def is_stroke(self) -> bool:
        """Whether it is drawn by its stroke alone."""
        return self.drawn.fill is None and self.drawn.stroke is not None

    def outline(self) -> tuple[BaseGeometry, Points]:
        """Returns what it covers, and the points of its first run, inches."""
        lines = [_flat(run.segments, self._to_middle) for run in self.drawn.runs]
        stroke = self.drawn.stroke
        if self.drawn.fill is None and stroke is not None:
            cap = "round" if stroke.cap == "round" else "flat"
            half = stroke.width_in / 2
            strokes = [LineString(each).buffer(half, cap_style=cap, quad_segs=12) for each in lines]
            return unary_union(strokes).simplify(_CHORD_IN), lines[0]
        loops = [Polygon(each) for each in lines if len(each) > 2]
        if not loops:
            return Polygon(), lines[0]
        return _filled(loops, self.drawn.even_odd).simplify(_CHORD_IN), lines[0]

    def paint(self) -> Rgb | None:
        """Returns its colour, if any. Raises InputError for a gradient, a pattern and the like."""
        stroke = self.drawn.stroke
        colour = stroke.colour if self.is_stroke and stroke else self.drawn.fill
        if colour is None:
            return None
        if colour.space != "rgb":
            said = colour.names[0][:40] if colour.names else colour.space
            key = "stroke" if self.is_stroke else "fill"
            raise self._odd(key, said, "is not a plain colour; write it as #rrggbb")
        red, green, blue = (round(255 * share) for share in colour.values)
        return red, green, blue

    def spine(self, line: Points) -> Spine | None:
        """Returns the line it is drawn along, where it is a stroke."""
        stroke = self.drawn.stroke
        if not self.is_stroke or stroke is None:
            return None
        twist, wave = self.number("data-twist-in", 0.0), self.pair("data-wave-in", 0.0)
        return Spine(line, stroke.width_in, twist, wave)

    def number(self, key: str, default: float) -> float:
        """Returns a measure. Raises InputError for what is no number."""
        text = self._data.get(key)
        return default if text is None else self._read(key, text, text)

    def pair(self, key: str, default: float) -> tuple[float, float]:
        """Returns two measures, or one twice. Raises InputError for what is no number."""
        text = self._data.get(key)
        if text is None:
            return default, default
        values = [self._read(key, text, each) for each in text.replace(",", " ").split()]
        if not values:
            raise self._odd(key, text, "is no number")
        return values[0], values[-1]

    def word(self, key: str, default: str) -> str:
        """Returns what is said under a key."""
        return self._data.get(key, default)

    def _read(self, key: str, whole: str, text: str) -> float:
        try:
            value = float(text)
        except ValueError:
            raise self._odd(key, whole, "is no number") from None
        if not abs(value) <= _MEASURE_MAX:  # nor is nan
            raise self._odd(key, whole, f"is not between -{_MEASURE_MAX:g} and {_MEASURE_MAX:g}")
        return value

    def _odd(self, key: str, value: str, what: str) -> InputError:
        at = f"{self.drawn.element}: {key}"
        return InputError(Mistake(f'"{value[:40]}" {what}', self._file, at, value[:40]))


def _parts(shapes: Sequence[_Shape]) -> Iterator[Part]:
    """Yields the parts of a child of the root: one, or as many as its outline falls apart into."""
    first = shapes[0]
    area, line = first.outline()
    marks: list[Mark] = []
    for shape in shapes[1:]:
        if shape.is_cut:
            area = area.difference(shape.outline()[0])
        else:
            marks.append(_mark(shape))
    start = line[0]
    for polygon in polygons_of(area):
        ends = np.asarray(polygon.exterior.coords)
        far = ends[np.hypot(*(ends - start).T).argmax()]
        yield Part(
            polygon,
            first.paint() or _PLAIN,
            tuple(marks),
            first.spine(line),
            first.number("data-thickness-in", 0.01),
            first.number("data-round-in", 0.0),
            first.pair("data-lift-in", 0.0),
            ((float(start[0]), float(start[1])), (float(far[0]), float(far[1]))),
            first.number("data-curl-in", 0.0),
            max(_SMOOTHEST, first.number("data-roughness", 0.42)),
            max(1.0, first.number("data-ior", 1.45)),
            first.word("data-grain", "smooth"),
        )


def _mark(shape: _Shape) -> Mark:
    area, _ = shape.outline()
    rise, flank = shape.number("data-rise-in", 0.0), shape.number("data-round-in", 0.01)
    dome = shape.number("data-dome-in", 0.0)
    return Mark(area, shape.paint(), shape.drawn.opacity, rise, flank, dome)


def _filled(loops: list[Polygon], even_odd: bool) -> BaseGeometry:
    """Returns what loops fill (SVG 1.1 11.3).

    By nonzero, a loop that runs the other way round inside those of the first's way is a hole.
    """
    sound = [loop.buffer(0) for loop in loops]
    if even_odd:
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


def _flat(segments: Sequence[Segment], affine: Affine) -> Points:
    points = [segments[0].start]
    for segment in segments:
        steps = 1 if isinstance(segment, Line) else _STEPS
        if isinstance(segment, Arc):
            steps = max(_STEPS, round(abs(segment.sweep_deg) / _ARC_STEP_DEG))
        points += [segment.at((k + 1) / steps) for k in range(steps)]
    return np.array([affine.point(point) for point in points], dtype=np.float64)
