"""Which layers of a PDF are seen when it is printed: ISO 32000-1 8.11.2.2 to 8.11.4.

Groups by the default configuration, memberships by their policy or their visibility expression.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import pikepdf

from mockup.trade.limits import PDF_GROUP_DEPTH_MAX
from mockup.vector.pdf_objects import dictionary, entry, identity, items_of, word

Key = tuple[int, int]
"""An object's number and generation."""


@dataclass(frozen=True)
class Layers:
    """The groups that are not seen, by object number and generation."""

    unseen: frozenset[Key] = frozenset()
    _known: dict[Key, bool] = field(default_factory=dict[Key, bool], compare=False, repr=False)

    def shows(self, membership: Any) -> bool:
        """Returns whether what belongs to a group or membership dictionary is seen.

        What is neither hides nothing (8.11.3.2).
        """
        if dictionary(membership) is None:
            return True
        key = identity(membership)
        if key is None:
            return self._weighed(membership)
        if key not in self._known:
            self._known[key] = self._weighed(membership)
        return self._known[key]

    def _weighed(self, membership: Any) -> bool:
        if word(entry(membership, "/Type")) != "OCMD" and entry(membership, "/OCGs") is None:
            return self._group_shows(membership)
        expression = entry(membership, "/VE")
        if isinstance(expression, pikepdf.Array):
            found = self._expressed(expression, 0, {})
            if found is not None:
                return found
        return self.policy_shows(word(entry(membership, "/P")), groups_of(membership))

    def policy_shows(self, policy: str, groups: Sequence[Any]) -> bool:
        """Returns whether groups under a policy of table 99 are seen; AnyOn unless it is said."""
        if not groups:
            return True
        on = [self._group_shows(group) for group in groups]
        decided = {"AllOn": all(on), "AnyOff": not all(on), "AllOff": not any(on)}
        return decided.get(policy, any(on))

    def _group_shows(self, group: Any) -> bool:
        return identity(group) not in self.unseen

    def _expressed(self, expression: Any, depth: int, met: dict[Key, bool | None]) -> bool | None:
        """Returns the value of a visibility expression; None for one that says nothing.

        Arrays may be shared, and each of them doubled: so each is weighed once, and kept in `met`.
        One that is met again inside itself says nothing.
        """
        if dictionary(expression) is not None:
            return self._group_shows(expression)
        key = identity(expression)
        if key is None:
            return self._combined(expression, depth, met)
        if key not in met:
            met[key] = None
            met[key] = self._combined(expression, depth, met)
        return met[key]

    def _combined(self, expression: Any, depth: int, met: dict[Key, bool | None]) -> bool | None:
        parts = items_of(expression)
        if not parts or depth > PDF_GROUP_DEPTH_MAX:
            return None
        values = [self._expressed(part, depth + 1, met) for part in parts[1:]]
        known = [value for value in values if value is not None]
        if not known:
            return None
        match word(parts[0]):
            case "And":
                return all(known)
            case "Or":
                return any(known)
            case "Not":
                return not known[0]
            case _:
                return None


def layers_of(pdf: pikepdf.Pdf) -> Layers:
    """Returns which groups of a document are not seen in print, by its default configuration.

    A group whose intent is not View plays no part (8.11.2.3); one whose usage says that it is not
    printed is not seen (8.11.4.4).
    """
    return Layers(frozenset(_keys(_switched_off(pdf)) | _keys(_unprinted(pdf))))


def layers_of_template(pdf: pikepdf.Pdf) -> Layers:
    """Returns which groups of a template are not seen: as for print, but a processing step that is
    only kept from printing is, for that is how dies are handed on (ISO 19593-1:2018)."""
    unprinted = [
        each for each in _unprinted(pdf) if dictionary(entry(each, "/GTS_Metadata")) is None
    ]
    return Layers(frozenset(_keys(_switched_off(pdf)) | _keys(unprinted)))


def _switched_off(pdf: pikepdf.Pdf) -> list[Any]:
    """Returns the groups that the default configuration has off (8.11.4.3)."""
    default = entry(entry(pdf.Root, "/OCProperties"), "/D")
    by_base = word(entry(default, "/BaseState")) == "OFF"
    on = {identity(each) for each in items_of(entry(default, "/ON"))}
    off = {identity(each) for each in items_of(entry(default, "/OFF"))}
    return [
        group
        for group in _groups(pdf)
        if (identity(group) not in on if by_base else identity(group) in off)
    ]


def _unprinted(pdf: pikepdf.Pdf) -> list[Any]:
    """Returns the groups whose usage says that they are not printed."""
    return [
        group
        for group in _groups(pdf)
        if word(entry(entry(entry(group, "/Usage"), "/Print"), "/PrintState")) == "OFF"
    ]


def _groups(pdf: pikepdf.Pdf) -> list[Any]:
    """Returns a document's groups that play a part."""
    listed = items_of(entry(entry(pdf.Root, "/OCProperties"), "/OCGs"))
    return [each for each in listed if identity(each) is not None and _is_for_view(each)]


def _keys(groups: Sequence[Any]) -> set[Key]:
    return {key for each in groups if (key := identity(each)) is not None}


def groups_of(membership: Any) -> list[Any]:
    """Returns the groups a membership dictionary names; those that are null are left out."""
    told = entry(membership, "/OCGs")
    found = items_of(told) if isinstance(told, pikepdf.Array) else [told]
    return [each for each in found if dictionary(each) is not None]


def groups_in(expression: Any) -> list[Any]:
    """Returns the groups a visibility expression names, each once, in the order it names them."""
    found: list[Any] = []
    level, seen = [expression], set[Key]()
    for _ in range(PDF_GROUP_DEPTH_MAX + 1):
        inner: list[Any] = []
        for each in level:
            key = identity(each)
            if key in seen:
                continue
            if key is not None:
                seen.add(key)
            if dictionary(each) is not None:
                found.append(each)
            inner += items_of(each)
        level = inner
    return found


def _is_for_view(group: Any) -> bool:
    told = entry(group, "/Intent")
    intents = items_of(told) if isinstance(told, pikepdf.Array) else [told] if told else []
    return not intents or any(word(each) in ("View", "All") for each in intents)
