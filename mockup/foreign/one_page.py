"""One page of a document alone, in the document it came in: fonts, layers, profiles stay its own.

What is no part of the printed page goes, and is told: what the proof does not show must not print.
"""

from __future__ import annotations

from typing import Any

import pikepdf

from mockup.errors import InputError
from mockup.vector.pdf_objects import entry, identity, items_of, word
from mockup.vector.stumbling import asked

_KEPT_OF_DOCUMENT = (
    *("/Type", "/Pages", "/Version", "/Extensions", "/Lang"),
    *("/OCProperties", "/OutputIntents", "/Metadata"),
)
_KEPT_OF_PAGE = (
    *("/Type", "/Parent", "/Contents", "/Resources", "/Group", "/Rotate", "/UserUnit"),
    *("/MediaBox", "/CropBox", "/BleedBox", "/TrimBox", "/Metadata", "/OutputIntents"),
)
_INHERITED = ("/Resources", "/MediaBox", "/CropBox", "/Rotate")  # ISO 32000-1 7.7.3.4
_ABOVE_MAX = 64  # judgement: a tree of a million pages is not half as deep
_OBJECTS_MAX = 200_000  # judgement: many times what one page of stationery needs

_CALLED = {
    "/Annots": "annotations (links, notes, form fields), which the proof does not show",
    "/PieceInfo": "the drawing program's own copy of the art, which it would open instead",
    "/AcroForm": "form fields",
    "/OpenAction": "actions",
    "/AA": "actions",
    "/JavaScript": "scripts",
    "/EmbeddedFiles": "attached files",
    "/AF": "attached files",
    "/Collection": "attached files",
    "/Outlines": "bookmarks",
    "/StructTreeRoot": "tags for reading aloud",
    "/Thumb": "a thumbnail",
    "/Perms": "signatures and permissions, which a changed file cannot keep",
    "/DSS": "signatures and permissions, which a changed file cannot keep",
}
"""What is told of that goes; the rest of it (names, labels, settings of a viewer) shows nowhere."""


def keep_one_page(pdf: pikepdf.Pdf, number: int) -> tuple[str, ...]:
    """Leaves one page (from 1) and what it needs, and returns in words what went.

    Raises InputError where the page cannot be read.
    """
    page = asked(lambda: pdf.pages[number - 1].obj, otherwise=None)
    if page is None:
        raise InputError(f"is broken (page {number} cannot be read); save it again as PDF")
    told: list[str] = []
    others = len(pdf.pages) - 1
    if others:
        told.append("1 other page" if others == 1 else f"{others} other pages")
    for key in _INHERITED:
        found = _inherited(page, key)
        if found is not None:
            page[key] = found
    for k in reversed(range(others + 1)):
        if k != number - 1:
            del pdf.pages[k]
    for holder, kept in ((page, _KEPT_OF_PAGE), (pdf.Root, _KEPT_OF_DOCUMENT)):
        for key in sorted(set(holder.keys()) - set(kept)):
            told += _words(key, holder[key])
            del holder[key]
    return tuple(dict.fromkeys(told))


def refuse_outside(pdf: pikepdf.Pdf) -> None:
    """Raises InputError where the page is drawn from other files, or otherwise in print than on a
    screen: what was proofed would not be what is printed."""
    for held in reachable(pdf.pages[0].obj):
        if isinstance(held, pikepdf.Stream) and entry(held, "/F") is not None:
            raise InputError("draws from another file; place everything in the file itself")
        if entry(held, "/Ref") is not None and word(entry(held, "/Subtype")) == "Form":
            raise InputError("draws a page of another file; place it in the file itself")
        if entry(held, "/Alternates") is not None:
            raise InputError("holds an image with other versions for print; place one image")


def reachable(root: Any) -> list[Any]:
    """Returns the dictionaries and streams within an object and below it, each once."""
    found: list[Any] = []
    waiting = [root]
    met: set[tuple[int, int]] = set()
    while waiting and len(found) < _OBJECTS_MAX:
        thing = waiting.pop()
        key = identity(thing)
        if key is not None:
            if key in met:
                continue
            met.add(key)
        if isinstance(thing, pikepdf.Array):
            waiting += items_of(thing)
        elif isinstance(thing, (pikepdf.Dictionary, pikepdf.Stream)):
            found.append(thing)
            keys: list[str] = sorted(thing.keys())
            waiting += [entry(thing, each) for each in keys if each not in ("/Parent", "/P")]
    return found


def _words(key: str, value: Any) -> list[str]:
    """Returns what is told of a key that goes."""
    if key == "/Annots":
        count = len(items_of(value))
        return [f"{count} {_CALLED[key]}"] if count else []
    if key == "/Names":
        return [_CALLED[each] for each in ("/JavaScript", "/EmbeddedFiles") if each in value]
    if key == "/ArtBox":
        return []
    return [_CALLED[key]] if key in _CALLED else []


def _inherited(node: Any, key: str) -> Any:
    for _ in range(_ABOVE_MAX):
        found = entry(node, key)
        if found is not None:
            return found
        node = entry(node, "/Parent")
    return None
