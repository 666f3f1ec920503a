"""What style sheets and style attributes declare, written into an SVG's attributes.

CSS Cascade 4, 6: sheets in order of specificity, then the style attribute, then what is important.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any
from xml.etree.ElementTree import Element

import cssselect2
import tinycss2

from mockup.errors import InputError, LimitError
from mockup.trade.limits import SVG_CSS_DEPTH_MAX, SVG_DECLARATIONS_MAX, SVG_SELECTORS_MAX
from mockup.vector.svg_colour import COLOUR_KEYS, plain
from mockup.vector.svg_selectors import SelectorWork

Declared = list[tuple[str, str]]

# Attributes that are no properties, though a sheet may use the word.
_NO_PROPERTIES = frozenset(
    {"id", "class", "style", "href", "d", "points", "type", "lang", "src", "content"}
)
_PROPERTY = re.compile(r"^[a-z][a-z0-9-]*$")
_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f]")
_MEDIA = ("all", "print", "screen")
_SELECTOR_TOKENS_MAX = 100  # judgement: sheets that drawing programs write have a few
_STYLE_TAGS = ("style", "{http://www.w3.org/2000/svg}style")


def inline_styles(root: Element) -> None:
    """Writes every declaration that applies to an element into its attributes, and colours as hex.

    Raises InputError for a sheet that imports another or takes a typeface from outside; LimitError
    for one beyond the limits.
    """
    normal, important = _matchers(root)
    found: list[tuple[Element, list[Declared]]] = []
    count = 0
    for wrapper in cssselect2.ElementWrapper.from_xml_root(root).iter_subtree():
        element: Element = wrapper.etree_element
        own, own_strong = _declared(_read_css(element.get("style", "")))
        sheets: list[Declared] = [each[-1] for each in normal.match(wrapper)]
        strong: list[Declared] = [each[-1] for each in important.match(wrapper)]
        found.append((element, [*sheets, own, *strong, own_strong]))
        count += sum(map(len, found[-1][1]))
        if count > SVG_DECLARATIONS_MAX:
            raise LimitError(
                f"its styles come to over {SVG_DECLARATIONS_MAX} declarations; simplify them"
            )
    for element, lists in found:  # only now: selectors may ask for attributes as they were
        _write(element, lists)


def _write(element: Element, lists: list[Declared]) -> None:
    element.attrib.pop("style", None)
    for key, value in (each for declared in lists for each in declared):
        element.set(key, value)
    for key in COLOUR_KEYS.intersection(element.keys()):
        element.set(key, plain(element.get(key, "")))
    if element.tag in _STYLE_TAGS:
        element.text = ""


def _matchers(root: Element) -> tuple[Any, Any]:
    """Returns what tells an element's plain declarations, and its important ones."""
    normal, important = cssselect2.Matcher(), cssselect2.Matcher()
    work, count = SelectorWork(root), 0
    for rule in _rules(root):
        selectors = _selectors(rule.prelude)
        count += len(selectors)
        if count > SVG_SELECTORS_MAX:
            raise LimitError(f"its style sheets have over {SVG_SELECTORS_MAX} selectors")
        work.add(rule.prelude, selectors)
        for matcher, declared in zip((normal, important), _declared(rule.content), strict=True):
            for selector in selectors if declared else ():
                matcher.add_selector(selector, declared)
    work.refuse_endless()
    return normal, important


def _rules(root: Element) -> Iterator[Any]:
    for element in root.iter():
        if element.tag not in _STYLE_TAGS or not element.text:
            continue
        if element.get("type", "text/css") != "text/css":
            continue
        if not _is_for_print(element.get("media", "all")):
            continue
        _refuse_nesting(element.text)
        yield from _within(tinycss2.parse_stylesheet(element.text, True, True))


def _within(rules: list[Any]) -> Iterator[Any]:
    for rule in rules:
        if rule.type == "qualified-rule":
            yield rule
        elif rule.type != "at-rule":
            continue
        elif rule.lower_at_keyword == "import":
            said = tinycss2.serialize(rule.prelude).strip()[:60]
            raise InputError(f"the SVG imports a style sheet, {said}; write the styles into it")
        elif rule.lower_at_keyword == "media" and rule.content is not None:
            if _is_for_print(tinycss2.serialize(rule.prelude)):
                yield from _within(tinycss2.parse_rule_list(rule.content, True, True))
        elif rule.lower_at_keyword == "font-face" and rule.content is not None:
            _refuse_outside_faces(rule.content)


def _is_for_print(media: str) -> bool:
    """Returns whether a plain list of media names one we draw for; conditions are not weighed."""
    return any(each.strip().lower() in (*_MEDIA, "") for each in media.split(","))


def _refuse_outside_faces(content: list[Any]) -> None:
    for token in content:
        if token.type == "url":
            url = token.value
        elif token.type == "function" and token.lower_name == "url":
            url = "".join(each.value for each in token.arguments if each.type == "string")
        else:
            continue
        if not url.startswith(("data:", "#")):
            raise InputError(
                f'the SVG takes a typeface from outside itself, "{url[:60]}"; turn type to outlines'
            )


def _selectors(prelude: list[Any]) -> list[Any]:
    """Returns compiled selectors; none for a list that is not valid, as CSS drops its rule."""
    length = 0
    for token in prelude:
        length = 0 if token == "," else length + 1
        if length > _SELECTOR_TOKENS_MAX:
            raise LimitError("a selector in its style sheets goes on and on; simplify the sheet")
    try:
        compiled = cssselect2.compile_selector_list(prelude)
    except (cssselect2.SelectorError, SyntaxError, RecursionError):
        return []
    return [each for each in compiled if each.pseudo_element is None and not each.never_matches]


def _read_css(text: str) -> list[Any]:
    if not text:
        return []
    _refuse_nesting(text)
    return tinycss2.parse_component_value_list(text, skip_comments=True)


def _declared(content: list[Any]) -> tuple[Declared, Declared]:
    """Returns the declarations of a block: the plain ones, and the important ones."""
    normal: Declared = []
    important: Declared = []
    for each in tinycss2.parse_declaration_list(content, True, True):
        if each.type != "declaration" or not _PROPERTY.match(each.lower_name):
            continue
        value = tinycss2.serialize(each.value).strip()
        if each.lower_name in _NO_PROPERTIES or not value or _CONTROL.search(value):
            continue
        keys = [each.lower_name]
        if each.lower_name == "marker":
            keys = ["marker-start", "marker-mid", "marker-end"]
        (important if each.important else normal).extend((key, value) for key in keys)
    return normal, important


def _refuse_nesting(text: str) -> None:
    depth = 0
    for letter in text:
        if letter in "([{":
            depth += 1
            if depth > SVG_CSS_DEPTH_MAX:
                raise LimitError(
                    f"its styles nest brackets deeper than {SVG_CSS_DEPTH_MAX}; simplify them"
                )
        elif letter in ")]}":
            depth = max(0, depth - 1)
