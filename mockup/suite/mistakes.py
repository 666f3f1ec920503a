"""Mistakes of a suite file in the project's own words: key path, value, what is allowed."""

from __future__ import annotations

import copy
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from mockup.errors import nearest
from mockup.suite.schema import (
    AcceptTable,
    CutLineTable,
    EnvelopeTable,
    LinerTable,
    PieceTable,
    ProofTable,
    SceneTable,
    SuiteTable,
)

_TABLES: dict[str, type[BaseModel]] = {
    "pieces": PieceTable,
    "envelopes": EnvelopeTable,
    "cut_line": CutLineTable,
    "scene": SceneTable,
    "proof": ProofTable,
    "accept": AcceptTable,
}
# A value that may be text or a table is tried as both; only one of the complaints is to the point.
_ALTERNATIVES = {"str", "float", "int", "dict[str,any]", "LinerTable", "constrained-str"}


def lines(path: Path, raw: dict[str, Any], error: ValidationError) -> list[str]:
    """Returns one line for every mistake pydantic found in a table read from `path`."""
    told_keys: dict[str, str] = {}
    for mistake in error.errors():
        key = ".".join(str(part) for part in mistake["loc"] if not _is_alternative(part))
        told_keys.setdefault(key, f"{path}: {key}: {_sentence(mistake, key)}")
    return list(told_keys.values())


def without_mistakes(raw: dict[str, Any], error: ValidationError) -> dict[str, Any]:
    """Returns a copy of a table without the keys that are mistaken, so that the rest can be read.

    A missing key stays missing: its whole table (one piece, one envelope) is left out.
    """
    sound = copy.deepcopy(raw)
    for mistake in error.errors():
        keys = [part for part in mistake["loc"] if not _is_alternative(part)]
        if mistake["type"] == "missing":
            keys = keys[:-1]
        _drop(sound, keys)
    return sound


def _drop(table: dict[str, Any], keys: list[int | str]) -> None:
    inside: Any = table
    for key in keys[:-1]:
        inside = inside.get(key) if isinstance(inside, dict) else None
    if isinstance(inside, dict) and keys:
        inside.pop(keys[-1], None)


def told(name: str, kind: str, allowed: Iterable[str]) -> str:
    """Returns `no piece called "replay"; did you mean "reply"?`, or all that is allowed."""
    names = list(allowed)
    hint = nearest(name, names) or f"; allowed: {', '.join(names)}"
    return f'no {kind} called "{name}"{hint}'


def _sentence(mistake: ErrorDetails, key: str) -> str:
    kind, value, context = mistake["type"], mistake["input"], mistake.get("ctx", {})
    if kind == "extra_forbidden":
        return told(key.rsplit(".", 1)[-1], "key", _keys_beside(key))
    if kind == "missing":
        return "is missing; write it"
    if kind == "literal_error":
        allowed = str(context["expected"]).replace("'", '"')
        choices = allowed.replace('"', "").replace(" or ", ", ").split(", ")
        return f"{_shown(value)} is not allowed; it is {allowed}{nearest(str(value), choices)}"
    if kind == "string_pattern_mismatch":
        return f"{_shown(value)}: use small letters, digits, - and _ in names"
    if kind in ("too_short", "string_too_short"):
        return "is empty; write at least one"
    wanted = mistake["msg"][:1].lower() + mistake["msg"][1:]
    return f"{_shown(value)} cannot be: {wanted}"


def _keys_beside(key: str) -> list[str]:
    parts = key.split(".")
    if len(parts) == 1:
        return list(SuiteTable.model_fields)
    if "liner" in parts[:-1]:
        return list(LinerTable.model_fields)
    table = _TABLES.get(parts[0])
    return list(table.model_fields) if table else []


def _is_alternative(part: int | str) -> bool:
    if not isinstance(part, str):
        return False
    return part in _ALTERNATIVES or part.startswith(("constrained", "[key]"))


def _shown(value: object) -> str:
    return f'"{value}"' if isinstance(value, str) else repr(value)[:60]
