"""Absurd values, and every key of a schema, found by walking it."""

from __future__ import annotations

import types
from collections.abc import Iterator
from functools import cache
from typing import Annotated, Any, Union, get_args, get_origin

import tomlkit
from pydantic import BaseModel
from tomlkit.items import AoT

from mockup.errors import MockupError

ABSURD: dict[str, str] = {
    "nan": "nan", "inf": "inf", "-inf": "-inf", "negative": "-3", "minus nought": "-0.0",
    "nought": "0", "1e308": "1e308", "1e-308": "1e-308", "half": "0.5", "64 bits": "9223372036854775807",
    "65 bits": "99999999999999999999", "5000 digits": "9" * 5000, "5000 hex digits": "0x" + "f" * 5000,
    "huge exponent": "1e99999999999999999999", "empty": '""', "blank": '"  "', "escapes": '"\\u001B[2J\\u0007\\n\\u202E"',
    "nul": '"\\u0000"', "5000 letters": '"' + "x" * 5000 + '"', "200 wide letters": '"' + "\U0001f600" * 200 + '"',
    "9000 text digits": '"' + "9" * 9_000 + '"', "device": '"/dev/zero"', "folder": '"."', "text nan": '"nan"',
    "text minus": '"-5 in"', "true": "true", "date": "1979-05-27", "moment": "1979-05-27T07:32:00Z",
    "time": "07:32:00", "empty list": "[]", "list": "[1, [2]]", "texts": '["a", "a"]', "empty table": "{}",
    "table": "{ a = 1 }", "nested": "[[[[[{ a = [[1]] }]]]]]",
}  # fmt: skip
"""What nobody means, as TOML, by a name for the test's own."""

LONGEST = '"' + "9" * 900_000 + '"'
"""Nearly as much as a file may hold; the parser takes its time, so a few keys of each kind try it."""

LIBRARY_WORDS = (
    "input should", "should be", "permitted", "valid ", "pydantic", "Unable", "expected", "tomllib",
    "Traceback", "instance", "str ", "NoneType", "Decimal(", "datetime",
)  # fmt: skip


def keys_of(model: type[BaseModel], names: dict[str, str]) -> Iterator[tuple[str, ...]]:
    """Yields the path of every key a schema has; of a dict, the key `names` gives for its path."""
    for name, field in model.model_fields.items():
        key = field.alias or name
        yield (key,)
        for rest in _inside(field.annotation, name, names):
            yield (key, *rest)


def _inside(annotation: Any, path: str, names: dict[str, str]) -> Iterator[tuple[str, ...]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield from keys_of(annotation, names)
    elif get_origin(annotation) in (Annotated, Union, types.UnionType):
        for each in get_args(annotation):
            yield from _inside(each, path, names)
    elif get_origin(annotation) in (dict, tuple):
        values = list(
            _inside(get_args(annotation)[-1 if get_origin(annotation) is dict else 0], path, names)
        )
        if get_origin(annotation) is tuple and not values:
            return
        key = names[path] if get_origin(annotation) is dict else "1"
        yield from ((key,), *((key, *rest) for rest in values))


def changed(text: str, path: tuple[str, ...], value: str) -> str:
    """Returns TOML in which `value` stands, as it is written, at a path; lists count from 1."""
    return _opened(text, path).replace('"@@here@@"', value)


@cache
def _opened(text: str, path: tuple[str, ...]) -> str:
    """Returns TOML with a mark at a path, where any value can be written."""
    document: Any = tomlkit.parse(text)
    inside = document
    for part in path[:-1]:
        if isinstance(inside, list):
            inside = inside[int(part) - 1]
            continue
        if not isinstance(inside.get(part), dict | list):
            inside[part] = tomlkit.inline_table()  # such as `liner = "liner.pdf"` made a table
        inside = inside[part]
    if isinstance(inside, AoT):  # a list of tables becomes a list of that one value
        del document[path[0]]
        document.add(path[0], ["@@here@@"])
        text = tomlkit.dumps(document)
        line = next(each for each in text.splitlines() if "@@here@@" in each)
        return f"{line}\n{text.replace(line, '')}"
    if isinstance(inside, list):
        inside[int(path[-1]) - 1] = "@@here@@"
    else:
        inside[path[-1]] = "@@here@@"
    return tomlkit.dumps(document)


def assert_told_at(error: MockupError, key: str) -> None:
    """Asserts that every mistake is one plain short line, at the key or inside it."""
    assert error.mistakes
    for mistake in error.mistakes:
        line = str(mistake)
        assert mistake.key == key or mistake.key.startswith(f"{key}."), line[:300]
        assert mistake.sentence and mistake.file, line[:300]
        assert line.isprintable() and len(mistake.sentence) < 700, line[:300]
        assert not [word for word in LIBRARY_WORDS if word in mistake.sentence], line[:300]
