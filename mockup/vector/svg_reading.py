"""The one walk through an SVG: its shapes, with their paint, as they are placed, in inches.

SVG 1.1 (second edition): units and viewBox 7.10-7.12, `use` 5.6, paint 11, shapes 9.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from xml.etree.ElementTree import Element

from mockup.errors import InputError, LimitError, with_file
from mockup.geometry.affine import scaling, translation
from mockup.geometry.outline import Segment
from mockup.geometry.point import Point
from mockup.trade.limits import FARTHEST_IN, SVG_MAX_DEPTH, SVG_SHAPES_MAX, TEMPLATE_SEGMENTS_MAX
from mockup.vector.drawing import Cap, Drawing, DrawnShape, Run, Stroke
from mockup.vector.pen import PathPen
from mockup.vector.svg_colour import colour_of
from mockup.vector.svg_guard import refuse_harm
from mockup.vector.svg_shapes import SHAPES, SvgValueError, svg_length
from mockup.vector.svg_tree import called, href_of, open_svg, tag_of
from mockup.vector.svg_view import PX_PER_INCH, View, own_transform, page_size, viewed
from mockup.vector.svg_words import words_of
from mockup.vector.template import Colour, Template, TemplatePath, TemplateWords

_LABELS = ("id", "class", "data-name", "{http://www.inkscape.org/namespaces/inkscape}label")
_GROUPS = frozenset({"g", "a", "switch"})
_VIEWS = frozenset({"svg", "symbol"})
_INHERITED = frozenset(
    {"fill", "stroke", "stroke-width", "stroke-linecap", "stroke-dasharray", "fill-rule", "color",
     "visibility", "fill-opacity", "stroke-opacity", "font-size", "text-anchor"}
)  # fmt: skip
_CAPS: dict[str, Cap] = {"round": "round", "square": "square"}
_SPLIT = re.compile(r"[\s,]+")


@dataclass(frozen=True)
class _Place:
    """Where an element stands: its view, the names of what it lies in, the style handed down."""

    view: View
    names: tuple[str, ...] = ()
    style: Mapping[str, str] = field(default_factory=dict[str, str])
    data: Mapping[str, str] = field(default_factory=dict[str, str])
    opacity: float = 1.0
    hidden: bool = False
    child: int = -1
    depth: int = 0


def read_svg(name: str, source: bytes) -> Drawing:
    """Returns an SVG's size and shapes, hidden ones marked; `name` is how messages call the file.

    Raises InputError for one that is not well formed, has no size, reaches outside itself or holds
    a value that cannot be; LimitError for one that is too large or unfolds without end.
    """
    try:
        root = open_svg(source)
        refuse_harm(root)
        return _Walk(name, root).drawing()
    except (InputError, LimitError) as error:
        raise with_file(error, name) from error


def read_svg_template(name: str, source: bytes) -> Template:
    """Returns what an SVG draws as a template's paths, in inches. Raises what read_svg raises."""
    drawing = read_svg(name, source)
    paths = [
        TemplatePath(
            run.segments,
            run.closed,
            shape.fill is not None,
            number,
            shape.names,
            stroke=shape.stroke.colour if shape.stroke else None,
            fill=shape.fill,
            width_in=shape.stroke.width_in if shape.stroke else 0.0,
            dashes_in=shape.stroke.dashes_in if shape.stroke else (),
            hidden=shape.hidden or shape.opacity == 0,
        )
        for number, shape in enumerate(drawing.shapes)
        if shape.fill or shape.stroke
        for run in shape.runs
    ]
    return Template(name, drawing.width_in, drawing.height_in, tuple(paths), drawing.words)


