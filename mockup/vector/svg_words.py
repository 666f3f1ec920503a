"""The live type of an SVG: its words line by line, with the place and the colour of each line.

Places are as near as they can be told without the typeface: a letter is taken as wide as half its
size.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from xml.etree.ElementTree import Element

from mockup.geometry.point import Point, box_of
from mockup.trade.limits import SVG_MAX_DEPTH
from mockup.vector.svg_colour import colour_of
from mockup.vector.svg_shapes import SvgValueError, numbers, svg_length
from mockup.vector.svg_tree import tag_of
from mockup.vector.svg_view import View
from mockup.vector.template import TemplateWords

_SIZE_PX = 16.0  # CSS Fonts 4, 2.5: medium, as browsers have it
_WIDE = 0.5  # judgement: the mean width of a letter over its size in usual faces
_HIGH, _LOW = 0.75, 0.22  # judgement: what letters reach above and below the base line, of the size
_ANCHORS = {"middle": 0.5, "end": 1.0}
_KEYS = ("font-size", "text-anchor", "fill", "color", "visibility", "display")


@dataclass
class _Line:
    x: float
    y: float
    style: Mapping[str, str]
    words: str = ""


def words_of(element: Element, view: View, style: Mapping[str, str]) -> list[TemplateWords]:
    """Returns the lines of a `<text>` (SVG 1.1 10.5: one more where a tspan says a new place)."""
    lines = [_Line(0.0, 0.0, style)]
    _gather(element, style, lines, 0)
    return [_placed(line, view) for line in lines if line.words.strip()]


def _gather(element: Element, style: Mapping[str, str], lines: list[_Line], depth: int) -> None:
    own = {key: value for key in _KEYS if (value := element.get(key)) not in (None, "inherit", "")}
    style = {**style, **own}
    if depth > SVG_MAX_DEPTH or own.get("display") == "none":
        return
    _place(element, style, lines)
    if style.get("visibility") not in ("hidden", "collapse"):
        lines[-1].words += element.text or ""
    for child in element:
        if tag_of(child) in ("tspan", "a"):
            _gather(child, style, lines, depth + 1)
        if style.get("visibility") not in ("hidden", "collapse"):
            lines[-1].words += child.tail or ""


def _place(element: Element, style: Mapping[str, str], lines: list[_Line]) -> None:
    last = lines[-1]
    x, y = _first(element.get("x")), _first(element.get("y"))
    below = _first(element.get("dy"))
    if x is None and y is None and below is None:
        if not last.words.strip():
            last.style = style
        return
    at_y = (last.y if y is None else y) + (below or 0.0)
    at_x = last.x if x is None else x
    if last.words.strip() and abs(at_y - last.y) < 1e-6 and x is not None and at_x > last.x:
        last.words += " "  # the same line goes on: programs place every word, or letter, alone
        return
    lines.append(_Line(at_x, at_y, style))


def _first(told: str | None) -> float | None:
    """Returns the first of the places an attribute lists, user units."""
    if not told:
        return None
    try:
        return svg_length(told.split()[0].rstrip(","), 0.0)
    except SvgValueError:
        found = numbers(told)
        return found[0] if found else None


def _placed(line: _Line, view: View) -> TemplateWords:
    size = _size(line.style)
    words = " ".join(line.words.split())
    width = len(words) * size * _WIDE
    left = line.x - width * _ANCHORS.get(line.style.get("text-anchor", ""), 0.0)
    top, bottom = line.y - size * _HIGH, line.y + size * _LOW
    corners = [Point(x, y) for x in (left, left + width) for y in (top, bottom)]
    current = line.style.get("color", "#000000")
    colour = colour_of(line.style.get("fill", "#000000"), current)
    return TemplateWords(words, box_of(view.affine.point(each) for each in corners), colour)


def _size(style: Mapping[str, str]) -> float:
    try:
        return svg_length(style.get("font-size", ""), _SIZE_PX) or _SIZE_PX
    except SvgValueError:  # "large", "1.2em": the place is rough in any case
        return _SIZE_PX
