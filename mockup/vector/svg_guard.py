"""What an SVG must not do: reach outside itself, refer to itself, unfold without end."""

from __future__ import annotations

import re
from urllib.parse import unquote_to_bytes
from xml.etree.ElementTree import Element

from mockup.errors import InputError, LimitError, with_file
from mockup.trade.limits import SVG_MAX_DEPTH, SVG_MAX_ELEMENTS
from mockup.vector.svg_tree import called, href_of, open_svg, tag_of

_CSS_URL = re.compile(r"url\(\s*['\"]?\s*([^'\")\s]*)", re.I)
# What these refer to is never drawn: a link, a program, a description, a profile.
_NOT_DRAWN = frozenset({"a", "script", "metadata", "title", "desc", "color-profile", "cursor", ""})
_TAKES_DATA = frozenset({"image", "feImage"})
_MARKERS = ("marker-start", "marker-mid", "marker-end")
_VERTEX = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)")
_SVG_DATA = re.compile(r"^data:image/svg\+xml", re.I)
_DATA_LEAST = 8  # characters; no image format is smaller


def check_svg(name: str, source: bytes) -> None:
    """Returns nothing; raises InputError or LimitError where an SVG must not be drawn."""
    try:
        refuse_harm(open_svg(source))
    except (InputError, LimitError) as error:
        raise with_file(error, name) from error


def refuse_harm(root: Element) -> None:
    """Raises InputError where a tree reaches outside itself, LimitError where it never ends."""
    for element in root.iter():
        _refuse_outside(element)
    _Unfolding(root).measure(root, frozenset())


def targets_of(element: Element) -> list[str]:
    """Returns the ids an element draws again: by `use`, or as paint, pattern, marker or mask."""
    found = [href_of(element)] if tag_of(element) not in _NOT_DRAWN else []
    for key, value in element.attrib.items():
        if not _is_told(key):
            found += _CSS_URL.findall(value)
    return [reference[1:] for reference in found if reference.startswith("#")]


def _is_told(key: str) -> bool:
    """Returns whether an attribute holds words of people or of other vocabularies."""
    return key.startswith(("data-", "aria-", "{")) or key in ("id", "class")


def _refuse_outside(element: Element) -> None:
    tag = tag_of(element)
    if tag not in _NOT_DRAWN:
        reference = href_of(element)
        if reference.startswith("data:") and tag in _TAKES_DATA:
            _refuse_data(element, reference)
        elif reference and not reference.startswith("#"):
            _refuse_reference(element, reference)
    for key, value in element.attrib.items():
        if _is_told(key):
            continue
        for reference in _CSS_URL.findall(value):
            if not reference.startswith("#"):
                _refuse_reference(element, reference)


def _refuse_reference(element: Element, reference: str) -> None:
    raise InputError(
        f'{called(element)}: the SVG reaches outside itself for "{reference[:60]}"; '
        "embed what it needs"
    )


def _refuse_data(element: Element, reference: str) -> None:
    head, _, body = reference.partition(",")
    if len(body.strip()) < _DATA_LEAST:
        raise InputError(f"{called(element)}: the image in it cannot be decoded; place it again")
    packed = "base64" in head
    if _SVG_DATA.match(head) or (not packed and b"<svg" in unquote_to_bytes(body)):
        raise InputError(
            f"{called(element)}: an SVG is placed as an image in it; paste its shapes instead"
        )


class _Unfolding:
    """Measures what every element unfolds to, each once: elements, and levels."""

    def __init__(self, root: Element) -> None:
        self._by_id = {element.get("id", ""): element for element in root.iter()}
        self._measured: dict[int, tuple[int, int]] = {}

    def measure(self, element: Element, opened: frozenset[int]) -> tuple[int, int]:
        """Returns how many elements one unfolds to, and how deep. Raises LimitError."""
        key = id(element)
        if key in opened:
            raise LimitError(
                f"{called(element)}: the SVG refers to itself without end (`use` in a circle)"
            )
        if key in self._measured:
            return self._measured[key]
        if len(opened) > SVG_MAX_DEPTH:
            raise LimitError(f"the SVG nests deeper than {SVG_MAX_DEPTH}; ungroup some of it")
        inside = opened | {key}
        total, levels = 1, 0
        for child in element:
            size, deep = self.measure(child, inside)
            total, levels = total + size, max(levels, deep)
        for target in targets_of(element):
            if target in self._by_id:
                size, deep = self.measure(self._by_id[target], inside)
                total, levels = total + size * _times(element), max(levels, deep)
        if total > SVG_MAX_ELEMENTS:
            raise LimitError(f"the SVG unfolds to over {SVG_MAX_ELEMENTS} elements; simplify it")
        if levels >= SVG_MAX_DEPTH:
            raise LimitError(f"the SVG nests deeper than {SVG_MAX_DEPTH}; ungroup some of it")
        self._measured[key] = total, levels + 1
        return total, levels + 1


def _times(element: Element) -> int:
    """Returns how often an element draws what it refers to: a marker at every point, at most."""
    if not any(key in element.attrib for key in _MARKERS):
        return 1
    points = element.get("d", "") + element.get("points", "")
    return max(1, len(_VERTEX.findall(points)) // 2)
