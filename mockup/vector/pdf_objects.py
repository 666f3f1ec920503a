"""Values taken out of a foreign PDF one at a time: what they should be, or nothing."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import pikepdf

from mockup.errors import InputError
from mockup.vector.stumbling import asked


def entry(holder: Any, key: str) -> Any:
    """Returns what a dictionary or stream holds under a key; None where it has none."""
    if not isinstance(holder, (pikepdf.Dictionary, pikepdf.Stream)):
        return None
    return asked(lambda: holder.get(key), otherwise=None)


def items_of(value: Any) -> list[Any]:
    """Returns the items of an array; none for anything else."""
    nothing: list[Any] = []
    return asked(lambda: list(value), otherwise=nothing) if isinstance(value, pikepdf.Array) else []


def dictionary(value: Any) -> Any:
    """Returns a dictionary, or None for anything else."""
    return value if isinstance(value, pikepdf.Dictionary) else None


def word(value: Any) -> str:
    """Returns a name without its slash, or a string; empty for anything else."""
    if isinstance(value, (pikepdf.Name, pikepdf.String)):
        return asked(lambda: str(value), otherwise="").removeprefix("/")
    return ""


def number(value: Any) -> float | None:
    """Returns a finite number, or None for anything else."""
    if isinstance(value, bool) or value is None:
        return None
    found = asked(lambda: float(value), otherwise=math.nan)
    return found if math.isfinite(found) else None


def numbers(values: Sequence[Any], count: int, of: str) -> list[float]:
    """Returns the last `count` numbers operator or key `of` is given. Raises InputError."""
    found = [each for each in map(number, values) if each is not None]
    if len(found) < count:
        raise InputError(f"is broken ({of} without its numbers); save it again as PDF")
    return found[-count:] if count else []


def identity(value: Any) -> tuple[int, int] | None:
    """Returns an indirect object's number and generation; None for a direct one."""
    if not isinstance(value, (pikepdf.Dictionary, pikepdf.Stream, pikepdf.Array)):
        return None
    found = asked(lambda: value.objgen, otherwise=(0, 0))
    return None if found == (0, 0) else found
