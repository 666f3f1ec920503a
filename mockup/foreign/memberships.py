"""Layer memberships settled before MuPDF draws: it knows no visibility expressions (8.11.2.2), and
gets the policies AllOn and AnyOff wrong (found by comparing MuPDF 1.28 with PDFium).

Only the copy in memory is changed: a membership becomes one of a single group that is seen or is
not, by what it comes to.
"""

from __future__ import annotations

import io
from typing import Any

import pikepdf

from mockup.vector.optional_content import Layers, groups_in, groups_of, layers_of
from mockup.vector.pdf_objects import dictionary, entry, items_of, word
from mockup.vector.stumbling import asked


def settled(content: bytes) -> bytes:
    """Returns a PDF whose memberships are plain; the bytes themselves where they are already."""
    pdf = asked(lambda: pikepdf.open(io.BytesIO(content)), otherwise=None)
    if pdf is None:
        return content
    with pdf:
        return _settled(pdf) or content


def _settled(pdf: pikepdf.Pdf) -> bytes:
    """Returns a document with its memberships settled; nothing where none is to be."""
    root = asked(lambda: pdf.Root, otherwise=None)
    nothing: list[Any] = []
    objects = asked(lambda: list(pdf.objects), otherwise=nothing)
    told = [each for each in objects if _is_to_be_settled(each)]
    if not told or dictionary(entry(root, "/OCProperties")) is None:
        return b""
    layers = layers_of(pdf)
    for membership in told:
        _settle(pdf, membership, layers)
    rewritten = io.BytesIO()

    def save() -> bool:
        pdf.save(rewritten)
        return True

    return rewritten.getvalue() if asked(save, otherwise=False) else b""


def _is_to_be_settled(found: Any) -> bool:
    if dictionary(found) is None or word(entry(found, "/Type")) != "OCMD":
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
