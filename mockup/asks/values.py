"""Values of a request looked at one by one: a caller in Python may hand in anything.

Every function returns the value in the type the program works with, or raises RequestError with
the request's field as key; LimitError where it is only more than the program takes on.
"""

from __future__ import annotations

import datetime
import math
import operator
import os
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import SupportsFloat, SupportsIndex, cast

from mockup.errors import LimitError, Mistake, MockupError, RequestError, nearest
from mockup.suite.audience import Audience
from mockup.units import INCHES_PER_UNIT, parse_length

PathGiven = str | os.PathLike[str]
TEXT_MAX = 1000  # judgement: longer than any name, shorter than a file
PAGE_MAX = 1_000_000  # judgement: beyond any file, within any integer of a library
SEED_MAX = 2**63 - 1  # what a 64-bit integer holds
NAME_MAX = 255  # bytes of one part of a path: the limit of the usual file systems
SHOWN_MAX = 60  # letters of a value told back; judgement: a line is read, not a page


def path_of(key: str, given: PathGiven) -> Path:
    """Returns a path."""
    try:
        text = cast(object, os.fspath(given))  # of a foreign class, it may be anything
    except TypeError:
        raise _wrong(key, given, "is no path; give text or a Path") from None
    if not isinstance(text, str) or not text or "\0" in text:
        raise _wrong(key, given, "is no path; name a file or a folder")
    path = Path(text)
    if any(len(os.fsencode(part)) > NAME_MAX for part in path.parts):
        raise _wrong(key, given, "is too long a name for a file")
    return path


def path_or_none(key: str, given: PathGiven | None) -> Path | None:
    """Returns a path, or None where none is given."""
    return None if given is None else path_of(key, given)


def text_of(key: str, given: str) -> str:
    """Returns a text of one line or more, not empty."""
    if not isinstance(given, str) or not given.strip():  # pyright: ignore
        raise _wrong(key, given, "is no name; write a word")
    if len(given) > TEXT_MAX:
        raise _wrong(key, given, f"has {len(given)} letters; write at most {TEXT_MAX}")
    return given


def text_or_none(key: str, given: str | None) -> str | None:
    """Returns a text, or None where none is given."""
    return None if given is None else text_of(key, given)


def texts_of(key: str, given: Iterable[str]) -> tuple[str, ...]:
    """Returns texts; one text alone is taken as a list of one."""
    if isinstance(given, str):
        return (text_of(key, given),)
    try:
        return tuple(text_of(key, each) for each in given)
    except TypeError:
        raise _wrong(key, given, "is no list of names") from None


def yes_or_no(key: str, given: bool) -> bool:
    """Returns a yes or a no."""
    if not isinstance(given, bool):  # pyright: ignore
        raise _wrong(key, given, "is neither true nor false")
    return given


def choice_of(key: str, given: str, allowed: Sequence[str]) -> str:
    """Returns one of the words allowed."""
    if isinstance(given, str) and given in allowed:  # pyright: ignore
        return given
    hint = nearest(given, allowed) if isinstance(given, str) else ""  # pyright: ignore
    raise _wrong(key, given, f"is not allowed; it is {' or '.join(allowed)}{hint}")


def audience_of(given: Audience | str) -> Audience:
    """Returns whose eyes a picture is for."""
    return Audience(choice_of("audience", given, [each.value for each in Audience]))


def whole(key: str, given: SupportsIndex, low: int, high: int) -> int:
    """Returns a whole number from `low` to `high`."""
    value = _integer(given)
    if value is None or not low <= value <= high:
        raise _wrong(key, given, f"cannot be; give a whole number from {low} to {high}")
    return value


def pixels(key: str, given: SupportsIndex, low: int, limit: int) -> int:
    """Returns a number of pixels from `low`; more than `limit` is more than we take on."""
    value = _integer(given)
    if value is not None and value > limit:
        told = f"{_shown(value)} px is over the limit of {limit} px; ask for fewer"
        raise LimitError(Mistake(told, "", key, _shown(value)))
    return whole(key, given, low, limit)


def real(key: str, given: SupportsFloat, low: float, high: float) -> float:
    """Returns a number from `low` to `high`, neither infinite nor none."""
    try:
        value = math.nan if isinstance(given, bool | str) else float(given)
    except (TypeError, ValueError, OverflowError):
        value = math.nan
    if not low <= value <= high:  # false for nan as well
        raise _wrong(key, given, f"cannot be; give a number from {low:g} to {high:g}")
    return value


def length_of(
    key: str, given: str | float, low_in: float, high_in: float, unit: str = "in"
) -> float:
    """Returns a length in inches, from text or from a number in `unit`."""
    if isinstance(given, str) and len(given) > SHOWN_MAX:
        raise _wrong(key, given, "is no length")
    try:
        value = parse_length(given, unit)
    except MockupError as error:
        raise RequestError(Mistake(error.mistakes[0].sentence, "", key, _shown(given))) from None
    except (OverflowError, TypeError, ValueError):
        raise _wrong(key, given, "is no length") from None
    if not low_in <= value <= high_in:  # false for nan as well
        low, high = (f"{bound / INCHES_PER_UNIT[unit]:g} {unit}" for bound in (low_in, high_in))
        raise _wrong(key, given, f"cannot be; give a length from {low} to {high}")
    return value


def date_of(key: str, given: str | datetime.date | None) -> str:
    """Returns a day as ISO 8601 writes it, `2026-11-26`; today where none is given."""
    if given is None:
        return datetime.date.today().isoformat()
    try:
        if isinstance(given, str):
            return datetime.date.fromisoformat(given).isoformat()
        return datetime.date(given.year, given.month, given.day).isoformat()
    except (AttributeError, TypeError, ValueError):
        raise _wrong(key, given, 'is no day; write one as "2026-11-26"') from None


def _integer(given: SupportsIndex) -> int | None:
    try:
        return None if isinstance(given, bool) else operator.index(given)
    except TypeError:
        return None


def _shown(given: object) -> str:
    try:
        shown = f'"{given}"' if isinstance(given, str | os.PathLike) else repr(given)
    except ValueError:  # a whole number of more digits than Python writes out
        return "a number without end"
    return shown if len(shown) <= SHOWN_MAX else f"{shown[:SHOWN_MAX]}..."


def _wrong(key: str, given: object, told: str) -> RequestError:
    shown = _shown(given)
    return RequestError(Mistake(f"{shown} {told}", "", key, shown))
