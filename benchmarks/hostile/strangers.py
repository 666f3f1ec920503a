"""What strangers try next: other classes of broken pages, drawings, texts, arguments and places."""

from __future__ import annotations

import base64
import io
import os
import zlib
from collections.abc import Callable, Iterator
from pathlib import Path

import pikepdf
from pikepdf import Array, Dictionary, Name
from PIL import Image

from benchmarks.hostile.case import Case
from benchmarks.hostile.pdfs import bomb, by_hand, image, layers, page, plain
from benchmarks.hostile.svgs import RECT, svg
from benchmarks.hostile.tomls import demo
from benchmarks.yardstick import ART

Make = Callable[[Path], None]
WRONG = frozenset({2, 3, 4, 5, 7})
SQUARE = b"60 60 99 99 re f"


def _resourced(content: bytes, make: Callable[[pikepdf.Pdf], Dictionary]) -> Make:
    def write(path: Path) -> None:
        pdf, made = page(content)
        made.Resources = make(pdf)
        pdf.save(path)

    return write


def _mask_itself(pdf: pikepdf.Pdf) -> Dictionary:
    group = Dictionary(S=Name.Transparency, CS=Name.DeviceGray)
    form = pdf.make_stream(b"/G gs 0 0 400 600 re f", Subtype=Name.Form, Group=group)
    form.BBox = Array([0, 0, 400, 600])
    state = pdf.make_indirect(Dictionary(SMask=Dictionary(S=Name.Luminosity, G=form)))
    form.Resources = Dictionary(ExtGState=Dictionary(G=state))
    return Dictionary(ExtGState=Dictionary(G=state))


def _glyph_itself(pdf: pikepdf.Pdf) -> Dictionary:
    glyph = pdf.make_stream(b"1000 0 0 0 750 750 d1 BT /F 1 Tf (a) Tj ET 0 0 750 750 re f")
    font = pdf.make_indirect(
        Dictionary(
            Type=Name.Font, Subtype=Name.Type3, FontBBox=Array([0, 0, 750, 750]),
            FontMatrix=Array([0.001, 0, 0, 0.001, 0, 0]), CharProcs=Dictionary(a=glyph),
            Encoding=Dictionary(Differences=Array([97, Name.a])), FirstChar=97, LastChar=97,
            Widths=Array([1000]),
        )
    )  # fmt: skip
    font.Resources = Dictionary(Font=Dictionary(F=font))
    return Dictionary(Font=Dictionary(F=font))


def _pattern_itself(pdf: pikepdf.Pdf) -> Dictionary:
    tile = pdf.make_stream(
        b"/Pattern cs /P scn 0 0 9 9 re f", PatternType=1, PaintType=1, TilingType=1
    )
    tile.BBox, tile.XStep, tile.YStep = Array([0, 0, 10, 10]), 10, 10
    tile = pdf.make_indirect(tile)
    tile.Resources = Dictionary(Pattern=Dictionary(P=tile))
    return Dictionary(Pattern=Dictionary(P=tile))


def _shading(function: Dictionary, **keys: object) -> Callable[[pikepdf.Pdf], Dictionary]:
    def make(_: pikepdf.Pdf) -> Dictionary:
        shading = Dictionary(
            ShadingType=2,
            ColorSpace=Name.DeviceRGB,
            Coords=Array([0, 0, 378, 522]),
            Function=function,
        )
        for key, value in keys.items():
            shading["/" + key] = value
        return Dictionary(Shading=Dictionary(S=shading))

    return make


def _stitched(steps: int) -> Dictionary:
    ramp = Dictionary(
        FunctionType=2, Domain=Array([0, 1]), C0=Array([0, 0, 0]), C1=Array([1, 1, 1]), N=1
    )
    return Dictionary(FunctionType=3, Domain=Array([0, 1]), Functions=Array([ramp] * steps),
                      Bounds=Array([k / steps for k in range(1, steps)]), Encode=Array([0, 1] * steps))  # fmt: skip


def _pages(count: int) -> Make:
    def write(path: Path) -> None:
        pdf, made = page(SQUARE)
        kids = Array([made.obj] * count)
        pdf.Root.Pages.Kids, pdf.Root.Pages.Count = kids, count
        pdf.save(path)

    return write


