"""Hostile PDFs: broken, endless, huge, odd. Written with pikepdf where it lets us, else by hand."""

from __future__ import annotations

import random
import zlib
from collections.abc import Callable
from pathlib import Path

import pikepdf
from pikepdf import Array, Dictionary, Name

SIZE = (378, 522)
Make = Callable[[Path], None]


def page(content: bytes, **resources: object) -> tuple[pikepdf.Pdf, pikepdf.Page]:
    pdf = pikepdf.new()
    made = pdf.add_blank_page(page_size=SIZE)
    made.Contents = pdf.make_stream(content)
    made.Resources = Dictionary(**resources)
    return pdf, made


def plain(content: bytes, **entries: object) -> Make:
    def make(path: Path) -> None:
        pdf, made = page(content)
        for key, value in entries.items():
            made.obj["/" + key] = value
        pdf.save(path)

    return make


def raw(content: bytes) -> Make:
    return lambda path: path.write_bytes(content) and None


def by_hand(
    box: bytes = b"[0 0 378 522]",
    extra: bytes = b"",
    stream: bytes = b"60 60 99 99 re f",
    stream_extra: bytes = b"",
    more: bytes = b"",
) -> Make:
    body = (
        b"%PDF-1.7\n1 0 obj <</Type/Catalog/Pages 2 0 R>> endobj\n"
        b"2 0 obj <</Type/Pages/Kids[3 0 R]/Count 1>> endobj\n"
        b"3 0 obj <</Type/Page/Parent 2 0 R/MediaBox"
        + box
        + b"/Contents 4 0 R/Resources<<>>"
        + extra
        + b">> endobj\n4 0 obj <</Length "
        + str(len(stream)).encode()
        + stream_extra
        + b">> stream\n"
        + stream
        + b"\nendstream endobj\n"
        + more
        + b"trailer <</Root 1 0 R/Size 9>>\n%%EOF\n"
    )
    return raw(body)


def forms(depth: int, wide: int) -> Make:
    def make(path: Path) -> None:
        pdf = pikepdf.new()
        made = pdf.add_blank_page(page_size=SIZE)
        form = pdf.make_stream(b"0 0 1 1 re f", Type=Name.XObject, Subtype=Name.Form)
        form.BBox = Array([0, 0, 400, 600])
        for _ in range(depth):
            above = pdf.make_stream(b"/F Do " * wide, Type=Name.XObject, Subtype=Name.Form)
            above.BBox = Array([0, 0, 400, 600])
            above.Resources = Dictionary(XObject=Dictionary(F=form))
            form = above
        made.Resources = Dictionary(XObject=Dictionary(F=form))
        made.Contents = pdf.make_stream(b"/F Do")
        pdf.save(path)

    return make


def itself(path: Path) -> None:
    pdf = pikepdf.new()
    made = pdf.add_blank_page(page_size=SIZE)
    form = pdf.make_stream(b"60 60 99 99 re f /F Do", Type=Name.XObject, Subtype=Name.Form)
    form = pdf.make_indirect(form)
    form.BBox = Array([0, 0, 400, 600])
    form.Resources = Dictionary(XObject=Dictionary(F=form))
    made.Resources = Dictionary(XObject=Dictionary(F=form))
    made.Contents = pdf.make_stream(b"/F Do")
    pdf.save(path)


def pattern(path: Path) -> None:
    pdf = pikepdf.new()
    made = pdf.add_blank_page(page_size=SIZE)
    tile = pdf.make_stream(b"0 0 .001 .001 re f", Type=Name.Pattern)
    tile.PatternType, tile.PaintType, tile.TilingType = 1, 1, 1
    tile.BBox, tile.XStep, tile.YStep = Array([0, 0, 1, 1]), 0.0005, 0.0005
    tile.Resources = Dictionary()
    made.Resources = Dictionary(Pattern=Dictionary(P=tile))
    made.Contents = pdf.make_stream(b"/Pattern cs /P scn 0 0 378 522 re f")
    pdf.save(path)


def image(width: int, height: int, bits: int, data: bytes, **keys: object) -> Make:
    def make(path: Path) -> None:
        pdf = pikepdf.new()
        made = pdf.add_blank_page(page_size=SIZE)
        picture = pdf.make_stream(data, Type=Name.XObject, Subtype=Name.Image)
        picture.Width, picture.Height, picture.BitsPerComponent = width, height, bits
        picture.ColorSpace = Name.DeviceGray
        for key, value in keys.items():
            picture["/" + key] = value
        made.Resources = Dictionary(XObject=Dictionary(I=picture))
        made.Contents = pdf.make_stream(b"q 300 0 0 300 30 30 cm /I Do Q")
        pdf.save(path, compress_streams=False)

    return make


