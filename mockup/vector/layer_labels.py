"""What the layers of a PDF are called, and which processing steps they say they are."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from mockup.errors import LimitError
from mockup.trade.limits import PDF_LAYERS_MAX
from mockup.vector.optional_content import groups_of
from mockup.vector.pdf_objects import dictionary, entry, identity, word


@dataclass(frozen=True)
class Labels:
    """Names of groups, and `Structural/Cutting` of those that are processing steps (ISO 19593)."""

    names: tuple[str, ...] = ()
    steps: tuple[str, ...] = ()


class LayerLabels:
    """Reads the labels of groups and memberships, of each once."""

    def __init__(self) -> None:
        self._known: dict[tuple[int, int], Labels] = {}

    def of(self, group: Any) -> Labels:
        """Returns the labels of a group, or of all groups of a membership (table 99).

        Raises LimitError for a membership of more groups than are taken on.
        """
        key = identity(group)
        if key is None:
            return _read(group)
        if key not in self._known:
            self._known[key] = _read(group)
        return self._known[key]


def _read(group: Any) -> Labels:
    names: dict[str, None] = {}
    steps: dict[str, None] = {}
    waiting, seen = [group], set[tuple[int, int]]()
    while waiting:
        each = waiting.pop()
        key = identity(each)
        if dictionary(each) is None or key in seen:
            continue
        if key is not None:
            seen.add(key)
        if entry(each, "/OCGs") is not None:
            waiting += reversed(groups_of(each))
            continue
        _note(each, names, steps)
        if len(names) > PDF_LAYERS_MAX:
            raise LimitError(f"a layer of it is made of over {PDF_LAYERS_MAX}; flatten its layers")
    return Labels(tuple(names), tuple(steps))


def _note(group: Any, names: dict[str, None], steps: dict[str, None]) -> None:
    name = word(entry(group, "/Name"))
    if name:
        names[name] = None
    meant = entry(group, "/GTS_Metadata")
    step = word(entry(meant, "/GTS_ProcStepsGroup"))
    kind = word(entry(meant, "/GTS_ProcStepsType"))
    if step:
        steps[f"{step}/{kind}" if kind else step] = None
