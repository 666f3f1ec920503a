"""A flat print page: trim plus 1/8 in bleed, filled outlines, live type, one image kind.

Drawing is in inches from the top left corner of the trim, x right, y down. Written without
dates or random identifiers, so the same drawing is the same file.
"""

from __future__ import annotations

import io
import math
import zlib
from collections.abc import Iterable
from pathlib import Path

import pikepdf
from curves import Outline
from fontTools import subset
from fontTools.ttLib import TTFont
from palette import Ink
from pikepdf import Array, Dictionary, Name
from PIL import Image
from typeset import Face, Line

BLEED = 0.125
CONDITION = "FOGRA39"
PROFILE = Path(__file__).parent.parent / "mockup/colour/conditions/FOGRA39L_coated.icc"


class Page:
    """One page being drawn; width and height are the trim's, in inches."""

    def __init__(self, width: float, height: float, space: str) -> None:
        self.width, self.height, self._space = width, height, space
        self._ops: list[str] = []
        self._faces: dict[str, tuple[Face, dict[int, str]]] = {}
        self._images: list[tuple[bytes, tuple[int, int]]] = []

    def flood(self, ink: Ink) -> None:
        """Fills the whole sheet, bleed included."""
        x = y = -BLEED
        w, h = self.width + 2 * BLEED, self.height + 2 * BLEED
        self._ops.append(f"{self._colour(ink, 'fill')} {_n(x, y, w, h)} re f")

    def fill(self, outlines: Iterable[Outline], ink: Ink) -> None:
        """Fills outlines in one colour, non-zero winding."""
        self._ops.append(self._colour(ink, "fill"))
        self._ops.extend(f"{_path(outline)} f" for outline in outlines)

    def stroke(self, outlines: Iterable[Outline], ink: Ink, width_pt: float) -> None:
        """Strokes outlines in one colour with round caps and joins; width in points."""
        self._ops.append(f"{self._colour(ink, 'stroke')} {_n(width_pt / 72)} w 1 J 1 j")
        self._ops.extend(f"{_path(outline)} S" for outline in outlines)

    def clip(self, outline: Outline) -> None:
        """Keeps what follows inside outline, until unclip."""
        self._ops.append(f"q {_path(outline)} W n")

    def unclip(self) -> None:
        """Ends the clip set last."""
        self._ops.append("Q")

    def live(self, line: Line, x: float, y: float, ink: Ink) -> None:
        """Writes a line as live type, its origin at (x, y); every advance is kept exactly."""
        face = line.style.face
        name = f"F{list(self._faces).index(face.name)}" if face.name in self._faces else None
        _, used = self._faces.setdefault(face.name, (face, {}))
        name = name or f"F{len(self._faces) - 1}"
        parts: list[str] = []
        for glyph in line.glyphs:
            used.setdefault(glyph.number, glyph.text)
            natural = _advance(face, glyph.number) / face.upem
            parts.append(f"<{glyph.number:04X}>{_n((natural - glyph.advance / line.em) * 1000)}")
        self._ops.append(
            f"BT {self._colour(ink, 'fill')} /{name} 1 Tf "
            f"{_n(line.em, 0, 0, -line.em, x, y)} Tm [{''.join(parts)}] TJ ET"
        )

    def place(self, jpeg: bytes, x: float, y: float, width: float, height: float) -> None:
        """Places a JPEG with its top left corner at (x, y), inches."""
        size = Image.open(io.BytesIO(jpeg)).size
        self._ops.append(
            f"q {_n(width, 0, 0, -height, x, y + height)} cm /I{len(self._images)} Do Q"
        )
        self._images.append((jpeg, size))

    def save(self, path: Path, title: str) -> None:
        """Writes the page as a one-page PDF at path."""
        pdf = pikepdf.new()
        resources = Dictionary()
        if self._faces:
            fonts = [_embed(pdf, face, used) for face, used in self._faces.values()]
            resources.Font = Dictionary({f"/F{i}": font for i, font in enumerate(fonts)})
        if self._images:
            images = [_image(pdf, *image) for image in self._images]
            resources.XObject = Dictionary({f"/I{i}": image for i, image in enumerate(images)})
        edge = BLEED * 72
        w, h = self.width * 72, self.height * 72
        media, trim = [0, 0, w + 2 * edge, h + 2 * edge], [edge, edge, w + edge, h + edge]
        matrix = f"72 0 0 -72 {edge:g} {h + edge:g} cm"
        page = Dictionary(
            Type=Name.Page,
            MediaBox=Array(media),
            BleedBox=Array(media),
            TrimBox=Array(trim),
            Resources=resources,
            Contents=_stream(pdf, "\n".join([matrix, *self._ops]).encode("ascii")),
        )
        pdf.pages.append(pikepdf.Page(pdf.make_indirect(page)))
        if self._space == "cmyk":
            pdf.Root.OutputIntents = Array([_intent(pdf)])
        pdf.docinfo["/Title"] = title
        pdf.save(path, deterministic_id=True, compress_streams=False)

    def _colour(self, ink: Ink, use: str) -> str:
        if self._space == "cmyk":
            operator = {"fill": "k", "stroke": "K"}[use]
            return f"{_n(*(v / 100 for v in ink.cmyk))} {operator}"
        operator = {"fill": "rg", "stroke": "RG"}[use]
        # Rounded up: a viewer that cuts where others round must land on the same byte.
        return f"{_n(*(math.ceil(v / 255 * 1e4) / 1e4 for v in ink.rgb))} {operator}"


def _n(*values: float) -> str:
    return " ".join(f"{v:.4f}".rstrip("0").rstrip(".").replace("-0.", "-.") or "0" for v in values)


def _intent(pdf: pikepdf.Pdf) -> Dictionary:
    """Returns the output intent of the pages in CMYK: the press their builds were chosen on."""
    profile = pdf.make_stream(zlib.compress(PROFILE.read_bytes(), 9), N=4, Filter=Name.FlateDecode)
    return Dictionary(
        Type=Name.OutputIntent,
        S=Name.GTS_PDFX,
        OutputConditionIdentifier=CONDITION,
        RegistryName="http://www.color.org",
        Info="Sheet offset on coated paper",
        DestOutputProfile=profile,
    )


def _path(outline: Outline) -> str:
    return " ".join(f"{_n(*values)} {op}" if values else op for op, values in outline)


def _advance(face: Face, number: int) -> int:
    return face.font["hmtx"][face.font.getGlyphName(number)][0]


def _stream(pdf: pikepdf.Pdf, data: bytes, **keys: object) -> pikepdf.Object:
    stream = pikepdf.Stream(pdf, zlib.compress(data, 9), Filter=Name.FlateDecode, **keys)
    return pdf.make_indirect(stream)


def _image(pdf: pikepdf.Pdf, jpeg: bytes, size: tuple[int, int]) -> pikepdf.Object:
    stream = pikepdf.Stream(
        pdf,
        jpeg,
        Type=Name.XObject,
        Subtype=Name.Image,
        Width=size[0],
        Height=size[1],
        ColorSpace=Name.DeviceRGB,
        BitsPerComponent=8,
        Filter=Name.DCTDecode,
    )
    return pdf.make_indirect(stream)


def _embed(pdf: pikepdf.Pdf, face: Face, used: dict[int, str]) -> pikepdf.Object:
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
        widths.extend([number, Array([round(_advance(face, number) * scale)])])
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
        ToUnicode=_stream(pdf, _to_unicode(used)),
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
    return _stream(pdf, data.getvalue(), Length1=len(data.getvalue()))


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