class _Walk:
    def __init__(self, name: str, root: Element) -> None:
        self._name = name
        self._root = root
        self._by_id = {element.get("id", ""): element for element in root.iter()}
        self._shapes: list[DrawnShape] = []
        self._words: list[TemplateWords] = []
        self._count = 0
        self._segments = 0

    def drawing(self) -> Drawing:
        """Returns the whole drawing."""
        size = page_size(self._root)
        view = View(scaling(1 / PX_PER_INCH), size.width_px, size.height_px)
        place = _Place(view, depth=-1)
        self._guarded(self._root, lambda: self._open(place))
        inches = (size.width_px / PX_PER_INCH, size.height_px / PX_PER_INCH)
        return Drawing(self._name, *inches, size.told, tuple(self._shapes), tuple(self._words))

    def _open(self, place: _Place) -> None:
        inside = _inside(self._root, place)
        inside = replace(inside, names=(), view=viewed(self._root, inside.view))
        for number, child in enumerate(self._root):
            self._element(child, replace(inside, child=number))

    def _guarded(self, element: Element, work: Callable[[], None]) -> None:
        try:
            work()
        except SvgValueError as error:
            raise InputError(f"{called(element)}: {error}") from error

    def _element(self, element: Element, place: _Place) -> None:
        tag = tag_of(element)
        if tag not in _GROUPS and tag not in SHAPES and tag not in ("svg", "use", "text"):
            return  # definitions, images and clips draw no outline of their own
        self._count += 1
        if self._count > SVG_SHAPES_MAX:
            raise LimitError(f"the SVG unfolds to over {SVG_SHAPES_MAX} shapes; simplify it")
        if place.depth > SVG_MAX_DEPTH:
            raise LimitError(f"the SVG nests deeper than {SVG_MAX_DEPTH}; ungroup some of it")
        self._guarded(element, lambda: self._drawn(element, tag, place))

    def _drawn(self, element: Element, tag: str, place: _Place) -> None:
        place = _inside(element, place)
        if tag in SHAPES:
            self._shape(element, place)
        elif tag == "use":
            self._use(element, place)
        elif tag == "text":
            if not (place.hidden or place.opacity == 0):
                self._words += words_of(element, place.view, place.style)
        else:
            if tag == "svg":
                place = replace(place, view=viewed(element, _nested(element, place.view)))
            for child in element:
                self._element(child, place)

    def _use(self, element: Element, place: _Place) -> None:
        target = self._by_id.get(href_of(element)[1:])
        if target is None:
            return
        view = place.view
        x, y = (
            svg_length(element.get("x", "0"), view.width),
            svg_length(element.get("y", "0"), view.height),
        )
        view = replace(view, affine=view.affine @ translation(x, y))
        place = replace(place, view=view)
        if tag_of(target) not in _VIEWS:
            self._element(target, place)
            return
        place = _inside(target, place)
        place = replace(place, view=viewed(target, _sized(element, target, place.view)))
        for child in target:
            self._element(child, place)

    def _shape(self, element: Element, place: _Place) -> None:
        view = place.view
        pen = PathPen(view.affine)
        SHAPES[tag_of(element)](element, pen, view.width, view.height)
        pen.end()
        runs = tuple(Run(tuple(segments), closed) for segments, closed in pen.runs)
        self._segments += sum(len(run.segments) for run in runs)
        if self._segments > TEMPLATE_SEGMENTS_MAX:
            raise LimitError(f"draws over {TEMPLATE_SEGMENTS_MAX} lines and curves; simplify it")
        if not runs or view.affine.determinant == 0:
            return  # flattened to nothing: it paints nothing
        if any(_is_far(segment) for run in runs for segment in run.segments):
            if place.hidden:
                return
            raise SvgValueError("draws beyond any page; save it again")
        style = place.style
        current = style.get("color", "#000000")
        self._shapes.append(
            DrawnShape(
                called(element),
                tag_of(element),
                runs,
                _fill(style, current),
                _stroke(style, view, current),
                place.opacity,
                style.get("fill-rule") == "evenodd",
                place.names,
                tuple(place.data.items()),
                place.child,
                place.hidden or style.get("visibility") in ("hidden", "collapse"),
            )
        )


def _inside(element: Element, place: _Place) -> _Place:
    """Returns the place of what an element draws: its transform, its names, its style."""
    own = {
        key: value
        for key, value in element.attrib.items()
        if key in _INHERITED and value not in ("inherit", "")
    }
    data = {key: value for key, value in element.attrib.items() if key.startswith("data-")}
    labels = [*(element.get(key) for key in _LABELS), _title(element)]
    return replace(
        place,
        view=own_transform(element, place.view),
        names=(*place.names, *(label for label in labels if label)),
        style={**place.style, **own},
        data={**place.data, **data},
        opacity=place.opacity * _share(element.get("opacity", "1")),
        hidden=place.hidden or element.get("display") == "none",
        depth=place.depth + 1,
    )


def _title(element: Element) -> str:
    """Returns an element's title (SVG 1.1 5.4), which programs write a shape's name into."""
    found = next((child for child in element if tag_of(child) == "title"), None)
    return "" if found is None else " ".join((found.text or "").split())


def _share(text: str) -> float:
    """Returns an opacity, a number or a percentage, 0 to 1."""
    if text.strip() == "inherit":
        return 1.0
    return min(1.0, max(0.0, svg_length(text, 1.0)))


def _fill(style: Mapping[str, str], current: str) -> Colour | None:
    if _share(style.get("fill-opacity", "1")) == 0:
        return None
    return colour_of(style.get("fill", "#000000"), current)


def _stroke(style: Mapping[str, str], view: View, current: str) -> Stroke | None:
    colour = colour_of(style.get("stroke", "none"), current)
    if colour is None or _share(style.get("stroke-opacity", "1")) == 0:
        return None
    scale = math.sqrt(abs(view.affine.determinant))
    across = math.hypot(view.width, view.height) / math.sqrt(2)  # what percentages are of, 7.10
    width = svg_length(style.get("stroke-width", "1"), across) * scale
    dashes: tuple[float, ...] = ()
    told = style.get("stroke-dasharray", "none").strip()
    if told not in ("none", ""):
        dashes = tuple(svg_length(each, across) * scale for each in _SPLIT.split(told) if each)
        if min(dashes, default=0) < 0 or not sum(dashes):
            dashes = ()  # 11.4: an error, and drawn whole
        elif len(dashes) % 2:
            dashes = (*dashes, *dashes)
    return Stroke(colour, width, dashes, _CAPS.get(style.get("stroke-linecap", ""), "butt"))


def _nested(element: Element, view: View) -> View:
    x = svg_length(element.get("x", "0"), view.width)
    y = svg_length(element.get("y", "0"), view.height)
    return _sized(element, element, replace(view, affine=view.affine @ translation(x, y)))


def _sized(element: Element, inner: Element, view: View) -> View:
    """Returns a view with the width and height an element gives what is nested in it."""
    width, height = (
        svg_length(element.get(key) or inner.get(key) or "100%", whole)
        for key, whole in (("width", view.width), ("height", view.height))
    )
    return View(view.affine, width, height)


def _is_far(segment: Segment) -> bool:
    """Returns whether a segment has a number beyond any page, or none at all (nan)."""
    points = (value for value in vars(segment).values() if isinstance(value, Point))
    return not all(abs(each) <= FARTHEST_IN for point in points for each in point)
