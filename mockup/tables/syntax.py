"""What is wrong with a TOML file's form: line, column, the place itself, and what to write."""

from __future__ import annotations

import re

from mockup.errors import quoted

_PLACE = re.compile(
    r"^(?P<what>.*) \(at (?:line (?P<line>\d+), column (?P<column>\d+)|.*)\)$", re.S
)

# How tomllib's messages begin, and what they mean to who wrote the file.
_MEANINGS: tuple[tuple[str, str], ...] = (
    ("Invalid statement", 'no key stands here; write key = value, or a table as "[name]"'),
    ("Expected newline or end", "something follows the value; write one key = value a line"),
    ("Cannot declare", "this table stands in the file already; write each table once"),
    ("Cannot overwrite", "this key stands in the file already; write each key once"),
    ("Cannot redefine", "this table stands in the file already; write each table once"),
    ("Cannot mutate", "what is written in { } or [ ] cannot be added to; write it in one place"),
    ("Expected ']]'", 'a "]]" is missing at the end of the table\'s name'),
    ("Expected ']'", 'a "]" is missing at the end of the table\'s name'),
    ("Expected '='", 'a "=" is missing after the key'),
    ("Expected", "text runs to the end of the file; close it with its quotes"),
    ("Invalid initial", "a key is made of letters, digits, - and _, or stands in quotes"),
    ("Unclosed array", 'a list is not closed; write a "," between its values and "]" after them'),
    ("Unclosed inline", 'a table is not closed; write a "," between its keys and "}" after them'),
    ("Duplicate inline", "this key stands in the table already; write each key once"),
    ("Unescaped", "a \\ in text is written \\\\, or the text in 'single quotes'"),
    ("Invalid hex value", "after \\u stand four hexadecimal digits, after \\U eight"),
    ("Escaped character", "this \\u or \\U is no character"),
    ("Unterminated string", "text is not closed; end it with its quotes, in the same line"),
    ("Illegal character", "a character stands here that a text file cannot hold"),
    ("Invalid date", "this is no date; write text in quotes"),
    ("Invalid value", "this is no value; write text in quotes, a number, true or false"),
)  # fmt: skip


def syntax_sentence(text: str, message: str) -> str:
    """Returns a sentence for what tomllib says of a text: where, the line itself, what to do."""
    found = _PLACE.match(message)
    what = found["what"] if found else message
    meaning = next((ours for theirs, ours in _MEANINGS if what.startswith(theirs)), "")
    meaning = meaning or "this cannot be read as TOML"
    lines = text.split("\n")
    if found is None or found["line"] is None:
        number, column = len(lines), len(lines[-1]) + 1
    else:
        number, column = int(found["line"]), int(found["column"])
    return f"line {number}, column {column}, {_near(lines, number, column)}: {meaning}"


def _near(lines: list[str], number: int, column: int) -> str:
    """Returns the part of a line round a column, in quotes; the line before where it is bare."""
    line = lines[number - 1] if number <= len(lines) else ""
    if not line.strip():
        before = next((each for each in reversed(lines[: number - 1]) if each.strip()), "")
        return f"after {quoted(before.strip()[-40:])}" if before else "in an empty file"
    start = max(0, column - 25)
    return f"at {quoted(line[start : start + 40].strip())}"
