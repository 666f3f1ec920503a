"""Type in a PDF: a face as a composite font, cut down to the glyphs that are used."""

from __future__ import annotations

import io
import zlib

import pikepdf
from fontTools import subset
from fontTools.ttLib import TTFont
from pikepdf import Array, Dictionary, Name
from typeset import Face


def advance(face: Face, number: int) -> int:
    """Returns how far a glyph moves the pen, in font units."""
    return face.font["hmtx"][face.font.getGlyphName(number)][0]


def stream(pdf: pikepdf.Pdf, data: bytes, **keys: object) -> pikepdf.Object:
    """Returns data as a compressed stream of pdf."""
    made = pikepdf.Stream(pdf, zlib.compress(data, 9), Filter=Name.FlateDecode, **keys)
    return pdf.make_indirect(made)


def embedded(pdf: pikepdf.Pdf, face: Face, used: dict[int, str]) -> pikepdf.Object:
    """Returns a composite font (ISO 32000-1, 9.7) over a subset that keeps its glyph numbers."""
    name = Name(f"/TIDEML+{face.name}")
    scale = 1000 / face.upem
    head, os2 = face.font["head"], face.font["OS/2"]
    descriptor = Dictionary(
        Type=Name.FontDescriptor,
        FontName=name,
        Flags=4,
        FontBBox=Array([round(v * scale) for v in (head.xMin, head.yMin, head.xMax, head.yMax)]),
        ItalicAngle=round(face.font["post"].italicAngle),
        Ascent=round(os2.sTypoAscender * scale),
        Descent=round(os2.sTypoDescender * scale),
        CapHeight=round(getattr(os2, "sCapHeight", 650) * scale),
        StemV=80,
        FontFile2=_program(pdf, face, sorted(used)),
    )
    widths = Array()
    for number in sorted(used):
        widths.extend([number, Array([round(advance(face, number) * scale)])])
    descendant = Dictionary(
        Type=Name.Font,
        Subtype=Name.CIDFontType2,
        BaseFont=name,
        CIDSystemInfo=Dictionary(Registry="Adobe", Ordering="Identity", Supplement=0),
        FontDescriptor=pdf.make_indirect(descriptor),
        CIDToGIDMap=Name.Identity,
        W=widths,
    )
    font = Dictionary(
        Type=Name.Font,
        Subtype=Name.Type0,
        BaseFont=name,
        Encoding=Name("/Identity-H"),
        DescendantFonts=Array([pdf.make_indirect(descendant)]),
        ToUnicode=stream(pdf, _to_unicode(used)),
    )
    return pdf.make_indirect(font)


def _program(pdf: pikepdf.Pdf, face: Face, numbers: list[int]) -> pikepdf.Object:
    font = TTFont(face.path, recalcTimestamp=False)
    options = subset.Options(
        retain_gids=True, layout_features=[], name_IDs=[1, 2, 4, 6], notdef_outline=True
    )
    # A font editor's time stamps, of no use to a page.
    options.drop_tables += ["FFTM"]
    cutter = subset.Subsetter(options)
    cutter.populate(gids=numbers)
    cutter.subset(font)
    data = io.BytesIO()
    font.save(data)
    return stream(pdf, data.getvalue(), Length1=len(data.getvalue()))


def _to_unicode(used: dict[int, str]) -> bytes:
    rows = [f"<{n:04X}> <{t.encode('utf-16-be').hex().upper()}>" for n, t in sorted(used.items())]
    groups = [rows[i : i + 100] for i in range(0, len(rows), 100)]
    body = "\n".join(
        f"{len(group)} beginbfchar\n" + "\n".join(group) + "\nendbfchar" for group in groups
    )
    return (
        "/CIDInit /ProcSet findresource begin 12 dict begin begincmap\n"
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
        "/CMapName /Adobe-Identity-UCS def /CMapType 2 def\n"
        "1 begincodespacerange <0000> <FFFF> endcodespacerange\n"
        f"{body}\nendcmap CMapName currentdict /CMap defineresource pop end end\n"
    ).encode("ascii")