def _locked(**how: object) -> Make:
    def write(path: Path) -> None:
        pdf, _ = page(SQUARE)
        pdf.save(path, encryption=pikepdf.Encryption(**how))  # type: ignore[arg-type]

    return write


def _rooted(**keys: object) -> Make:
    def write(path: Path) -> None:
        pdf, _ = page(SQUARE)
        for key, value in keys.items():
            pdf.Root["/" + key] = value
        pdf.save(path)

    return write


def _cut(share: float) -> Make:
    def write(path: Path) -> None:
        whole = (ART / "invitation.pdf").read_bytes()
        path.write_bytes(whole[: int(len(whole) * share)])

    return write


def _two_pages_apart(path: Path) -> None:
    pdf, made = page(SQUARE)
    made.obj.Parent = made.obj
    pdf.save(path)


_POWER = Dictionary(
    FunctionType=2, Domain=Array([0, 1]), C0=Array([0, 0, 0]), C1=Array([1, 0, 0]), N=1
)
_VALUES = Dictionary(
    FunctionType=0, Domain=Array([0, 1]), Range=Array([0, 1]), Size=Array([10**9]), BitsPerSample=8
)
_BOXES = {"MediaBox": Array([100, 100, 478, 622]), "Rotate": 270}
PDFS: dict[str, Make] = {
    "aes-user": _locked(owner="o", user="u", R=6),
    "aes-owner": _locked(owner="o", user="", R=6),
    "rc4-owner": _locked(owner="o", user="", R=3, aes=False, metadata=False),
    "xfa": _rooted(AcroForm=Dictionary(Fields=Array([]), XFA=pikepdf.String("<xdp/>"))),
    "open-action": _rooted(OpenAction=Dictionary(S=Name.JavaScript, JS=pikepdf.String("while(1);"))),
    "names-loop": _rooted(Names=Dictionary(EmbeddedFiles=Name.Loop)),
    "parent-itself": _two_pages_apart,
    "cut-half": _cut(0.5), "cut-tail": _cut(0.97), "cut-head": _cut(0.02),
    "turned-offset": plain(b"160 160 99 99 re f", **_BOXES),
    "turned-negative": plain(SQUARE, Rotate=-90),
    "turned-crop": plain(b"160 160 99 99 re f", **_BOXES, CropBox=Array([120, 120, 460, 600])),
    "unit-tiny": plain(SQUARE, UserUnit=1e-9),
    "unit-two": plain(SQUARE, UserUnit=2),
    "trim-nan": by_hand(extra=b"/TrimBox[nan 0 inf 1e999]"),
    "trim-huge": plain(SQUARE, TrimBox=Array([-(10**12), -(10**12), 10**12, 10**12])),
    "bleed-inside": plain(SQUARE, TrimBox=Array([9, 9, 369, 513]), BleedBox=Array([90, 90, 99, 99])),
    "resources-missing": by_hand(stream=b"/F Do /G gs /S sh BT /T 9 Tf (x) Tj ET 60 60 99 99 re f"),
    "type3-itself": _resourced(b"BT /F 40 Tf 60 60 Td (aaa) Tj ET", _glyph_itself),
    "mask-itself": _resourced(b"/G gs 60 60 99 99 re f", _mask_itself),
    "pattern-itself": _resourced(b"/Pattern cs /P scn 0 0 378 522 re f", _pattern_itself),
    "shading": _resourced(b"/S sh", _shading(_POWER)),
    "shading-steps": _resourced(b"/S sh", _shading(_stitched(20_000))),
    "shading-values": _resourced(b"/S sh", _shading(_VALUES)),
    "shading-nowhere": _resourced(b"/S sh", _shading(_POWER, Coords=Array([5, 5, 5, 5]))),
    "pages-many": _pages(5_000),
    "jpx-cut": image(99, 99, 8, b"\0\0\0\x0cjP  \r\n\x87\n\0\0\0\x14ftypjp2 ", Filter=Name.JPXDecode),
    "jpeg-huge": image(9, 9, 8, b"\xff\xd8\xff\xc0\0\x11\x08\xff\xff\xff\xff\3\1\x11\0\2\x11\0\3\x11\0" + bytes(99), Filter=Name.DCTDecode),
    "jbig2-itself": image(99, 99, 1, b"\0\0\0\0\x30\0\1\0\0\0\x13\xff\xff\xff\xff\xff\xff\xff\xff" + bytes(20), Filter=Name.JBIG2Decode),
    "runs": image(9_000, 9_000, 8, b"\x81\0" * 40_000, Filter=Name.RunLengthDecode),
    "image-within": plain(b"q 99 0 0 99 60 60 cm BI /W 99999 /H 99999 /BPC 8 /CS /G ID xxxx EI Q"),
    "twice-packed": image(30_000, 20_000, 8, zlib.compress(bomb(600 << 20), 9), Filter=Array([Name.FlateDecode] * 2)),
    "layer-direction": layers(b"<FEFF202E0063007500740020660A>"),
    "layer-lines": layers(b"(cut\\n\\r\\tdie\\000line)"),
    "layer-intent": layers(b"(Cut)", b"/AS[<</Event/Print/OCGs[5 0 R]/Category[/Print]>>]", b"/Intent[/View 7 null]"),
    "text-many": plain(b"BT /F 9 Tf " + b"(aaaaaaaaaaaaaaaaaaaaaaaaaaaaa) Tj 0 1 Td " * 20_000 + b"ET"),
    "states-many": plain(b"q 1 0 0 1 0.001 0 cm " * 50_000 + SQUARE),
    "dash-long": plain(b"[" + b"1 2 " * 100_000 + b"] 0 d 5 w 0 0 m 378 522 l S"),
    "mitre": plain(b"1e-30 M 1e20 M 9 w 0 0 m 378 522 l 0 0.0001 l S"),
    "clip-all": plain(b"0 0 0 0 re W n 60 60 99 99 re f"),
    "version": lambda p: p.write_bytes(b"%PDF-9.9\n" + b"%" + bytes(range(128, 255))) and None,
    "portfolio": _rooted(Collection=Dictionary(View=Name.D)),
}  # fmt: skip


