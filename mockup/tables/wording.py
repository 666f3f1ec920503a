"""Mistakes of form in a suite, scene or catalogue file: key, value, and what to write instead."""

from __future__ import annotations

import copy
import datetime
import types
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import Annotated, Any, TypeVar, Union, get_args, get_origin

from pydantic import BaseModel, ValidationError
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from mockup.errors import Mistake, nearest, quoted
from mockup.trade.limits import TOML_MAX_DEPTH

TOLD_MAX = 100  # judgement: more than anybody reads before mending the first
Keys = tuple[int | str, ...]
Model = TypeVar("Model", bound=BaseModel)

# What a kind of value is called, by the name pydantic has for its absence.
_WANTED = {
    "string_type": "text in quotes",
    "int_type": "a whole number",
    "int_from_float": "a whole number",
    "int_parsing": "a whole number",
    "int_parsing_size": "a whole number",
    "float_type": "a number",
    "float_parsing": "a number",
    "decimal_type": "a number",
    "number_type": "a number",
    "bool_type": "true or false",
    "dict_type": "a table",
    "model_type": "a table",
    "model_attributes_type": "a table",
    "list_type": "a list",
    "tuple_type": "a list",
}
_BOUNDS = {
    "greater_than": ("gt", "more than {}"),
    "greater_than_equal": ("ge", "{} or more"),
    "less_than": ("lt", "less than {}"),
    "less_than_equal": ("le", "at most {}"),
}


def form_mistakes(file: str, raw: Mapping[str, Any], model: type[BaseModel]) -> list[Mistake]:
    """Returns one mistake for every key of a file's tables that its schema refuses."""
    grouped: dict[Keys, list[ErrorDetails]] = {}
    for each in _refused(raw, model):
        grouped.setdefault(_keys(raw, each), []).append(each)
    told: list[Mistake] = []
    holding = {keys[:depth] for keys in grouped for depth in range(len(keys))}
    for keys, errors in grouped.items():
        if keys in holding and all(_is_of_kind(each) for each in errors):
            continue  # a value that may be text or a table was tried as both; this one is a table
        if len(told) == TOLD_MAX:
            said = f"more than {TOLD_MAX} mistakes are in it; mend these first"
            return [*told, Mistake(said, file)]
        value = "" if errors[0]["type"] == "missing" else shown(errors[0]["input"])
        told.append(Mistake(_sentence(keys, errors, model), file, key_path(keys), value))
    return told


def _is_of_kind(mistake: ErrorDetails) -> bool:
    """Returns whether a mistake says no more than that a value is of another kind, or that too few
    of a list's items are sound."""
    of_a_table = isinstance(mistake["input"], dict | list)
    if mistake["type"] == "too_short":
        return True
    return mistake["type"] in _WANTED or (mistake["type"] == "literal_error" and of_a_table)


def sound_part(raw: Mapping[str, Any], model: type[Model]) -> Model | None:
    """Returns what can be read of tables once all that is mistaken is left out, None if nothing.

    Where a key is missing its whole table (one piece, one envelope) is left out; so is the whole
    item of a list.
    """
    sound = raw
    for _ in range(TOML_MAX_DEPTH):  # what is left out may leave its own table incomplete
        try:
            return model.model_validate(sound)
        except ValidationError as error:
            sound = _without_mistakes(sound, error)
    return None


def _without_mistakes(raw: Mapping[str, Any], error: ValidationError) -> dict[str, Any]:
    sound: dict[str, Any] = copy.deepcopy(dict(raw))
    dropped: list[Keys] = []
    for each in error.errors(include_url=False):
        keys = _keys(raw, each)
        dropped.append(keys[:-1] if each["type"] == "missing" else keys)
    # From the back, so that the items of a list keep their numbers until they go.
    for keys in sorted(set(dropped), key=repr, reverse=True):
        _drop(sound, keys)
    return sound


def key_path(keys: Iterable[int | str]) -> str:
    """Returns keys as they are told: `pieces.reply.die`, list items counted from 1: `accept.1`."""
    return ".".join(str(key + 1) if isinstance(key, int) else _plain(key) for key in keys)


