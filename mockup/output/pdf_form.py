"""A form's fields once they are drawn: the font they are filled in with, and their place in the
tree that tells a page to one who does not see it."""

from __future__ import annotations

import io
from functools import cache
from typing import Any

import pikepdf
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont
from pikepdf import Array, Dictionary, Name

from mockup.output.typography import font_file

_FIRST, _LAST = 32, 255
_LETTERS = [bytes([code]).decode("cp1252", "replace") for code in range(_FIRST, _LAST + 1)]
_NAME = Name("/FORMXX+AlegreyaSans-Regular")  # six letters and a sign: a part of a font
_NONSYMBOLIC = 32  # a font of the standard Latin letters (ISO 32000-1 table 123)
_STEM = 80  # judgement: of a regular face; the key is asked for, and drawn is by the file


def give_font(document: pikepdf.Pdf) -> None:
    """Gives the fields of a document the pages' own type, embedded, in place of one that is not.

    In WinAnsiEncoding (ISO 32000-1 Annex D), as readers write what is typed into a field.
    """
    form = document.Root.get("/AcroForm")
    if form is None:
        return
    made = document.make_indirect(_font(document))
    shown = [
        field.AP.N.Resources
        for page in document.pages
        for field in page.obj.get("/Annots", Array())
        if isinstance(field.AP.N, pikepdf.Stream) and "/Resources" in field.AP.N
    ]
    for resources in (form.DR, *shown):
        for name in list(resources.get("/Font", Dictionary()).keys()):
            resources.Font[name] = made


def tag_fields(document: pikepdf.Pdf) -> None:
    """Puts every field into the part of its page in the tree of elements (ISO 14289-1 7.18.4).

    A field's tooltip is what is read aloud. The tree has a part for every page, in their order.
    """
    tree = document.Root.StructTreeRoot
    numbers = tree.ParentTree.Nums
    for page, section in zip(document.pages, tree.K.K, strict=True):
        for field in page.obj.get("/Annots", Array()):
            shown = Dictionary(Type=Name.OBJR, Obj=field, Pg=page.obj)
            element = Dictionary(Type=Name.StructElem, S=Name.Form, P=section, K=shown)
            made = document.make_indirect(element)
            section.K.append(made)
            field.StructParent = int(tree.ParentTreeNextKey)
            numbers.append(field.StructParent)
            numbers.append(made)
            tree.ParentTreeNextKey = field.StructParent + 1


def _font(document: pikepdf.Pdf) -> Dictionary:
    with TTFont(io.BytesIO(_file())) as opened:
        face: Any = opened  # its tables' values have no types
        scale = 1000 / face["head"].unitsPerEm
        advances, names = face["hmtx"].metrics, face.getBestCmap()
        widths = [round(advances[names.get(ord(each), ".notdef")][0] * scale) for each in _LETTERS]
        head, lines, system = face["head"], face["hhea"], face["OS/2"]
        corners = (head.xMin, head.yMin, head.xMax, head.yMax)
        descriptor = Dictionary(
            Type=Name.FontDescriptor,
            FontName=_NAME,
            Flags=_NONSYMBOLIC,
            FontBBox=Array([round(side * scale) for side in corners]),
            ItalicAngle=0,
            Ascent=round(lines.ascent * scale),
            Descent=round(lines.descent * scale),
            CapHeight=round(system.sCapHeight * scale),
            StemV=_STEM,
            FontFile2=document.make_stream(_file(), Length1=len(_file())),
        )
    return Dictionary(
        Type=Name.Font,
        Subtype=Name.TrueType,
        BaseFont=_NAME,
        FirstChar=_FIRST,
        LastChar=_LAST,
        Widths=Array(widths),
        Encoding=Name.WinAnsiEncoding,
        FontDescriptor=document.make_indirect(descriptor),
    )


@cache
def _file() -> bytes:
    """Returns the text face with the letters a field can hold, and no others."""
    options = Options(layout_features=[], notdef_outline=True, recalc_timestamp=False)
    with TTFont(font_file("text"), recalcTimestamp=False) as face:
        cut = Subsetter(options)
        cut.populate(unicodes=[ord(letter) for letter in _LETTERS])
        cut.subset(face)
        made = io.BytesIO()
        face.save(made)
    return made.getvalue()