def _placed(data: bytes) -> Make:
    held = base64.b64encode(data).decode()
    return svg(f'<image href="data:image/png;base64,{held}" width="60" height="60"/>' + RECT)


def _saved(kind: str) -> bytes:
    saved = io.BytesIO()
    Image.effect_noise((90, 90), 60).save(saved, kind)
    return saved.getvalue()


SVGS: dict[str, Make] = {
    "image-cut": _placed(_saved("PNG")[:600]),
    "image-chunk": _placed(_saved("PNG").replace(b"IDAT", b"IDAX")),
    "image-jpeg-cut": _placed(_saved("JPEG")[:600]),
    "image-webp-empty": _placed(b"RIFF\x24\0\0\0WEBPVP8 " + bytes(20)),
    "type-huge": svg('<text font-size="1e9">abc</text>'),
    "id-twice": svg('<g id="a"><use href="#a"/></g><g id="a"/><use href="#a"/>'),
    "arc-flags": svg('<path d="M1 1a5 5 0 01.1.1.1.1"/>'),
    "viewbox-huge": svg(RECT, 'width="5.25in" height="7.25in" viewBox="0 0 1e300 1e300"'),
    "viewbox-tiny": svg(RECT, 'width="5.25in" height="7.25in" viewBox="0 0 1e-300 1e-300"'),
    "viewbox-nan": svg(RECT, 'width="5.25in" height="7.25in" viewBox="nan 0 inf 9"'),
    "transform-nan": svg(f'<g transform="matrix(nan 0 0 inf 0 0)">{RECT}</g>'),
    "clip-ring": svg('<clipPath id="a"><use href="#b"/></clipPath><g id="b" clip-path="url(#a)"><rect width="9" height="9"/></g>'),
    "mask-ring": svg('<mask id="a"><rect mask="url(#b)" width="9" height="9"/></mask><mask id="b"><rect mask="url(#a)" width="9" height="9"/></mask><rect mask="url(#a)" width="9" height="9"/>'),
    "gradient-ring": svg('<linearGradient id="a" href="#b"/><linearGradient id="b" href="#a"/><rect fill="url(#a)" width="99" height="99"/>'),
    "gradient-stops": svg('<linearGradient id="a">' + '<stop offset="nan" stop-color="red"/>' * 5_000 + '</linearGradient><rect fill="url(#a)" width="99" height="99"/>'),
    "image-eps": svg('<image href="data:image/png;base64,JSFQUy1BZG9iZS0zLjAgRVBTRi0zLjAK" width="9" height="9"/>'),
    "image-within": svg('<image href="data:image/png;base64,PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciLz4=" width="9" height="9"/>'),
    "styles-heavy": svg("<style>" + ".a{fill:red}" * 4_900 + "</style>" + '<g class="a"/>' * 20_000),
    "styles-has": svg("<style>g:has(g:has(.b)){fill:red}</style>" + "<g>" * 200 + "</g>" * 200),
    "styles-url": svg("<style>rect{fill:url(https://example.org/x.svg#a)}</style>" + RECT),
    "markers-down": svg('<marker id="m">' + RECT * 900 + '</marker><g marker-mid="url(#m)"><path d="M0 0' + "L1 1" * 5_000 + '"/></g>'),
    "font-face": svg("<style>@font-face{font-family:x;src:url(file:///etc/passwd)}</style>" + RECT),
    "style-units": svg('<rect style="width:9vw;height:1e400px" x="9"/>' + RECT),
    "text-long": svg("<text>" + "word " * 100_000 + "</text>"),
    "attribute-long": svg(f'<rect width="{"9" * 400_000}" height="9"/>' + RECT),
    "points-odd": svg('<polygon points="1 2 3"/><polyline points="a,b"/>' + RECT),
    "arcs-flat": svg('<path d="M9 9A0 0 0 0 1 50 50A1e-300 5 0 1 1 9 90Z" stroke="red"/>'),
    "switch": svg(f'<switch><g systemLanguage="xx">{RECT}</g><foreignObject/></switch>'),
    "base": svg('<g xml:base="file:///etc/"><use href="passwd#a"/></g>' + RECT),
    "processing": lambda p: p.write_bytes(b'<?xml-stylesheet href="x.css"?>' + b"<svg/>") and None,
    "namespace-none": lambda p: p.write_text(f'<svg width="5.25in" height="7.25in">{RECT}</svg>') and None,
}  # fmt: skip