def bomb(size: int) -> bytes:
    packer = zlib.compressobj(9)
    parts = [packer.compress(bytes(1 << 20)) for _ in range(size >> 20)]
    return b"".join([*parts, packer.flush()])


def flate_content(path: Path) -> None:
    pdf = pikepdf.new()
    made = pdf.add_blank_page(page_size=SIZE)
    packer = zlib.compressobj(9)
    block = b"0 0 m 378 522 l S " * 50_000
    data = b"".join([*(packer.compress(block) for _ in range(400)), packer.flush()])
    made.Contents = pdf.make_stream(data, Filter=Name.FlateDecode)
    pdf.save(path, compress_streams=False)


def encrypted(path: Path) -> None:
    pdf, _ = page(b"60 60 99 99 re f")
    pdf.save(path, encryption=pikepdf.Encryption(owner="o", user="u"))


def owner_only(path: Path) -> None:
    pdf, _ = page(b"60 60 99 99 re f")
    pdf.save(path, encryption=pikepdf.Encryption(owner="o", user=""))


def pages_loop(path: Path) -> None:
    path.write_bytes(
        b"%PDF-1.7\n1 0 obj <</Type/Catalog/Pages 2 0 R>> endobj\n"
        b"2 0 obj <</Type/Pages/Kids[2 0 R 2 0 R]/Count 2>> endobj\ntrailer <</Root 1 0 R>>\n%%EOF"
    )


def layers(name: bytes, config: bytes = b"", extra: bytes = b"") -> Make:
    return raw(
        b"%PDF-1.7\n1 0 obj <</Type/Catalog/Pages 2 0 R/OCProperties<</OCGs[5 0 R]/D<<"
        + config
        + b">>>>>> endobj\n2 0 obj <</Type/Pages/Kids[3 0 R]/Count 1>> endobj\n"
        b"3 0 obj <</Type/Page/Parent 2 0 R/MediaBox[0 0 378 522]/Contents 4 0 R/Resources"
        b"<</Properties<</L 5 0 R>>>>>> endobj\n"
        b"4 0 obj <</Length 53>> stream\n/OC /L BDC 9 9 360 504 re S EMC 60 60 99 99 re f    \n"
        b"endstream endobj\n5 0 obj <</Type/OCG/Name"
        + name
        + extra
        + b">> endobj\ntrailer <</Root 1 0 R>>\n%%EOF"
    )


def spot(name: str, alternate: object, tint: object) -> Make:
    def make(path: Path) -> None:
        space = Array([Name.Separation, Name("/" + name), alternate, tint])
        pdf, _ = page(b"/S cs 1 scn 60 60 99 99 re f", ColorSpace=Dictionary(S=space))
        pdf.save(path)

    return make


def flipped(seed: int, demo: bytes) -> Make:
    def make(path: Path) -> None:
        chance = random.Random(seed)
        data = bytearray(demo)
        for _ in range(chance.choice((1, 5, 40, 400))):
            data[chance.randrange(len(data))] = chance.randrange(256)
        if chance.random() < 0.3:
            del data[chance.randrange(len(data)) :]
        path.write_bytes(bytes(data))

    return make


