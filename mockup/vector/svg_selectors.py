"""How much work the selectors of a style sheet are, reckoned before any is tried.

A selector is tried at the elements that bear its last id, class or name; each try looks as far as
its combinators reach. A sheet of a few kB could keep a machine for hours.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any
from xml.etree.ElementTree import Element  # the type alone: nothing is parsed here

from mockup.errors import LimitError
from mockup.trade.limits import SVG_SELECTOR_TRIES_MAX

# How much longer one step of these takes than one plain try: measured with cssselect2 0.10.
_COUNTS_SIBLINGS, _COUNTS_ALL = 5, 10
_SIBLING_WORDS = ("nth-", "last-", "only-")


@dataclass(frozen=True)
class _Reach:
    """How far a selector may have to look: elements, levels, and children of one element."""

    elements: int
    depth: int
    siblings: int


class SelectorWork:
    """The selectors of all sheets of one tree, weighed as they are added."""

    def __init__(self, root: Element) -> None:
        self._root = root
        self._reach = _reach_of(root)
        self._by_mark: Counter[tuple[str, str]] = Counter()

    def add(self, prelude: Sequence[Any], compiled: Sequence[Any]) -> None:
        """Adds the selectors of one rule: as they are written, and as cssselect2 compiled them."""
        weight = _weight(prelude, self._reach)
        for each in compiled:
            self._by_mark[_mark_of(each)] += weight

    def refuse_endless(self) -> None:
        """Raises LimitError where trying them would be more work than is taken on."""
        if not self._by_mark:
            return
        work = 0
        for element in self._root.iter():
            work += self._by_mark[("", "")]
            work += self._by_mark[("id", element.get("id", ""))]
            work += self._by_mark[("name", str(element.tag).rpartition("}")[2].lower())]
            work += sum(self._by_mark[("class", each)] for each in _classes(element))
            if work > SVG_SELECTOR_TRIES_MAX:
                raise LimitError(
                    "its style sheets ask more of its elements than is taken on (over "
                    f"{SVG_SELECTOR_TRIES_MAX} tries); write plain classes or style attributes"
                )


def _classes(element: Element) -> set[str]:
    return set(element.get("class", "").split())


def _mark_of(selector: Any) -> tuple[str, str]:
    """Returns what cssselect2 looks a selector up by: an id, a class, a name, or nothing."""
    if selector.id is not None:
        return "id", selector.id
    if selector.class_name is not None:
        return "class", selector.class_name
    if selector.local_name is not None:
        return "name", selector.lower_local_name
    return "", ""


def _reach_of(root: Element) -> _Reach:
    level, depth, elements, siblings = [root], 0, 0, 1
    while level:
        depth += 1
        elements += len(level)
        siblings = max(siblings, *(len(element) for element in level))
        level = [child for element in level for child in element]
    return _Reach(elements, depth, siblings)


def _weight(tokens: Sequence[Any], reach: _Reach) -> int:
    """Returns how many steps one try may take: the product of what its combinators look through."""
    weight = 1
    for k, token in enumerate(tokens):
        if token.type == "whitespace":
            if _joins(tokens, k):
                weight *= reach.depth
        elif token.type == "literal" and token.value == "~":
            weight *= reach.siblings
        elif token.type == "ident" and k and tokens[k - 1] == ":":
            weight *= _steps(token.lower_value, reach)
        elif token.type == "function":
            weight *= _steps(token.lower_name, reach) * _weight(token.arguments, reach)
    return weight


def _steps(name: str, reach: _Reach) -> int:
    """Returns how many elements a pseudo-class looks at."""
    if name == "has":
        return reach.elements * _COUNTS_ALL
    beside = name.startswith(_SIBLING_WORDS) or name.endswith("-of-type")
    return reach.siblings * _COUNTS_SIBLINGS if beside else 1


def _joins(tokens: Sequence[Any], k: int) -> bool:
    """Returns whether a space stands between two parts of a selector, as "inside"."""
    if not 0 < k < len(tokens) - 1:
        return False
    return all(each not in (",", ">", "~", "+") for each in (tokens[k - 1], tokens[k + 1]))
