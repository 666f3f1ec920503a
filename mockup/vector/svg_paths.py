"""Templates saved as SVG: shapes, groups, nested views and `use`, as paths in inches.

SVG 1.1 (second edition): units and viewBox 7.10-7.12, transforms 7.6, path data 8.3, shapes 9.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from xml.etree.ElementTree import Element, ParseError

from defusedxml import DefusedXmlException
from defusedxml.ElementTree import fromstring

from mockup.errors import InputError, LimitError
from mockup.geometry.affine import Affine, scaling, translation
from mockup.trade.limits import SVG_MAX_BYTES, SVG_MAX_DEPTH
from mockup.vector.pen import PathPen
from mockup.vector.svg_shapes import SHAPES, numbers, svg_length, transform
from mockup.vector.template import Template, TemplatePath

PX_PER_INCH = 96.0  # CSS 2.1 4.3.2
SVG_ELEMENTS_MAX = 20_000  # after every `use` has been unfolded

_HREFS = ("href", "{http://www.w3.org/1999/xlink}href")
_LABELS = ("id", "class", "data-name", "{http://www.inkscape.org/namespaces/inkscape}label")
_GROUPS = {"g", "a", "switch"}
_VIEWS = {"svg", "symbol"}


@dataclass(frozen=True)
class _Place:
    """Where an element stands: its map to inches, its view, the names of what it lies in."""

    affine: Affine
    width: float
    height: float
    names: tuple[str, ...] = ()
    filled: bool = True
    stroked: bool = False
    depth: int = 0


def read_svg_template(path: Path) -> Template:
    """Returns what is painted in an SVG file: paths in inches from the top left of its view.

    Raises InputError for a file that is not well formed, has no size or holds broken path data;
    LimitError for one that is too large or unfolds without end.
    """
    source = path.read_bytes()
    if len(source) > SVG_MAX_BYTES:
        raise LimitError(f"{path}: the SVG is over {SVG_MAX_BYTES // 1024**2} MB, the limit")
    try:
        root = fromstring(source, forbid_dtd=False, forbid_entities=True, forbid_external=True)
    except DefusedXmlException as error:
        raise InputError(f"{path}: the SVG declares entities; save it without them") from error
    except (ParseError, RecursionError, ValueError, LookupError) as error:
        raise InputError(f"{path}: is not a well-formed SVG ({error})") from error
    return _Reader(str(path), root).template()


class _Reader:
    def __init__(self, name: str, root: Element) -> None:
        self.name = name
        self.root = root
        self.by_id = {element.get("id", ""): element for element in root.iter()}
        self.paths: list[TemplatePath] = []
        self.count = 0

    def template(self) -> Template:
        if _tag(self.root) != "svg":
            raise InputError(f"{self.name}: is not an SVG")
        try:
            width, height = self._size()
            to_inches = scaling(1 / PX_PER_INCH)
            self._children(self.root, _viewed(self.root, _Place(to_inches, width, height)))
        except ValueError as error:
            raise InputError(f"{self.name}: {error}") from error
        inches = (width / PX_PER_INCH, height / PX_PER_INCH)
        return Template(self.name, *inches, tuple(self.paths))

    def _size(self) -> tuple[float, float]:
        box = numbers(self.root.get("viewBox", ""))
        whole = (box[2], box[3]) if len(box) == 4 else None
        sides: list[float] = []
        for k, key in enumerate(("width", "height")):
            text = self.root.get(key)
            if text is None or text.strip().endswith("%"):
                if whole is None:
                    raise ValueError("has neither a size nor a viewBox; give it width and height")
                sides.append(whole[k])
            else:
                sides.append(svg_length(text, 0.0))
        if min(sides) <= 0:
            raise ValueError("has no size; give it width and height")
        return sides[0], sides[1]

    def _children(self, element: Element, place: _Place) -> None:
        for child in element:
            self._element(child, place)

    def _element(self, element: Element, place: _Place) -> None:
        tag = _tag(element)
        if tag not in _GROUPS | {"svg", "use"} and tag not in SHAPES:
            return  # definitions, text, images and clips draw no outline of their own
        self.count += 1
        if self.count > SVG_ELEMENTS_MAX or place.depth > SVG_MAX_DEPTH:
            raise LimitError(f"{self.name}: the SVG unfolds to more than the program takes on")
        if _style(element, "display") == "none":
            return
        place = _inside(element, place)
        if tag in SHAPES:
            self._shape(element, SHAPES[tag], place)
        elif tag == "use":
            self._use(element, place)
        elif tag == "svg":
            self._children(element, _viewed(element, _nested(element, place)))
        else:
            self._children(element, place)

    def _use(self, element: Element, place: _Place) -> None:
        target = self.by_id.get(_reference(element))
        if target is None:
            return
        x, y = (svg_length(element.get(key, "0"), place.width) for key in ("x", "y"))
        place = replace(place, affine=place.affine @ translation(x, y))
        if _tag(target) in _VIEWS:
            place = _inside(target, place)
            sized = _sized(element, target, place)
            self._children(target, _viewed(target, sized))
        else:
            self._element(target, place)

    def _shape(
        self,
        element: Element,
        draw: Callable[[Element, PathPen, float, float], None],
        place: _Place,
    ) -> None:
        if not (place.filled or place.stroked):
            return
        pen = PathPen(place.affine)
        draw(element, pen, place.width, place.height)
        pen.end()
        for segments, closed in pen.runs:
            self.paths.append(
                TemplatePath(tuple(segments), closed, place.filled, self.count, place.names)
            )


def _inside(element: Element, place: _Place) -> _Place:
    """Returns the place of what an element draws: its transform, its names, its paint."""
    own = transform(element.get("transform", ""))
    fill, stroke = _style(element, "fill"), _style(element, "stroke")
    labels = (element.get(key) for key in _LABELS)
    return replace(
        place,
        affine=place.affine @ own,
        names=(*place.names, *(label for label in labels if label)),
        filled=place.filled if fill in (None, "inherit") else fill != "none",
        stroked=place.stroked if stroke in (None, "inherit") else stroke != "none",
        depth=place.depth + 1,
    )


def _nested(element: Element, place: _Place) -> _Place:
    x = svg_length(element.get("x", "0"), place.width)
    y = svg_length(element.get("y", "0"), place.height)
    return _sized(element, element, replace(place, affine=place.affine @ translation(x, y)))


def _sized(element: Element, view: Element, place: _Place) -> _Place:
    """Returns the place with the width and height an element gives a nested view."""
    sizes = [
        svg_length(element.get(key) or view.get(key) or "100%", whole)
        for key, whole in (("width", place.width), ("height", place.height))
    ]
    return replace(place, width=sizes[0], height=sizes[1])


def _viewed(element: Element, place: _Place) -> _Place:
    """Returns the place inside an element's viewBox (7.7, 7.8: met in the middle unless said)."""
    box = numbers(element.get("viewBox", ""))
    if len(box) != 4:
        return place
    left, top, width, height = box
    if width <= 0 or height <= 0:
        raise ValueError("has a viewBox without a size")
    sx, sy = place.width / width, place.height / height
    words = element.get("preserveAspectRatio", "xMidYMid meet").split()
    dx = dy = 0.0
    if words[0] != "none":
        scale = max(sx, sy) if "slice" in words else min(sx, sy)
        dx = (place.width - width * scale) * _share(words[0][1:4])
        dy = (place.height - height * scale) * _share(words[0][5:8])
        sx = sy = scale
    fitted = translation(dx, dy) @ scaling(sx, sy) @ translation(-left, -top)
    return replace(place, affine=place.affine @ fitted, width=width, height=height)


def _share(word: str) -> float:
    return {"Min": 0.0, "Mid": 0.5, "Max": 1.0}.get(word, 0.5)


def _style(element: Element, key: str) -> str | None:
    for part in element.get("style", "").split(";"):
        name, _, value = part.partition(":")
        if name.strip() == key:
            return value.strip()
    return element.get(key)


def _reference(element: Element) -> str:
    for key in _HREFS:
        if element.get(key, "").startswith("#"):
            return element.get(key, "")[1:]
    return ""


def _tag(element: Element) -> str:
    # Comments and processing instructions have a function for a tag, and match nothing.
    return str(element.tag).rpartition("}")[2]
