"""A TOML file read into plain tables: text in UTF-8, of a sane size and depth, well formed."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

from mockup.errors import LimitError, Mistake, SuiteError, quoted
from mockup.sources import read_whole
from mockup.tables.syntax import syntax_sentence
from mockup.trade.limits import TOML_MAX_BYTES, TOML_MAX_DEPTH

_KEY_PART = r"""(?:[A-Za-z0-9_-]++|"[^"\n]*+"|'[^'\n]*+')[ \t]*+"""
# The parser takes quadratic time over a key of many parts; so such keys are not handed to it.
_LONG_KEY = re.compile(
    rf"""(?<![A-Za-z0-9_"'-])(?:{_KEY_PART}\.[ \t]*+){{{TOML_MAX_DEPTH}}}{_KEY_PART}[\]=]"""
)


def read_toml(path: Path, parse_float: Callable[[str], Any] = float) -> dict[str, Any]:
    """Returns the tables of a TOML file (TOML 1.0.0), nested at most TOML_MAX_DEPTH deep.

    Raises SuiteError for what cannot be read, with line and column; LimitError over 1 MB.
    """
    try:
        content = read_whole(path, TOML_MAX_BYTES, SuiteError)
    except LimitError:
        with path.open("rb") as file:
            _refuse_others(path, file.read(8))
        raise
    return toml_tables(path, content, parse_float)


def toml_tables(
    path: Path, content: bytes, parse_float: Callable[[str], Any] = float
) -> dict[str, Any]:
    """Returns the tables of a TOML file whose bytes have been read. Raises SuiteError as read_toml
    does."""
    text = _text(path, content)
    if long := _LONG_KEY.search(text):
        line = text.count("\n", 0, long.start()) + 1
        raise _refused(path, f"line {line}: {_TOO_DEEP}")
    try:
        table = tomllib.loads(text, parse_float=parse_float)
    except tomllib.TOMLDecodeError as error:
        raise _refused(path, syntax_sentence(text, str(error))) from error
    except RecursionError:
        raise _refused(path, _TOO_DEEP) from None
    except ValueError as error:  # the parser hands Python's own refusal of a number on
        raise SuiteError(_number_mistake(str(path), text)) from error
    if deep := _too_deep(table):
        raise SuiteError(Mistake(_TOO_DEEP, str(path), quoted(deep)))
    return table


# ISO 32000-1 7.5.2; PNG 3, 5.2; ITU T.81 B.1.1.3; APPNOTE 4.3.7 of zip.
_OTHERS = {
    b"%PDF-": "a PDF",
    b"\x89PNG": "a PNG picture",
    b"\xff\xd8\xff": "a JPEG picture",
    b"PK\x03\x04": "a packed folder",
}
_TOO_DEEP = f"tables and lists are nested more than {TOML_MAX_DEPTH} deep; no file here needs that"
_LONG_NUMBER = re.compile(r"[0-9_]{4000,}")
_HEADER = re.compile(r"^\s*(\[+)([^\[\]\n]+)\]+", re.M)
_KEY = re.compile(r"\s*([^=\n]+?)\s*=")


def _refused(path: Path, sentence: str) -> SuiteError:
    return SuiteError(Mistake(sentence, str(path)))


def _refuse_others(path: Path, content: bytes) -> None:
    """Raises SuiteError for what is known to be another kind of file by how it begins."""
    for beginning, kind in _OTHERS.items():
        if content.startswith(beginning):
            raise _refused(path, f"is {kind}, no text; name the .toml file")


def _text(path: Path, content: bytes) -> str:
    _refuse_others(path, content)
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise _refused(path, "is text in UTF-16; save it as UTF-8")
    if b"\0" in content[:4]:  # UTF-16 and UTF-32 without their mark, and what is no text at all
        raise _refused(path, "is not text in UTF-8 (it begins with NUL bytes); save it as UTF-8")
    try:
        return content.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        byte = f"0x{content[error.start]:02X}"
        said = f"is not text in UTF-8 (byte {byte} in line {line}); save it as UTF-8"
        raise _refused(path, said) from error


def _number_mistake(file: str, text: str) -> Mistake:
    """Returns the mistake of a whole number that Python itself refuses to read, with its key."""
    long = _LONG_NUMBER.search(text)
    if long is None:
        return Mistake("holds a number or a date that cannot be read; write it again", file)
    headers: list[tuple[str, str]] = _HEADER.findall(text, 0, long.start())
    key = _KEY.match(text, text.rfind("\n", 0, long.start()) + 1)
    table = [name for _, name in headers[-1:]]
    if headers and headers[-1][0] == "[[":  # the second of a list is told as `dies.2`
        table.append(str(headers.count(headers[-1])))
    place = ".".join([*table, *([key[1]] if key else [])])
    said = f"a number of {len(long.group())} digits is no measure; write a shorter one"
    return Mistake(said, file, place if len(place) < 200 else "", quoted(long.group()))


def _too_deep(table: dict[str, Any]) -> str:
    """Returns the first key whose value is nested too deep, or nothing; without recursion."""
    for key, value in table.items():
        level: list[Any] = [value]
        for _ in range(TOML_MAX_DEPTH):
            level = [inner for outer in level for inner in _inside(outer)]
        if level:
            return key
    return ""


def _inside(value: Any) -> list[Any]:
    if isinstance(value, dict):
        return list(value.values())
    return list(value) if isinstance(value, list) else []
