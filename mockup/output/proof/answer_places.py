"""Where a page of answers has its boxes: the same for who draws it and for who reads it back."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from mockup.geometry.point import Box
from mockup.output.proof.grid import FOOT_IN, LEFT_IN, PAPERS_IN, TOP_IN

LAYOUT = 1
"""Of this plan; another plan has another number, and a page says which it follows."""

ANSWER, COMMENT = "answer", "comment"
SIGNED, DAY = "signed", "day"
"""What fields are called: those of a piece, with its name, and those for name and date."""

_ROWS_FIRST, _ROWS_OTHER = 6, 8  # judgement: what leaves each a line or two to write on
_FIRST_ROW_IN = 3.75  # under what the client is asked to check
_OTHER_ROW_IN = 1.6
_AFTER_ROWS_IN = 1.3  # above the foot: the signature's lines
_MARK_IN = 0.8
_QUIET_IN = 0.12  # a QR code keeps four modules free round it (ISO/IEC 18004)
_ROW_LEAST_IN, _ROW_MOST_IN = 0.72, 2.2
_ROW_GAP_IN = 0.18
_TICK_IN = 0.2
_TICKS_IN = (4.1, 5.65)  # from the left margin
_FIELD_RISE_IN = 0.3


@dataclass(frozen=True)
class AnswerRow:
    """The places of one piece's answer, inches from the page's top left."""

    name: str
    whole: Box
    approve: Box
    change: Box
    comment: Box


@dataclass(frozen=True)
class AnswerPage:
    """A page of answers: its number from 1, its rows, its mark; the last has name and date."""

    number: int
    rows: tuple[AnswerRow, ...]
    mark: Box
    signed: Box | None
    day: Box | None


def answer_pages(names: Iterable[str], paper: str) -> tuple[AnswerPage, ...]:
    """Returns the pages that a proof of these pieces and envelopes is answered on.

    `paper` is a name of PAPERS_IN.
    """
    groups = _shared(tuple(names))
    pages = enumerate(groups, start=1)
    return tuple(_page(number, group, paper, number == len(groups)) for number, group in pages)


def field_name(kind: str, name: str) -> str:
    """Returns the name of a form's field; a dot would part a field from its parent (ISO 32000-1
    12.7.3.2)."""
    return f"{kind}/{name.replace('.', '/')}"


def _shared(names: Sequence[str]) -> list[tuple[str, ...]]:
    """Returns the names of every page, the first with room for fewer; no page is left empty."""
    groups = [tuple(names[:_ROWS_FIRST])]
    rest = names[_ROWS_FIRST:]
    pages = -(-len(rest) // _ROWS_OTHER)
    each = -(-len(rest) // pages) if pages else 1
    groups += [tuple(rest[start : start + each]) for start in range(0, len(rest), each)]
    return groups


def _page(number: int, names: Sequence[str], paper: str, last: bool) -> AnswerPage:
    width, height = PAPERS_IN[paper]
    right, foot = width - LEFT_IN, height - FOOT_IN - 0.35
    first = _FIRST_ROW_IN if number == 1 else _OTHER_ROW_IN
    tall = (foot - _AFTER_ROWS_IN - first) / max(1, len(names))
    tall = min(_ROW_MOST_IN, max(_ROW_LEAST_IN, tall))
    rows = tuple(_row(name, first + tall * k, tall, right) for k, name in enumerate(names))
    mark = Box(right - _MARK_IN, TOP_IN, right, TOP_IN + _MARK_IN)
    if not last:
        return AnswerPage(number, rows, mark, None, None)
    line = foot - 0.28
    signed = Box(LEFT_IN, line - _FIELD_RISE_IN, LEFT_IN + 4.5, line)
    day = Box(LEFT_IN + 4.75, line - _FIELD_RISE_IN, right, line)
    return AnswerPage(number, rows, mark, signed, day)


def _row(name: str, top: float, tall: float, right: float) -> AnswerRow:
    ticks = [
        Box(LEFT_IN + left, top + 0.04, LEFT_IN + left + _TICK_IN, top + 0.04 + _TICK_IN)
        for left in _TICKS_IN
    ]
    comment = Box(LEFT_IN, top + 0.32, right, top + tall - _ROW_GAP_IN)
    return AnswerRow(name, Box(LEFT_IN, top, right, top + tall), ticks[0], ticks[1], comment)
