"""What a page says to one who does not see it: its parts in reading order, pictures in words.

A tree of elements (ISO 32000-1 14.7, 14.8), each with the marked spans of content that are its own;
what belongs to none is an artifact: feet, rules, frames. ISO 14289-1 (PDF/UA) asks for both.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

import pikepdf
from pikepdf import Array, Dictionary, Name, String

Container = Literal["Document", "Sect", "Table", "TR", "L", "LI"]
Leaf = Literal["H1", "H2", "H3", "P", "Figure", "Caption", "TH", "TD", "Lbl", "LBody"]

_COLUMN_HEAD: dict[str, Any] = {"/O": Name.Table, "/Scope": Name.Column}


@dataclass(frozen=True)
class Span:
    """A marked span of content: the page it is on, from nought, and its number there."""

    page: int
    number: int


@dataclass
class Element:
    """A part of the document being drawn; `alt` is a picture in words."""

    role: Container | Leaf
    alt: str = ""
    parts: list[Element | Span] = field(default_factory=list["Element | Span"])


def write_structure(document: pikepdf.Pdf, root: Element) -> None:
    """Gives a document its tree of elements, and every page the way back from span to element."""
    tree = document.make_indirect(Dictionary(Type=Name.StructTreeRoot))
    owners: dict[Span, pikepdf.Object] = {}
    tree.K = _written(document, root, tree, owners)
    numbers = Array()
    for index, page in enumerate(document.pages):
        here = sorted((span.number, owner) for span, owner in owners.items() if span.page == index)
        page.obj.StructParents = index
        page.obj.Tabs = Name.S
        numbers.append(index)
        numbers.append(document.make_indirect(Array([owner for _, owner in here])))
    tree.ParentTree = document.make_indirect(Dictionary(Nums=numbers))
    tree.ParentTreeNextKey = len(document.pages)
    document.Root.StructTreeRoot = tree
    document.Root.MarkInfo = Dictionary(Marked=True)


def _written(
    document: pikepdf.Pdf, element: Element, parent: pikepdf.Object, owners: dict[Span, Any]
) -> pikepdf.Object:
    made = document.make_indirect(
        Dictionary(Type=Name.StructElem, S=Name(f"/{element.role}"), P=parent)
    )
    if element.alt:
        made.Alt = String(element.alt)
    if element.role == "TH":
        made.A = Dictionary(_COLUMN_HEAD)
    kids = Array()
    for part in element.parts:
        if isinstance(part, Element):
            kids.append(_written(document, part, made, owners))
            continue
        owners[part] = made
        page = document.pages[part.page].obj
        kids.append(Dictionary(Type=Name.MCR, Pg=page, MCID=part.number))
    made.K = kids
    return made
