"""Saves scenes by LibreOffice Draw: flat drawings converted in one run."""

import base64
import subprocess
import tempfile
import zlib
from pathlib import Path
from xml.sax.saxutils import escape

from benchmarks.art.programs.as_svg import rgb
from benchmarks.art.programs.png import png
from benchmarks.art.programs.tasks import tasks

_SPACES = " ".join(
    f'xmlns:{key}="urn:oasis:names:tc:opendocument:xmlns:{name}:1.0"'
    for key, name in (
        ("office", "office"), ("style", "style"), ("text", "text"), ("draw", "drawing"),
        ("fo", "xsl-fo-compatible"), ("svg", "svg-compatible"),
    )
)  # fmt: skip


def drawing(scene):
    """Returns one scene as a flat OpenDocument drawing, the page the card and its bleed."""
    edge = scene["bleed"] + scene["slug"]
    wide, high = (scene[k] + 2 * edge for k in ("width", "height"))
    styles, shapes, dashes = [], [], []
    for number, mark in enumerate(scene["marks"]):
        kind = {"path": _path, "text": _text, "image": _image}[mark["kind"]]
        style, shape = kind(mark, edge, f"s{number}")
        styles.append(style)
        shapes.append(shape)
        if mark.get("dash"):
            on, off = mark["dash"]
            round_ = "round" if mark["cap"] == "round" else "rect"
            dashes.append(
                f'<draw:stroke-dash draw:name="ds{number}" draw:style="{round_}" draw:dots1="1" '
                f'draw:dots1-length="{on}pt" draw:distance="{off}pt"/>'
            )
    return (
        f'<?xml version="1.0" encoding="UTF-8"?><office:document {_SPACES} '
        f'xmlns:xlink="http://www.w3.org/1999/xlink" office:version="1.2" '
        f'office:mimetype="application/vnd.oasis.opendocument.graphics">'
        f'<office:font-face-decls><style:font-face style:name="DejaVu Serif" '
        f'svg:font-family="DejaVu Serif"/></office:font-face-decls>'
        f"<office:styles>{''.join(dashes)}</office:styles>"
        f'<office:automatic-styles><style:page-layout style:name="p">'
        f'<style:page-layout-properties fo:page-width="{wide:.5f}in" fo:page-height="{high:.5f}in" '
        f'fo:margin="0in" fo:margin-top="0in" fo:margin-bottom="0in" fo:margin-left="0in" '
        f'fo:margin-right="0in"/></style:page-layout>{"".join(styles)}</office:automatic-styles>'
        f'<office:master-styles><style:master-page style:name="m" style:page-layout-name="p"/>'
        f"</office:master-styles><office:body><office:drawing>"
        f'<draw:page draw:master-page-name="m">{"".join(shapes)}</draw:page>'
        f"</office:drawing></office:body></office:document>"
    )


def _path(mark, edge, name):
    points = [v for _, *at in mark["steps"] for v in at]
    left, top = min(points[0::2]), min(points[1::2])
    wide, high = max(points[0::2]) - left, max(points[1::2]) - top
    unit = 25400  # thousandths of a millimetre, so that rounding does not show
    data = " ".join(
        verb + " ".join(str(round((v - (top if k % 2 else left)) * unit)) for k, v in enumerate(at))
        for verb, *at in mark["steps"]
    )
    box = f"0 0 {max(1, round(wide * unit))} {max(1, round(high * unit))}"
    look = 'draw:fill="none"'
    if mark["fill"]:
        look = f'draw:fill="solid" draw:fill-color="{rgb(mark["fill"])}"'
    line = 'draw:stroke="none"'
    if mark["stroke"]:
        kind = "dash" if mark["dash"] else "solid"
        cap = 'svg:stroke-linecap="round"' if mark["cap"] == "round" else ""
        line = (
            f'draw:stroke="{kind}" svg:stroke-color="{rgb(mark["stroke"])}" {cap} '
            f'svg:stroke-width="{mark["width_pt"]}pt" draw:stroke-dash="d{name}"'
        )
    style = (
        f'<style:style style:name="{name}" style:family="graphic">'
        f"<style:graphic-properties {look} {line}/></style:style>"
    )
    if not wide or not high:  # a path without height is drawn to another scale
        (x1, y1), (x2, y2) = (points[:2], points[-2:])
        ends = " ".join(
            f'svg:{key}="{value + edge:.5f}in"'
            for key, value in (("x1", x1), ("y1", y1), ("x2", x2), ("y2", y2))
        )
        return style, f'<draw:line draw:style-name="{name}" {ends}/>'
    shape = (
        f'<draw:path draw:style-name="{name}" svg:x="{left + edge:.5f}in" '
        f'svg:y="{top + edge:.5f}in" svg:width="{wide:.5f}in" svg:height="{high:.5f}in" '
        f'svg:viewBox="{box}" svg:d="{data}"/>'
    )
    return style, shape


def _text(mark, edge, name):
    ascent = 0.939 * mark["size_pt"] / 72  # of DejaVu Serif
    style = (
        f'<style:style style:name="{name}" style:family="graphic"><style:graphic-properties '
        f'draw:stroke="none" draw:fill="none" fo:padding="0in" fo:padding-top="0in" '
        f'fo:padding-left="0in" draw:auto-grow-width="true" draw:textarea-horizontal-align="left"/>'
        f'</style:style><style:style style:name="t{name}" style:family="text">'
        f'<style:text-properties style:font-name="DejaVu Serif" fo:font-family="DejaVu Serif" '
        f'fo:font-size="{mark["size_pt"]}pt" fo:color="{rgb(mark["colour"])}"/></style:style>'
    )
    shape = (
        f'<draw:frame draw:style-name="{name}" svg:x="{mark["x"] + edge:.5f}in" '
        f'svg:y="{mark["y"] + edge - ascent:.5f}in" svg:width="4in" svg:height="0.2in">'
        f'<draw:text-box><text:p><text:span text:style-name="t{name}">'
        f"{escape(mark['text'])}</text:span></text:p></draw:text-box></draw:frame>"
    )
    return style, shape


def _image(mark, edge, name):
    wide, high = mark["px"]
    data = base64.b64encode(png(wide, high, zlib.decompress(bytes.fromhex(mark["data"])))).decode()
    style = f'<style:style style:name="{name}" style:family="graphic"/>'
    shape = (
        f'<draw:frame draw:style-name="{name}" svg:x="{mark["x"] + edge:.5f}in" '
        f'svg:y="{mark["y"] + edge:.5f}in" svg:width="{mark["w"]}in" svg:height="{mark["h"]}in">'
        f"<draw:image><office:binary-data>{data}</office:binary-data></draw:image></draw:frame>"
    )
    return style, shape


if __name__ == "__main__":
    told = tasks()
    with tempfile.TemporaryDirectory() as folder:
        sources = []
        for scene, file in told:
            sources.append(Path(folder) / f"{Path(file).stem}.fodg")
            sources[-1].write_text(drawing(scene))
        profile = f"-env:UserInstallation=file://{folder}/profile"
        out = str(Path(told[0][1]).parent)
        kind = 'pdf:draw_pdf_Export:{"ReduceImageResolution":{"type":"boolean","value":"false"}}'
        subprocess.run(["soffice", profile, "--headless", "--convert-to", kind, "--outdir", out,
                        *map(str, sources)], check=True, capture_output=True)  # fmt: skip
