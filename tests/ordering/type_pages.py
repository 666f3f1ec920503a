"""Pages of type for the tests of print files: fonts of the demo embedded in every usual way."""

from __future__ import annotations

from pathlib import Path

import pikepdf
from fontTools.ttLib import TTFont
from pikepdf import Array, Dictionary, Name

from tests.ordering.pages import ART, page_pdf

FONT = Path(__file__).parents[2] / "assets_demo" / "fonts" / "EBGaramond12-Italic.ttf"


def embedded(pdf: pikepdf.Pdf, font: Path = FONT) -> pikepdf.Object:
    """Returns a simple TrueType font, WinAnsi encoded, its program in the file (ISO 32000-1
    9.6.3)."""
    with TTFont(font) as read:
        widths, names = read["hmtx"], read.getBestCmap()
        scale = 1000 / read["head"].unitsPerEm
        told = [round(widths[names[k]][0] * scale) if k in names else 0 for k in range(32, 127)]
    program = pdf.make_stream(font.read_bytes())
    about = Dictionary(
        Type=Name.FontDescriptor, FontName=Name.Tide, Flags=32, FontBBox=[-200, -300, 1200, 1000],
        ItalicAngle=0, Ascent=800, Descent=-200, CapHeight=650, StemV=80, FontFile2=program,
    )  # fmt: skip
    return pdf.make_indirect(
        Dictionary(
            Type=Name.Font,
            Subtype=Name.TrueType,
            BaseFont=Name.Tide,
            FirstChar=32,
            LastChar=126,
            Widths=Array(told),
            Encoding=Name.WinAnsiEncoding,
            FontDescriptor=about,
        )
    )


def typed(content: bytes, art: bytes = ART) -> pikepdf.Pdf:
    """Returns a page of art with type on it, set in /F1."""

    def change(pdf, page):
        page.Resources = Dictionary(Font=Dictionary(F1=embedded(pdf)))
        page.Contents = pdf.make_stream(art + content)

    return page_pdf(change)


def labelled(after: bytes) -> pikepdf.Pdf:
    """Returns a page whose cut is drawn and named by words on it, and what follows them."""
    line = b"0 1 1 0 K 0 1 1 0 k .5 w 9 9 216 288 re S BT /F1 7 Tf 100 12 Td (cut line) Tj "
    return typed(line + after)
