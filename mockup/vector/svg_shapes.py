"""SVG's shapes, lengths, transforms and path data, each drawn exactly with a pen."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from xml.etree.ElementTree import Element  # the type alone: nothing is parsed here

from mockup.errors import LimitError
from mockup.geometry.affine import IDENTITY, Affine, rotation, scaling, translation
from mockup.geometry.outline import ellipse_arc
from mockup.geometry.point import Point
from mockup.trade.limits import SVG_NUMBER_MAX, SVG_PATH_MAX_CHARACTERS
from mockup.vector.pen import PathPen

_PX_PER_UNIT = {
    "": 1.0,
    "px": 1.0,
    "in": 96.0,
    "cm": 96 / 2.54,
    "mm": 96 / 25.4,
    "pt": 96 / 72,
    "pc": 16.0,
}
_NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
_LENGTH = re.compile(rf"^\s*({_NUMBER.pattern})\s*(px|in|cm|mm|pt|pc|%|)\s*$")
# A style sheet writes units into transforms; an attribute does not (CSS Transforms 1, 8).
_UNIT = re.compile(r"(?<=[\d.])(?:deg|px)\b")
_TRANSFORM = re.compile(r"(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^)]*)\)")
_PATH_ALPHABET = re.compile(r"^[MmZzLlHhVvCcSsQqTtAa0-9eE+\-.,\s]*$")


class SvgValueError(ValueError):
    """A value in an SVG that is not what its place asks for."""


def numbers(text: str) -> list[float]:
    """Returns the numbers in a list separated by spaces or commas. Raises SvgValueError."""
    return [_bounded(float(found)) for found in _NUMBER.findall(text)]


def svg_length(text: str, whole: float) -> float:
    """Returns a length in user units; a percentage is of `whole`. Raises SvgValueError."""
    match = _LENGTH.match(text)
    if match is None:
        raise SvgValueError(f'"{text[:40]}" is not a length')
    value, unit = _bounded(float(match.group(1))), match.group(2)
    return value * whole / 100 if unit == "%" else value * _PX_PER_UNIT[unit]


def _bounded(value: float) -> float:
    if not abs(value) <= SVG_NUMBER_MAX:
        raise SvgValueError(f"{value:g} lies beyond any page")
    return value


def transform(text: str) -> Affine:
    """Returns the map a transform tells (7.6). Raises SvgValueError where it is broken."""
    whole = IDENTITY
    text = "" if text.strip() == "none" else _UNIT.sub("", text)
    if _TRANSFORM.sub("", text).strip(" ,\t\r\n"):
        raise SvgValueError(f'"{text[:60]}" is not a transform')
    for kind, inside in _TRANSFORM.findall(text):
        try:
            whole = whole @ _TRANSFORMS[kind](*numbers(inside))
            _bounded(max(map(abs, whole)))
        except TypeError:
            raise SvgValueError(f'"{kind}({inside[:40]})" is not a transform') from None
    return whole


def _rotated(angle_deg: float, x: float = 0.0, y: float = 0.0) -> Affine:
    return rotation(angle_deg, Point(x, y))


def _moved(x: float, y: float = 0.0) -> Affine:
    return translation(x, y)


def _skewed_x(angle_deg: float) -> Affine:
    return Affine(1, 0, math.tan(math.radians(angle_deg)), 1, 0, 0)


def _skewed_y(angle_deg: float) -> Affine:
    return Affine(1, math.tan(math.radians(angle_deg)), 0, 1, 0, 0)


_TRANSFORMS: dict[str, Callable[..., Affine]] = {
    "matrix": Affine,
    "translate": _moved,
    "scale": scaling,
    "rotate": _rotated,
    "skewX": _skewed_x,
    "skewY": _skewed_y,
}


class _CommandPen:
    """The pen fontTools draws path data with, handed on to a PathPen.

    Its names are fontTools' own (segment pen protocol).
    """

    def __init__(self, pen: PathPen) -> None:
        self._pen = pen

    def moveTo(self, point: tuple[float, float]) -> None:  # noqa: N802
        self._pen.move(_point(point))

    def lineTo(self, point: tuple[float, float]) -> None:  # noqa: N802
        self._pen.line(_point(point))

    def curveTo(self, *points: tuple[float, float]) -> None:  # noqa: N802
        self._pen.cubic(*map(_point, points))

    def qCurveTo(self, *points: tuple[float, float]) -> None:  # noqa: N802
        self._pen.quadratic(*map(_point, points))

    def arcTo(  # noqa: N802
        self,
        rx: float,
        ry: float,
        turn_deg: float,
        large: bool,
        sweep: bool,
        point: tuple[float, float],
    ) -> None:
        rx, ry = _point((rx, ry))
        turn_deg = _bounded(turn_deg)
        self._pen.arc(rx, ry, turn_deg, bool(large), bool(sweep), _point(point))

    def closePath(self) -> None:  # noqa: N802
        self._pen.close()

    def endPath(self) -> None:  # noqa: N802
        self._pen.end()


def _point(point: tuple[float, float]) -> Point:
    return Point(_bounded(point[0]), _bounded(point[1]))


def _path(element: Element, pen: PathPen, _width: float, _height: float) -> None:
    from fontTools.svgLib.path import parse_path  # a third of the reader's import time: only here

    data = element.get("d", "")
    if len(data) > SVG_PATH_MAX_CHARACTERS:
        raise LimitError(
            f"a path's data is over {SVG_PATH_MAX_CHARACTERS // 1024**2} MB, the limit; simplify it"
        )
    if not _PATH_ALPHABET.match(data):  # the parser would pass over unknown letters
        odd = re.sub(r"[MmZzLlHhVvCcSsQqTtAa0-9eE+\-.,\s]", "", data)[:1]
        raise SvgValueError(f'path data holds "{odd}", which is no command')
    try:
        parse_path(data, _CommandPen(pen))
    except SvgValueError:
        raise
    except (ValueError, IndexError, TypeError, AssertionError) as error:
        raise SvgValueError(f'path data is broken near "{data[:40]}" ({error})') from error


def _rect(element: Element, pen: PathPen, width: float, height: float) -> None:
    x, y, w, h = _lengths(element, ("x", "y", "width", "height"), width, height)
    if w <= 0 or h <= 0:
        return
    rx_text, ry_text = element.get("rx"), element.get("ry")
    rx = svg_length(rx_text or ry_text or "0", width)
    ry = svg_length(ry_text or rx_text or "0", height)
    rx, ry = min(rx, w / 2), min(ry, h / 2)
    pen.move(Point(x + rx, y))
    for corner, along in (
        (Point(x + w - rx, y), Point(x + w, y + ry)),
        (Point(x + w, y + h - ry), Point(x + w - rx, y + h)),
        (Point(x + rx, y + h), Point(x, y + h - ry)),
        (Point(x, y + ry), Point(x + rx, y)),
    ):
        pen.line(corner)
        pen.arc(rx, ry, 0, False, True, along)
    pen.close()


def _circle(element: Element, pen: PathPen, width: float, height: float) -> None:
    cx, cy = _lengths(element, ("cx", "cy"), width, height)
    # A percentage of a radius is of the view's diagonal over root two (7.10).
    radius = svg_length(element.get("r", "0"), math.hypot(width, height) / math.sqrt(2))
    _whole_ellipse(pen, cx, cy, radius, radius)


def _ellipse(element: Element, pen: PathPen, width: float, height: float) -> None:
    _whole_ellipse(pen, *_lengths(element, ("cx", "cy", "rx", "ry"), width, height))


def _whole_ellipse(pen: PathPen, cx: float, cy: float, rx: float, ry: float) -> None:
    if rx > 0 and ry > 0:
        pen.move(Point(cx + rx, cy))
        pen.add(ellipse_arc(Point(cx, cy), rx, ry, 0, 360))
        pen.close()


def _line(element: Element, pen: PathPen, width: float, height: float) -> None:
    x1, y1, x2, y2 = _lengths(element, ("x1", "y1", "x2", "y2"), width, height)
    pen.move(Point(x1, y1))
    pen.line(Point(x2, y2))


def _polyline(element: Element, pen: PathPen, _width: float, _height: float) -> None:
    values = numbers(element.get("points", ""))
    points = [Point(*pair) for pair in zip(values[::2], values[1::2], strict=False)]
    for k, point in enumerate(points):
        (pen.line if k else pen.move)(point)


def _polygon(element: Element, pen: PathPen, width: float, height: float) -> None:
    _polyline(element, pen, width, height)
    pen.close()


def _lengths(
    element: Element, keys: tuple[str, ...], width: float, height: float
) -> tuple[float, ...]:
    """Returns attributes as user units, along x and y by turns."""
    return tuple(
        svg_length(element.get(key, "0"), (width, height)[k % 2]) for k, key in enumerate(keys)
    )


SHAPES: dict[str, Callable[[Element, PathPen, float, float], None]] = {
    "path": _path,
    "rect": _rect,
    "circle": _circle,
    "ellipse": _ellipse,
    "line": _line,
    "polyline": _polyline,
    "polygon": _polygon,
}
