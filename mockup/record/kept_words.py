"""The words of a kept picture, as the text that lies in its file beside its pixels, and back."""

from __future__ import annotations

import json
from collections.abc import Sequence

from mockup.comparing.wording import WORDS_MOST, Word, plain_text
from mockup.geometry.point import Box

_WORD_MOST = 80  # judgement: letters; longer ones are no words, and are cut
_FAR_IN = 200.0  # no page of a PDF is larger
_ROUNDED = 4  # places: a thirtieth of a pixel
_FIELDS = 6


def words_written(words: Sequence[Word]) -> str:
    """Returns words as JSON; nothing where there are none, or more than are ever compared."""
    if not words or len(words) > WORDS_MOST:
        return ""
    rows = [
        [each.text[:_WORD_MOST], *(round(side, _ROUNDED) for side in each.box), each.line]
        for each in words
    ]
    return json.dumps(rows, ensure_ascii=False, separators=(",", ":"))


def words_kept(text: str) -> tuple[Word, ...]:
    """Returns the words of what was written; none where anything in it is otherwise: a record may
    come from anybody."""
    try:
        rows = json.loads(text) if text else []
    except (ValueError, RecursionError):
        return ()
    if not isinstance(rows, list) or len(rows) > WORDS_MOST:
        return ()
    words = [_word(row) for row in rows]
    return tuple(each for each in words if each is not None) if None not in words else ()


def _word(row: object) -> Word | None:
    if not isinstance(row, list) or len(row) != _FIELDS:
        return None
    text, *sides, line = row
    if not isinstance(text, str) or not text or len(text) > _WORD_MOST or plain_text(text) != text:
        return None
    if type(line) is not int or not all(_is_place(side) for side in sides):
        return None
    return Word(text, Box(*(float(side) for side in sides)), line)


def _is_place(side: object) -> bool:
    """Returns whether a number can be a place on a page, inches; neither NaN nor true is one."""
    return type(side) in (int, float) and -_FAR_IN <= side <= _FAR_IN  # type: ignore[operator]