def told(name: str, kind: str, allowed: Iterable[str]) -> str:
    """Returns `no piece called "replay"; did you mean "reply"?`, or all that is allowed."""
    names = list(allowed)
    hint = nearest(name, names) or f"; allowed: {', '.join(names)}"
    return f"no {kind} called {quoted(name)}{hint}"


def shown(value: object) -> str:
    """Returns a value as a message shows it: short, on one line, never failing."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, int):
        bits = value.bit_length()
        return str(value) if bits < 100 else f"a number of some {bits * 3 // 10} digits"
    if isinstance(value, float):
        return f"{value:g}"
    if isinstance(value, Decimal | datetime.date | datetime.time):
        return str(value)[:40]
    return "a table" if isinstance(value, dict) else "a list" if isinstance(value, list) else "this"


def _refused(raw: Mapping[str, Any], model: type[BaseModel]) -> list[ErrorDetails]:
    try:
        model.model_validate(raw)
    except ValidationError as error:
        return error.errors(include_url=False)
    return []


def _keys(raw: Mapping[str, Any], mistake: ErrorDetails) -> Keys:
    """Returns where a mistake stands: pydantic's place, without its names for alternatives."""
    inside: Any = raw
    keys: list[int | str] = []
    for part in mistake["loc"]:
        if not _holds(inside, part):
            continue
        inside = inside[part]
        keys.append(part)
    if mistake["type"] == "missing":
        keys.append(mistake["loc"][-1])
    return tuple(keys)


def _holds(inside: Any, part: int | str) -> bool:
    if isinstance(inside, list):
        return isinstance(part, int) and part < len(inside)
    return isinstance(inside, dict) and part in inside


def _drop(table: dict[str, Any], keys: Keys) -> None:
    inside: Any = table
    for depth, key in enumerate(keys[:-1]):
        if isinstance(inside, list):
            _remove(inside, key)
            return
        if not isinstance(inside, dict) or key not in inside:
            return
        if isinstance(inside[key], list) and depth < len(keys) - 1:
            _remove(inside[key], keys[depth + 1])
            return
        inside = inside[key]
    if isinstance(inside, dict) and keys:
        inside.pop(keys[-1], None)


def _remove(items: list[Any], number: int | str) -> None:
    if isinstance(number, int) and number < len(items):
        items.pop(number)


def _sentence(keys: Keys, errors: Sequence[ErrorDetails], model: type[BaseModel]) -> str:
    """Returns the sentence of one key; of several alternatives, what is nearest to being right."""
    further = [each for each in errors if each["type"] not in _WANTED]
    mistake = (further or list(errors))[0]
    kind, value = mistake["type"], mistake["input"]
    if kind == "extra_forbidden":
        return told(str(keys[-1]), "key", _beside(keys, model))
    if kind == "missing":
        return "is missing; write it"
    if mistake["loc"][-1] == "[key]":
        return f"{shown(value)} is no name; {_NAMES}"
    if not further:
        return _wrong_kind(keys, errors, model)
    return _out_of_bounds(mistake)


_NAMES = "a name has up to 60 small letters, digits, - and _"


def _wrong_kind(keys: Keys, errors: Sequence[ErrorDetails], model: type[BaseModel]) -> str:
    value = errors[0]["input"]
    table = _model_in(_annotation(keys, model))
    kinds = {each["type"] for each in errors}
    # Where a table may stand in the list's place, the list is of something else.
    listed = bool(kinds & {"tuple_type", "list_type"}) and "model_type" not in kinds
    if listed and table is not None and isinstance(_annotation((*keys, 0), model), type):
        wanted = f"tables, each under [[{key_path(keys)}]]"
    else:
        wanted = " or ".join(dict.fromkeys(_WANTED[each["type"]] for each in errors))
        if wanted == "a table":
            wanted = f"a table, [{key_path(keys)}]"
    return f"{_what(value)}; write {wanted}"


