"""What a rule of a printer says against a piece or an envelope, and the nearest way that goes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any, Generic, TypeVar

from mockup.printers.prices import Terms
from mockup.suite.suite import Envelope, Piece

Item = TypeVar("Item", Piece, Envelope)
_ROUNDS = 40  # judgement: minimums and steps of one printer are settled in two or three


@dataclass(frozen=True)
class Way(Generic[Item]):
    """What could be done instead: in words, and the item as it would then be."""

    said: str
    item: Item


@dataclass(frozen=True)
class Clash(Generic[Item]):
    """What does not go: by which rule, in words. `ways` are kinds of change, each from the nearest
    on; `otherwise` is said where none of them goes. `least` is the next quantity that the rule
    takes, where that is all it asks."""

    rule: str
    said: str
    ways: Sequence[Iterable[Way[Item]]] = ()
    otherwise: str = "ask them"
    least: int | None = None


@dataclass(frozen=True)
class Contradiction(Generic[Item]):
    """A clash, with the ways that go: each makes an end of it, and makes no other."""

    name: str
    rule: str
    said: str
    ways: tuple[Way[Item], ...]
    otherwise: str

    @property
    def line(self) -> str:
        """All of it, in a line."""
        ways = " or ".join(dict.fromkeys(each.said for each in self.ways))
        return f"{self.name}: {self.said}; {ways or self.otherwise}"


Rules = Callable[[Item], Iterable[Clash[Item]]]
"""Everything that one printer says against an item."""


def contradictions_of(name: str, item: Item, rules: Rules[Item]) -> list[Contradiction[Item]]:
    """Returns what a printer says against an item, with the nearest way of each kind that goes."""
    clashes = list(rules(item))
    before = {each.rule for each in clashes}
    told: list[Contradiction[Item]] = []
    for clash in clashes:
        if clash.least is not None:
            found = _enough(item, clash.least, rules)
            ways = () if found is None else (found,)
        else:
            kinds = (_first_going(kind, clash.rule, before, rules) for kind in clash.ways)
            ways = tuple(way for way in kinds if way is not None)
        told.append(Contradiction(name, clash.rule, clash.said, ways, clash.otherwise))
    return told


def _first_going(
    kind: Iterable[Way[Item]], rule: str, before: set[str], rules: Rules[Item]
) -> Way[Item] | None:
    """Returns the first way that makes no other clash, or only one that a larger order ends."""
    for way in kind:
        new = [each for each in rules(way.item) if each.rule not in before - {rule}]
        if not new:
            return way
        least = [each.least for each in new if each.least is not None]
        more = _enough(way.item, max(least), rules) if len(least) == len(new) else None
        if more is not None:
            return Way(f"{way.said} ({more.said})", more.item)
    return None


def _enough(item: Item, least: int, rules: Rules[Item]) -> Way[Item] | None:
    """Returns the order of the least quantity, from one on, that no rule is against."""
    count: int = least
    for _ in range(_ROUNDS):
        more: Any = replace(item, quantity=count)
        asked = [each.least for each in rules(more) if each.least is not None]
        if not asked:
            return Way(f"order {count}", more)
        count = max(asked)
    return None


def too_few(rule: str, terms: Terms, item: Item, what: str) -> Iterator[Clash[Item]]:
    """Yields what a row's terms say against the quantity of an item: under its minimum, or between
    its steps."""
    quantity = item.quantity
    if quantity is None or terms.least(quantity) == quantity:
        return
    short = quantity < terms.minimum
    limit = f"from {terms.minimum} on" if short else f"in steps of {terms.step}"
    said = f"{quantity} are ordered; {what} {limit}"
    yield Clash(f"quantity: {rule}", said, least=terms.least(quantity))
