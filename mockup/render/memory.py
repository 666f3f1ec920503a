"""What pictures drawn before have left behind, so that the next like them costs only what is new.

A live page draws the same suite again and again with one card's art changed. Where paper lies, how
it rests, what each sheet sees of the light, its grain and its coverage do not depend on that art.
Everything is kept by the values it was made from and is never changed, so a picture is the same to
the byte whether anything was remembered or not. The least used goes first.
"""

from __future__ import annotations

import hashlib
import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import fields, is_dataclass
from typing import Any, TypeVar, cast

import numpy as np
from numpy.typing import NDArray

LIMIT_BYTES = 400 * 1024**2  # judgement: a 12 megapixel flat-lay and its art, with room

Kept = TypeVar("Kept")


class Memory:
    """Answers by key, up to a number of bytes in all; safe to use from several threads."""

    def __init__(self, limit_bytes: int) -> None:
        self._limit, self._used = limit_bytes, 0
        self._answers: OrderedDict[Hashable, tuple[Any, int]] = OrderedDict()
        self._lock = threading.Lock()

    @property
    def used_bytes(self) -> int:
        """The bytes of all that is kept."""
        return self._used

    def recalled(self, key: Hashable) -> object | None:
        """Returns what is kept under a key, or None."""
        with self._lock:
            if key not in self._answers:
                return None
            self._answers.move_to_end(key)
            return self._answers[key][0]

    def keep(self, key: Hashable, answer: object) -> None:
        """Keeps an answer in place of any older one; one over the limit is not kept at all."""
        size = size_bytes(answer)
        with self._lock:
            self._used -= self._answers.pop(key, (None, 0))[1]
            if size > self._limit:
                return
            self._answers[key] = (answer, size)
            self._used += size
            while self._used > self._limit:
                self._used -= self._answers.popitem(last=False)[1][1]

    def forget(self) -> None:
        """Lets go of everything."""
        with self._lock:
            self._answers.clear()
            self._used = 0


MEMORY = Memory(LIMIT_BYTES)


def remembered(key: Hashable, make: Callable[[], Kept]) -> Kept:
    """Returns what was made for a key before, or makes it now and keeps it."""
    found = MEMORY.recalled(key)
    if found is None:
        found = make()
        MEMORY.keep(key, found)
    return cast(Kept, found)


def key_of(value: object) -> Hashable:
    """Returns a key of a frozen value, equal only for equal values; arrays count by content."""
    if isinstance(value, np.ndarray):
        array = cast(NDArray[Any], value)
        return array.shape, array.dtype.str, digest(array)
    if isinstance(value, tuple | list):
        return tuple(key_of(each) for each in cast(tuple[object, ...], value))
    if is_dataclass(value) and not isinstance(value, type):
        return type(value), *(key_of(getattr(value, each.name)) for each in fields(value))
    assert isinstance(value, Hashable), f"{type(value).__name__} is no frozen value"
    return value


def digest(array: NDArray[Any]) -> bytes:
    """Returns a digest of an array's content."""
    return hashlib.sha256(np.ascontiguousarray(array).data.cast("B")).digest()


def size_bytes(value: object, seen: set[int] | None = None) -> int:
    """Returns the bytes of all arrays a value holds on to, each counted once."""
    seen = set() if seen is None else seen
    if id(value) in seen:
        return 0
    seen.add(id(value))
    if isinstance(value, np.ndarray):
        array = cast(NDArray[Any], value)
        base: object = array.base
        return size_bytes(base, seen) if isinstance(base, np.ndarray) else array.nbytes
    parts: list[object] = []
    if isinstance(value, tuple | list):
        parts = list(cast(tuple[object, ...], value))
    elif is_dataclass(value) and not isinstance(value, type):
        parts = [getattr(value, each.name) for each in fields(value)]
    elif callable(value):
        parts = [getattr(value, "__self__", None)]
        parts += [cell.cell_contents for cell in getattr(value, "__closure__", None) or ()]
    return sum(size_bytes(part, seen) for part in parts)
