"""How much an SVG unfolds to when it is drawn, each thing counted as often as it is drawn again."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from xml.etree.ElementTree import Element  # the type alone: nothing is parsed here

from mockup.errors import LimitError
from mockup.trade.limits import SVG_MAX_DEPTH, SVG_MAX_ELEMENTS
from mockup.vector.svg_tree import called, href_of, tag_of

CSS_URL = re.compile(r"url\(\s*['\"]?\s*([^'\")\s]*)", re.I)
# What these refer to is never drawn: a link, a program, a description, a profile.
NOT_DRAWN = frozenset({"a", "script", "metadata", "title", "desc", "color-profile", "cursor", ""})
# What is drawn at every shape inside the element that says it (SVG 1.1, appendix N).
_HANDED_DOWN = ("fill", "stroke", "marker-start", "marker-mid", "marker-end")
_PAINTS = ("fill", "stroke")
_MARKED = frozenset({"path", "line", "polyline", "polygon"})
_PAINTED = frozenset({*_MARKED, "rect", "circle", "ellipse", "text", "tspan", "textPath"})
_VERTEX = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)")

Handed = tuple[str, ...]
"""The id of what each property of `_HANDED_DOWN` refers to; empty where it refers to nothing."""


def targets_of(element: Element) -> list[str]:
    """Returns the ids an element draws again: by `use`, or as paint, pattern, marker or mask."""
    return _targets(element, ())


def is_told(key: str) -> bool:
    """Returns whether an attribute holds words of people or of other vocabularies."""
    return key.startswith(("data-", "aria-", "{")) or key in ("id", "class")


def refuse_endless(root: Element) -> None:
    """Raises LimitError where a tree refers to itself, or unfolds to more than is taken on."""
    _Unfolding(root).measured(root, _NOTHING, frozenset())


_NOTHING: Handed = ("",) * len(_HANDED_DOWN)


class _Unfolding:
    """Measures what every element unfolds to, once for each set of properties handed to it."""

    def __init__(self, root: Element) -> None:
        self._by_id = {element.get("id", ""): element for element in root.iter()}
        self._by_id.pop("", None)
        self._measured: dict[tuple[int, Handed], tuple[int, int]] = {}
        # What is drawn again takes the properties of where it is defined, but for what `use` draws.
        self._handed: dict[int, Handed] = {}
        waiting = [(root, _NOTHING)]
        while waiting:
            element, handed = waiting.pop()
            self._handed[id(element)] = handed
            own = _handed_on(element, handed)
            waiting += [(child, own) for child in element]

    def measured(self, element: Element, handed: Handed, opened: frozenset[int]) -> tuple[int, int]:
        """Returns how many elements one unfolds to, and how deep. Raises LimitError."""
        key = (id(element), handed)
        if id(element) in opened:
            raise LimitError(
                f"{called(element)}: the SVG refers to itself without end (`use` in a circle)"
            )
        if key in self._measured:
            return self._measured[key]
        if len(opened) > SVG_MAX_DEPTH:
            raise _too_deep()
        inside = opened | {id(element)}
        total, levels = 1, 0
        for other, given, times in self._drawn(element, handed):
            size, deep = self.measured(other, given, inside)
            total, levels = total + size * times, max(levels, deep)
        if total > SVG_MAX_ELEMENTS or len(self._measured) > SVG_MAX_ELEMENTS:
            raise LimitError(f"the SVG unfolds to over {SVG_MAX_ELEMENTS} elements; simplify it")
        if levels >= SVG_MAX_DEPTH:
            raise _too_deep()
        self._measured[key] = total, levels + 1
        return total, levels + 1

    def _drawn(self, element: Element, handed: Handed) -> Iterator[tuple[Element, Handed, int]]:
        """Yields all that is drawn for an element: what, with which properties, how often."""
        own = _handed_on(element, handed)
        for child in element:
            yield child, own, 1
        used = tag_of(element) == "use"
        for target in _targets(element, _HANDED_DOWN):
            if target in self._by_id:
                other = self._by_id[target]
                yield other, own if used else self._handed[id(other)], 1
        if tag_of(element) in _PAINTED:
            for name, target in zip(_HANDED_DOWN, own, strict=True):
                if target in self._by_id and (tag_of(element) in _MARKED or name in _PAINTS):
                    other = self._by_id[target]
                    yield other, self._handed[id(other)], _times(element, name)


def _handed_on(element: Element, handed: Handed) -> Handed:
    """Returns what an element hands to its children: its own properties over those it was given."""
    if not any(key in element.attrib for key in _HANDED_DOWN):
        return handed
    own: list[str] = []
    for key, given in zip(_HANDED_DOWN, handed, strict=True):
        value = element.get(key, "inherit").strip()
        found = CSS_URL.match(value)
        target = found[1][1:] if found and found[1].startswith("#") else ""
        own.append(given if value in ("inherit", "") else target)
    return tuple(own)


def _targets(element: Element, but: Sequence[str]) -> list[str]:
    """Returns the ids an element refers to in what it draws, by other properties than `but`."""
    found = [href_of(element)] if tag_of(element) not in NOT_DRAWN else []
    for key, value in element.attrib.items():
        if key not in but and not is_told(key):
            found += CSS_URL.findall(value)
    return [reference[1:] for reference in found if reference.startswith("#")]


def _times(element: Element, name: str) -> int:
    """Returns how often an element draws a property: a middle marker at every point, at most."""
    if name != "marker-mid":
        return 1
    points = element.get("d", "") + element.get("points", "")
    return max(1, len(_VERTEX.findall(points)) // 2)


def _too_deep() -> LimitError:
    return LimitError(f"the SVG nests deeper than {SVG_MAX_DEPTH}; ungroup some of it")