BIG = b"1e38 1e38 m -1e38 3e38 l 99999999999999999999999 0 l h f 10 10 99 99 re f"
CASES: dict[str, Make] = {
    "empty": raw(b""),
    "one-byte": raw(b"%"),
    "header-only": raw(b"%PDF-1.7\n"),
    "text": raw(b"Dear printer, please find enclosed"),
    "png": raw(b"\x89PNG\r\n\x1a\n" + bytes(100)),
    "zeros": raw(bytes(100_000)),
    "noise": raw(random.Random(1).randbytes(50_000)),
    "header-in-noise": raw(b"x" * 900 + b"%PDF-1.4\n" + random.Random(2).randbytes(9000)),
    "garbage-before": lambda p: p.write_bytes(b"junk\n" * 100 + _sound()) and None,
    "garbage-after": lambda p: p.write_bytes(_sound() + b"junk\n" * 10_000) and None,
    "no-xref": lambda p: p.write_bytes(_sound().split(b"xref")[0]) and None,
    "wrong-startxref": lambda p: (
        p.write_bytes(_sound().replace(b"startxref\n", b"startxref\n9")) and None
    ),
    "no-pages": raw(b"%PDF-1.4\n1 0 obj<</Type/Catalog>>endobj trailer<</Root 1 0 R>>\n%%EOF"),
    "zero-pages": lambda p: pikepdf.new().save(p),
    "pages-loop": pages_loop,
    "encrypted": encrypted,
    "owner-password": owner_only,
    "empty-page": plain(b""),
    "white-page": plain(b"1 g 0 0 378 522 re f"),
    "unbalanced": plain(b"q q q q 60 60 99 99 re f Q Q Q Q Q Q Q Q"),
    "deep-save": plain(b"q " * 200_000 + b"60 60 99 99 re f"),
    "deep-array": plain(b"[" * 100_000 + b"60 60 99 99 re f"),
    "deep-dict": plain(b"/A " + b"<</B " * 50_000 + b" BDC 60 60 99 99 re f"),
    "unknown-operators": plain(b"1 2 3 foo bar (x) baz 60 60 99 99 re f"),
    "broken-numbers": plain(b"1.2.3 --4 5e re 60 60 99 99 re f"),
    "nan-numbers": plain(b"nan inf m -inf nan l S 60 60 99 99 re f"),
    "huge-numbers": plain(BIG),
    "huge-matrix": plain(b"1e30 0 0 1e30 0 0 cm 0 0 1 1 re f"),
    "zero-matrix": plain(b"0 0 0 0 0 0 cm 0 0 1 1 re f 0 0 m 5 5 l S"),
    "tiny-dashes": plain(b"[0.00001 0.00001] 0 d 5 w 0 0 m 378 522 l S"),
    "negative-dashes": plain(b"[-1 -2] 0 d 0 0 m 378 522 l S"),
    "zero-dashes": plain(b"[0 0] 0 d 0 0 m 378 522 l S"),
    "wide-line": plain(b"1e9 w 0 0 m 378 522 l S"),
    "many-segments": plain(b"0 0 m " + b"378 522 l 0 522 l 378 0 l " * 200_000 + b"S"),
    "many-paths": plain(
        b"".join(b"%d %d 3 3 re f " % (k % 370, k // 370 % 510) for k in range(60_000))
    ),
    "many-clips": plain(b"0 0 378 522 re W n " * 20_000 + b"60 60 99 99 re f"),
    "nested-clips": plain(
        b"".join(b"q %d 9 200 500 re W n " % (k % 99) for k in range(3000)) + b"0 0 99 99 re f"
    ),
    "rotate-45": plain(b"60 60 99 99 re f", Rotate=45),
    "rotate-90": plain(b"60 60 99 99 re f", Rotate=90),
    "rotate-huge": plain(b"60 60 99 99 re f", Rotate=9_000_000),
    "rotate-name": plain(b"60 60 99 99 re f", Rotate=Name.Left),
    "unit-zero": plain(b"60 60 99 99 re f", UserUnit=0),
    "unit-negative": plain(b"60 60 99 99 re f", UserUnit=-1),
    "unit-huge": plain(b"60 60 99 99 re f", UserUnit=1_000_000),
    "unit-text": plain(b"60 60 99 99 re f", UserUnit=pikepdf.String("ten")),
    "trim-inside-out": plain(b"60 60 99 99 re f", TrimBox=Array([369, 513, 9, 9])),
    "trim-outside": plain(b"60 60 99 99 re f", TrimBox=Array([900, 900, 1260, 1404])),
    "trim-empty": plain(b"60 60 99 99 re f", TrimBox=Array([9, 9, 9, 9])),
    "trim-short": plain(b"60 60 99 99 re f", TrimBox=Array([9, 9])),
    "trim-names": plain(b"60 60 99 99 re f", TrimBox=Array([Name.A, Name.B, Name.C, Name.D])),
    "trim-as-media": plain(b"60 60 99 99 re f", TrimBox=Array([0, 0, 378, 522])),
    "crop-outside": plain(b"60 60 99 99 re f", CropBox=Array([900, 900, 1000, 1000])),
    "crop-empty": plain(b"60 60 99 99 re f", CropBox=Array([9, 9, 9, 9])),
    "box-none": by_hand(b"null"),
    "box-empty": by_hand(b"[0 0 0 0]"),
    "box-tiny": by_hand(b"[0 0 2 2]"),
    "box-thin": by_hand(b"[0 0 378 1]"),
    "box-huge": by_hand(b"[0 0 1e9 1e9]"),
    "box-large": by_hand(b"[0 0 14400 14400]"),
    "box-negative": by_hand(b"[-378 -522 0 0]"),
    "box-far": by_hand(b"[1e7 1e7 10000378 10000522]"),
    "box-nan": by_hand(b"[0 0 nan inf]"),
    "box-text": by_hand(b"(large)"),
    "box-long": by_hand(b"[" + b"0 " * 5000 + b"]"),
    "box-itself": by_hand(b" 5 0 R", more=b"5 0 obj 5 0 R endobj\n"),
    "contents-missing": by_hand(extra=b"/Contents 77 0 R"),
    "contents-itself": by_hand(extra=b"/Contents[4 0 R 3 0 R 2 0 R]"),
    "contents-many": by_hand(extra=b"/Contents[" + b"4 0 R " * 50_000 + b"]"),
    "wrong-length": by_hand(stream_extra=b"/Length 999999999"),
    "negative-length": by_hand(stream_extra=b"/Length -5"),
    "unknown-filter": by_hand(stream_extra=b"/Filter/Foo"),
    "crypt-filter": by_hand(stream_extra=b"/Filter/Crypt"),
    "filters-many": by_hand(stream_extra=b"/Filter[" + b"/ASCIIHexDecode " * 2000 + b"]"),
    "predictor": by_hand(
        stream_extra=b"/Filter/FlateDecode/DecodeParms<</Predictor 15/Columns 999999999>>"
    ),
    "resources-itself": by_hand(extra=b"/Resources 3 0 R"),
    "forms-in-forms": forms(9, 10),
    "forms-deep": forms(2000, 1),
    "form-itself": itself,
    "pattern-fine": pattern,
    "content-bomb": flate_content,
    "image-huge": image(100_000, 100_000, 8, b"x"),
    "image-30k": image(30_000, 30_000, 1, bomb(30_000 * 30_000 // 8), Filter=Name.FlateDecode),
    "image-bomb": image(40_000, 40_000, 8, bomb(1 << 30), Filter=Name.FlateDecode),
    "image-zero": image(0, 0, 8, b""),
    "image-negative": image(-5, 10, 8, b"xxxx"),
    "image-bits": image(10, 10, 17, bytes(300)),
    "image-mask-itself": image(10, 10, 8, bytes(100), SMask=Dictionary()),
    "image-jpx": image(10, 10, 8, b"noise" * 40, Filter=Name.JPXDecode),
    "image-jbig2": image(10, 10, 1, b"noise" * 40, Filter=Name.JBIG2Decode),
    "image-fax": image(10_000, 10_000, 1, b"noise" * 40, Filter=Name.CCITTFaxDecode),
    "image-icc": image(10, 10, 8, bytes(100), ColorSpace=Array([Name.ICCBased, Dictionary(N=3)])),
    "image-indexed": image(
        10, 10, 8, bytes(100), ColorSpace=Array([Name.Indexed, Name.DeviceRGB, 999, b"x"])
    ),
    "layer": layers(b"(Cut)"),
    "layer-escape": layers(b"(\\033[2J\\033[31mcut\\007)"),
    "layer-long": layers(b"(" + b"cut " * 20_000 + b")"),
    "layer-number": layers(b" 5"),
    "layer-bytes": layers(b"<FEFFD800DC00FFFE0A0D00>"),
    "layer-off-itself": layers(b"(Cut)", b"/OFF 5 0 R/ON[null 3 0 R]/BaseState 7"),
    "layer-usage": layers(b"(Cut)", b"/OFF[5 0 R]", b"/Usage 7/GTS_Metadata[1 2]"),
    "layer-order": layers(b"(Cut)", b"/Order[[[[[[5 0 R]]]]] 7 null]/RBGroups 4"),
    "spot-no-function": spot("Cut", Name.DeviceCMYK, Dictionary()),
    "spot-itself": spot("Cut", Name.Pattern, Dictionary(FunctionType=2, Domain=[0, 1], N=1)),
    "spot-escape": spot(
        "\x1b[2J",
        Name.DeviceCMYK,
        Dictionary(FunctionType=2, Domain=[0, 1], C0=[0, 0, 0, 0], C1=[0, 1, 1, 0], N=1),
    ),
    "spot-huge-power": spot(
        "Cut",
        Name.DeviceCMYK,
        Dictionary(FunctionType=2, Domain=[0, 1], C0=[0, 0, 0, 0], C1=[0, 1, 1, 0], N=10**9),
    ),
}


def _sound() -> bytes:
    import io

    pdf, _ = page(b"60 60 99 99 re f")
    written = io.BytesIO()
    pdf.save(written, object_stream_mode=pikepdf.ObjectStreamMode.disable)
    return written.getvalue()
