"""Layer memberships settled before MuPDF draws: it knows no visibility expressions (8.11.2.2), and
gets the policies AllOn and AnyOff wrong (found by comparing MuPDF 1.28 with PDFium).

Only the copy in memory is changed: a membership becomes one of a single group that is seen or is
not, by what it comes to.
"""

from __future__ import annotations

import io
from typing import Any

import pikepdf

from mockup.foreign.library import asked
from mockup.vector.optional_content import Layers, groups_in, groups_of, layers_of
from mockup.vector.pdf_objects import dictionary, entry, items_of, word


def settled(content: bytes) -> bytes:
    """Returns a PDF whose memberships are plain; the bytes themselves where they are already."""
    return asked(_settled, content, otherwise=content)


def _settled(content: bytes) -> bytes:
    with pikepdf.open(io.BytesIO(content)) as pdf:
        if entry(pdf.Root, "/OCProperties") is None:
            return content
        layers = layers_of(pdf)
        told = [each for each in pdf.objects if _is_to_be_settled(each)]
        if not told:
            return content
        for membership in told:
            _settle(pdf, membership, layers)
        rewritten = io.BytesIO()
        pdf.save(rewritten)
        return rewritten.getvalue()


def _is_to_be_settled(found: Any) -> bool:
    if word(entry(found, "/Type")) != "OCMD":
        return False
    return entry(found, "/VE") is not None or word(entry(found, "/P")) not in ("", "AnyOn")


def _settle(pdf: pikepdf.Pdf, membership: Any, layers: Layers) -> None:
    shown = layers.shows(membership)
    groups = groups_in(entry(membership, "/VE")) or groups_of(membership)
    for key in ("/VE", "/P", "/OCGs"):
        if key in membership:
            del membership[key]
    alike = [group for group in groups if layers.shows(group) == shown]
    if alike:
        membership["/OCGs"] = alike[0]
    elif not shown:
        membership["/OCGs"] = _unseen_group(pdf, groups)
    # A membership without groups hides nothing.


def _unseen_group(pdf: pikepdf.Pdf, groups: list[Any]) -> Any:
    """Returns a new group that is off, by the name of the first of those that stand for it."""
    name = word(entry(groups[0], "/Name")) if groups else ""
    kind = pikepdf.Dictionary(Type=pikepdf.Name.OCG, Name=pikepdf.String(name))
    group = pdf.make_indirect(kind)
    properties = pdf.Root.OCProperties
    properties.OCGs = pikepdf.Array([*items_of(entry(properties, "/OCGs")), group])
    if dictionary(entry(properties, "/D")) is None:
        properties.D = pikepdf.Dictionary()
    off = items_of(entry(properties.D, "/OFF"))
    properties.D.OFF = pikepdf.Array([*off, group])
    return group