_HEAD = 'title = "T"\n[pieces.one]\nart = "reply.pdf"\ncard = "4-bar landscape"\n'
TOMLS: dict[str, bytes] = {
    "crlf": _HEAD.replace("\n", "\r\n").encode(),
    "cr": _HEAD.replace("\n", "\r").encode(),
    "mark": b"\xef\xbb\xbf" + _HEAD.encode(),
    "utf-16": _HEAD.encode("utf-16-be"),
    "utf-32": _HEAD.encode("utf-32"),
    "zeros": bytes(4_000),
    "keys-many": b"".join(b"a%d.b = 1\n" % k for k in range(60_000)),
    "pieces-many": b"title = 'T'\n" + b"".join(b"[pieces.p%d]\nart = 'x.pdf'\ncard = 'A7'\n" % k for k in range(9_000)),
    "accepts-many": _HEAD.encode() + b"[[accept]]\ncheck = 'x'\nreason = 'y'\n" * 20_000,
    "names-odd": b"title = 'T'\n[pieces.\"\\u202E\\u0007 A\"]\nart = 'x.pdf'\ncard = 'A7'\n",
    "art-itself": _HEAD.replace("reply.pdf", "suite.toml").encode(),
    "art-folder": _HEAD.replace("reply.pdf", ".").encode(),
    "art-device": _HEAD.replace("reply.pdf", "/dev/zero").encode(),
    "art-nul": _HEAD.replace("reply.pdf", "re\\u0000ply.pdf").encode(),
    "inline": b"title = 'T'\npieces = { one = { art = 'reply.pdf', card = '4-bar landscape', die = { shape = { shape = 'x' } } } }\n",
    "shape": _HEAD.encode() + b"die = { shape = 'tickt' }\n",
    "holds-twice": _HEAD.encode() + b"[envelopes.o]\nsize = 'A7'\nholds = ['one', 'one', 'two']\n",
    "scene-up": _HEAD.encode() + b"[scene]\nname = '../../../../etc'\n",
    "scene-device": _HEAD.encode() + b"[scene]\nname = '/dev'\n",
    "only-comment": b"# nothing\n",
}  # fmt: skip
_NUMBERS = (
    "nan",
    "inf",
    "-inf",
    "1e308",
    "1e-308",
    "-0",
    "0x10",
    "1_000",
    "\u0663",
    "9" * 5_000,
    " ",
    "--",
)
_OPTIONS: dict[str, tuple[str, ...]] = {
    "arrange": ("flatlay", "suite.toml", "-o", "o.png", "--width", "300", "--arrange"),
    "run": ("check", "suite.toml", "--run"),
    "seed": ("check", "suite.toml", "--seed"),
    "portfolio": ("portfolio", "suite.toml", "-o", "out", "--scene"),
}