def _what(value: object) -> str:
    """Returns what a value is: `3 is a whole number`, `is a list`."""
    if isinstance(value, dict | list):
        return f"is {shown(value)}"
    kinds: tuple[tuple[type | tuple[type, ...], str], ...] = (
        (bool, "true or false"),
        (int, "a whole number"),
        ((float, Decimal), "a number"),
        (str, "text"),
        ((datetime.date, datetime.time), "a date or time"),
    )
    name = next((name for kind, name in kinds if isinstance(value, kind)), "something else")
    if isinstance(value, bool) or shown(value).startswith("a number"):
        return f"is {shown(value)}"
    return f"{shown(value)} is {name}"


def _out_of_bounds(mistake: ErrorDetails) -> str:
    kind, value, context = mistake["type"], mistake["input"], mistake.get("ctx", {})
    if kind in _BOUNDS:
        key, words = _BOUNDS[kind]
        bound = f"{context[key]:,}".removesuffix(".0")
        return f"{shown(value)} cannot be; write {words.format(bound)}"
    if kind == "finite_number":
        return f"{shown(value)} is no finite number; write one"
    if kind == "literal_error":
        choices = str(context["expected"]).replace("'", "").replace(" or ", ", ").split(", ")
        allowed = ", ".join(f'"{choice}"' for choice in choices[:-1]) + f' or "{choices[-1]}"'
        hint = nearest(value, choices) if isinstance(value, str) else ""
        return f"{shown(value)} is not allowed; it is {allowed}{hint}"
    if kind == "string_pattern_mismatch":
        if str(context.get("pattern")) == CURRENCY:
            return f'{shown(value)} is no currency; write its three capitals, for example "USD"'
        return f"{shown(value)} is no name; {_NAMES}"
    if kind == "string_too_long":
        return f"has {len(str(value))} characters; write at most {context['max_length']}"
    if kind == "string_too_short":
        return "is empty; write something"
    if kind in ("too_short", "too_long"):
        return _wrong_count(mistake)
    if kind == "ink_name":
        return f"{shown(value)} {mistake['msg']}"
    return f"{shown(value)} cannot be here; write what the README shows"


CURRENCY = r"^[A-Z]{3}$"
"""The form of a currency's code, ISO 4217."""


def _wrong_count(mistake: ErrorDetails) -> str:
    context = mistake.get("ctx", {})
    has = context.get("actual_length")
    if mistake["type"] == "too_long":
        most = context["max_length"]
        return f"holds {has if has is not None else 'more'}; write at most {most}"
    least = context["min_length"]
    return "is empty; write at least one" if not has else f"holds {has}; write {least}"


def _beside(keys: Keys, model: type[BaseModel]) -> list[str]:
    beside = _model_in(_annotation(keys[:-1], model))
    return list(_fields(beside)) if beside else []


def _fields(model: type[BaseModel]) -> dict[str, FieldInfo]:
    """Returns a table's fields by the key the file writes."""
    return {field.alias or name: field for name, field in model.model_fields.items()}


def _annotation(keys: Keys, model: type[BaseModel]) -> Any:
    """Returns the type the schema gives the value at a place."""
    found: Any = model
    for key in keys:
        here = _model_in(found)
        mapping = _bare(found)
        if get_origin(mapping) in (dict, tuple):
            found = get_args(mapping)[1 if get_origin(mapping) is dict else 0]
        elif here is not None and key in _fields(here):
            found = _fields(here)[str(key)].annotation
        else:
            return None
    return found


def _bare(annotation: Any) -> Any:
    """Returns an annotation without its bounds; of alternatives the list or dict, if one is."""
    if get_origin(annotation) is Annotated:
        return _bare(get_args(annotation)[0])
    if get_origin(annotation) in (Union, types.UnionType):
        bare = (_bare(each) for each in get_args(annotation))
        return next((each for each in bare if get_origin(each) in (dict, tuple)), annotation)
    return annotation


def _model_in(annotation: Any) -> type[BaseModel] | None:
    """Returns the table an annotation speaks of: itself, or in a union, a list or a dict of it."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    if get_origin(annotation) in (Annotated, Union, types.UnionType, tuple, dict):
        found = (_model_in(each) for each in get_args(annotation))
        return next((each for each in found if each is not None), None)
    return None


def _plain(key: str) -> str:
    return key if key.replace("-", "").replace("_", "").isalnum() else quoted(key)
