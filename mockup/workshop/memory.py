"""Answers remembered while the program runs: the latest, up to so many bytes."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Hashable
from typing import Any

REMEMBERED_BYTES = 192 * 1024**2  # judgement: the pages of a suite at 12 megapixels


class Memory:
    """A bounded memory: what was asked for longest ago is forgotten first."""

    def __init__(self, most_bytes: int = REMEMBERED_BYTES) -> None:
        self._most_bytes = most_bytes
        self._held: OrderedDict[Hashable, tuple[Any, int]] = OrderedDict()
        self._bytes = 0

    def __contains__(self, key: Hashable) -> bool:
        return key in self._held

    def recall(self, key: Hashable) -> Any:
        """Returns what is remembered. Raises KeyError."""
        self._held.move_to_end(key)
        return self._held[key][0]

    def remember(self, key: Hashable, answer: Any, size: int) -> None:
        """Keeps an answer of a size in bytes; one larger than the whole memory is not kept."""
        if size > self._most_bytes or key in self._held:
            return
        self._held[key] = answer, size
        self._bytes += size
        while self._bytes > self._most_bytes:
            _, (_, freed) = self._held.popitem(last=False)
            self._bytes -= freed

    def forget(self) -> None:
        """Forgets everything."""
        self._held.clear()
        self._bytes = 0
