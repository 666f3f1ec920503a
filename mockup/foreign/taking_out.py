"""Marks taken out of a page's drawings, operator by operator: what cannot be taken out alone stays.

A path's paint operator becomes one that paints less, type is no longer shown, an image not drawn;
every other byte stays as it is.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

import pikepdf
import pymupdf

from mockup.errors import InputError
from mockup.foreign.drawings import PATH_PAINTING, TYPE_SHOWING, Drawing, Operation, drawings_of
from mockup.foreign.marked_calls import Call, Place, calls_of, marked_calls

_NOTHING = "n"
_FILL_OF = {"B": "f", "B*": "f*", "b": "f", "b*": "f*"}
_STROKE_OF = {"B": "S", "B*": "S", "b": "s", "b*": "s"}
_MOVES = ("Tm", "Td", "TD", "T*", "'", '"', "ET")
"""What a letter after them is placed by, wherever the last one ended (ISO 32000-1 9.4.2)."""
_ASK = "take the lines out in the program the art was made in, and save it again"


def take_out(
    pdf: pikepdf.Pdf, source: pymupdf.Page, content: bytes, numbers: frozenset[int]
) -> None:
    """Takes the marks of some numbers out of the one page of `pdf`, whose bytes are `content`.

    `source` is the page as it was numbered. Raises InputError where one of them cannot be taken
    out without touching others.
    """
    page = pdf.pages[0].obj
    found = drawings_of(pdf, page)
    changes = _changes(_makers(calls_of(source), marked_calls(content, False)), numbers)
    by_drawing: dict[int, dict[int, str]] = defaultdict(dict)
    for (drawing, operation), painted in changes.items():
        each = found[drawing].operations[operation]
        by_drawing[drawing][operation] = _less(each, painted)
    for number, less in by_drawing.items():
        _refuse_moved_type(found[number], less)

        def changed(k: int, each: Operation, less: dict[int, str] = less) -> bytes:
            return _written(each, less[k]) if k in less else each.written

        found[number].write(pdf, changed)


def _makers(source: Sequence[Call], marked: Sequence[Call]) -> list[set[tuple[Place, str]]]:
    """Returns which operators make each call of the source, and by which call of theirs.

    Calls of one kind come in the same order in both; type the source shows at once may be shown
    operator by operator in the marked copy. Raises InputError where they do not go together.
    """
    waiting: dict[str, Iterator[Call]] = {
        method: iter([each for each in marked if each.method == method])
        for method in {each.method for each in source}
    }
    makers: list[set[tuple[Place, str]]] = []
    for call in source:
        made: set[tuple[Place, str]] = set()
        letters = 0
        while not made or letters < len(call.glyphs):
            each = next(waiting[call.method], None)
            if each is None or each.place is None:
                raise _cannot("what paints them is not told by the library")
            made.add((each.place, each.method))
            letters += len(each.glyphs)
        if letters != len(call.glyphs):
            raise _cannot("what paints them is not told by the library")
        makers.append(made)
    return makers


def _changes(
    makers: Sequence[set[tuple[Place, str]]], numbers: frozenset[int]
) -> dict[Place, set[str]]:
    """Returns the operators that are to paint less, and which of their calls they keep."""
    kept = {pair for k, pairs in enumerate(makers) if k not in numbers for pair in pairs}
    gone = {pair for k, pairs in enumerate(makers) if k in numbers for pair in pairs}
    if kept & gone:
        raise _cannot("one operator paints them and art")
    places = {place for place, _ in gone}
    return {place: {method for where, method in kept if where == place} for place in places}


def _less(operation: Operation, kept: set[str]) -> str:
    """Returns the operator that paints only what is kept; nothing where it is not to be done."""
    name = operation.operator
    if name in PATH_PAINTING:
        if not kept:
            return _NOTHING
        for method, other in (("fill_path", _FILL_OF), ("stroke_path", _STROKE_OF)):
            if kept == {method} and name in other:
                return other[name]
    elif not kept:
        return ""
    raise _cannot("one operator paints them and art")


def _written(operation: Operation, less: str) -> bytes:
    if less:
        return operation.before + less.encode()
    if operation.operator == "'":
        return b"\nT*"
    if operation.operator == '"':
        word_space, letter_space = operation.operands[:2]
        return b"\n%s Tw %s Tc T*" % (word_space, letter_space)
    return b"\n"


def _refuse_moved_type(drawing: Drawing, less: dict[int, str]) -> None:
    """Raises InputError where type that stays would move up to the place of what goes."""
    after_gone = False
    for k, each in enumerate(drawing.operations):
        if each.operator in _MOVES:
            after_gone = False
        if each.operator not in TYPE_SHOWING:
            continue
        if k in less:
            after_gone = True
        elif after_gone:
            raise _cannot("other type follows on from theirs")


def _cannot(because: str) -> InputError:
    return InputError(
        f"holds a template's lines that cannot be taken out exactly ({because}); {_ASK}, or accept "
        '"left-in" in the suite file, and they are printed'
    )
