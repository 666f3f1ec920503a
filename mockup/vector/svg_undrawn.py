"""What an SVG asks for that is not drawn, or not drawn as it says, by cairosvg 2.9."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from mockup.vector.svg_colour import rgba
from mockup.vector.svg_tree import tag_of
from mockup.vector.svg_unfolding import targets_of

_TAGS = {
    "foreignObject": "text laid out as on a web page (foreignObject)",
    "animate": "animation",
    "animateTransform": "animation",
    "animateMotion": "animation",
    "animateColor": "animation",
    "set": "animation",
    "textPath": "text on a path",
    "meshgradient": "a mesh gradient",
    "hatch": "hatching",
}
_DEFINES = frozenset(
    {"defs", "symbol", "clipPath", "mask", "pattern", "marker", "filter", "linearGradient",
     "radialGradient", "metadata", "style", "script", "title", "desc"}
)  # fmt: skip
_NO_FILTER = ("none", "")
_WHITE = (1.0, 1.0, 1.0)


def undrawn_features(root: Element) -> tuple[str, ...]:
    """Returns what the painted elements of a tree ask for in vain, each named once.

    `root` is as open_svg answers it. What is hidden, or defined and never used, asks for nothing.
    """
    found: dict[str, None] = {}
    by_id = {element.get("id", ""): element for element in root.iter()}
    waiting, seen = [root], set[int]()
    while waiting:
        element = waiting.pop()
        if id(element) in seen or element.get("display") == "none":
            continue
        seen.add(id(element))
        found |= dict.fromkeys(_asked(element, by_id))
        waiting += [by_id[target] for target in targets_of(element) if target in by_id]
        waiting += [child for child in element if tag_of(child) not in _DEFINES]
    return tuple(sorted(found))


def _asked(element: Element, by_id: dict[str, Element]) -> list[str]:
    asked = [_TAGS[tag_of(element)]] if tag_of(element) in _TAGS else []
    if element.get("filter", "none") not in _NO_FILTER:
        asked.append("a filter (blur, shadow)")
    if element.get("mix-blend-mode", "normal") not in ("normal", "inherit"):
        asked.append("a blend mode")
    if element.get("paint-order", "normal").split()[0:1] not in ([], ["normal"], ["fill"]):
        asked.append("a stroke under its fill (paint-order)")
    if any("var(" in value for value in element.attrib.values()):
        asked.append("CSS variables")
    masks = [by_id.get(each) for each in targets_of(element) if "mask" in element.attrib]
    if any(mask is not None and tag_of(mask) == "mask" and _by_luminance(mask) for mask in masks):
        asked.append("a mask of greys")
    return asked


def _by_luminance(mask: Element) -> bool:
    """Returns whether a mask's colours count: one all of white hides by what it covers alone."""
    if mask.get("mask-type") == "alpha":
        return False
    for each in mask.iter():
        paints = [each.get("fill"), each.get("stroke")]
        if tag_of(each) in ("path", "rect", "circle", "ellipse", "polygon", "text"):
            paints = [each.get("fill") or mask.get("fill") or "#000000", each.get("stroke")]
        for paint in paints:
            if paint in (None, "none", "inherit"):
                continue
            found = rgba(paint or "")
            if found is None or found[:3] != _WHITE:
                return True
    return False