def cases() -> Iterator[Case]:
    """Yields every case, art by the way that does most with it."""
    for k, (name, make) in enumerate(PDFS.items()):
        yield _art(f"stranger-pdf-{name}", make, ".pdf", k)
        yield _art(f"stranger-pdf-{name}", make, ".pdf", k + 1)
    for k, (name, make) in enumerate(SVGS.items()):
        yield _art(f"stranger-svg-{name}", make, ".svg", k)
        yield _art(f"stranger-svg-{name}", make, ".svg", k + 1)
    for name, content in TOMLS.items():
        yield Case(f"stranger-toml-{name}", _suite(content), ("check", "suite.toml"), seconds=20)
    for name, arguments in _OPTIONS.items():
        for k, value in enumerate(_NUMBERS):
            yield Case(f"stranger-{name}-{k}", demo, (*arguments, value))
    yield from _places()


_WAYS = {
    "template": ("piece", "reply.pdf", "--die", "art{e}", "-o", "o.png", "--ppi", "60"),
    "check": ("check", "suite.toml"),
    "piece": ("piece", "art{e}", "-o", "o.png", "--card", "A7", "--ppi", "60"),
}


def _art(name: str, make: Make, ending: str, turn: int) -> Case:
    way = list(_WAYS)[turn % len(_WAYS)]

    def lay(folder: Path) -> None:
        (folder / "reply.pdf").write_bytes((ART / "reply.pdf").read_bytes())
        (folder / "suite.toml").write_text(
            f'title = "T"\n[pieces.one]\nart = "art{ending}"\ncard = "A7"\n', encoding="utf-8"
        )
        make(folder / f"art{ending}")

    arguments = tuple(each.replace("{e}", ending) for each in _WAYS[way])
    return Case(f"{name}-{way}", lay, arguments, kept=(f"art{ending}",))


def _suite(content: bytes) -> Make:
    def lay(folder: Path) -> None:
        demo(folder)
        (folder / "suite.toml").write_bytes(content)

    return lay


def _places() -> Iterator[Case]:
    """Yields odd names and places of files."""

    def named(name: str) -> Make:
        def lay(folder: Path) -> None:
            demo(folder)
            (folder / name).write_bytes((ART / "reply.pdf").read_bytes())

        return lay

    odd = {"newline": "re\nply.pdf", "direction": "re\u202eply.pdf", "bytes": os.fsdecode(b"re\xffply.pdf"),
           "dash": "-reply.pdf", "braces": "re{ply}.pdf", "spaces": " .pdf", "long": "x" * 250 + ".pdf"}  # fmt: skip
    for what, name in odd.items():
        given = f"./{name}".replace("{", "{{").replace("}", "}}")
        yield Case(
            f"stranger-name-{what}", named(name), ("piece", given, "-o", "o.png", "--ppi", "30")
        )
        yield Case(f"stranger-start-{what}", named(name), ("start", given, "-o", "o.toml"))
    yield Case(
        "stranger-argument-bytes", demo, ("piece", os.fsdecode(b"no\xfe.pdf"), "-o", "o.png"), WRONG
    )
    yield Case(
        "stranger-out-bytes",
        demo,
        ("piece", "reply.pdf", "-o", os.fsdecode(b"o\xfe.png"), "--ppi", "30"),
    )
    yield Case("stranger-out-newline", demo, ("piece", "reply.pdf", "-o", "o\n.png", "--ppi", "30"))
    yield Case("stranger-out-dots", demo, ("piece", "reply.pdf", "-o", "..", "--ppi", "30"), WRONG)
    yield Case(
        "stranger-suite-twice", demo, ("flatlay", "suite.toml", "suite.toml", "-o", "o.png"), WRONG
    )
    yield Case("stranger-demo-under-file", demo, ("demo", "suite.toml/x"), WRONG)
    yield Case("stranger-catalogues-file", demo, ("dies", "--catalogues", "suite.toml"), WRONG)
    yield Case("stranger-start-folder", demo, ("start", ".", "-o", "o.toml"))
