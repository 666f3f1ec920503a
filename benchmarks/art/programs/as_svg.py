"""Scenes as SVG, for the programs that read it: layers as groups with labels."""

import base64
import zlib
from pathlib import Path
from xml.sax.saxutils import escape

from benchmarks.art.programs.png import png
from benchmarks.art.programs.tasks import tasks


def rgb(colour):
    """Returns a colour as #rrggbb, or none."""
    if not colour:
        return "none"
    c, m, y, k = colour["cmyk"]
    return "#" + "".join(f"{round(255 * (1 - v) * (1 - k)):02x}" for v in (c, m, y))


def svg(scene):
    """Returns one scene as SVG, 96 pixels an inch, the page the card and its bleed."""
    edge = scene["bleed"] + scene["slug"]
    wide, high = (scene[k] + 2 * edge for k in ("width", "height"))
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
        f'xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape" width="{wide:.5f}in" '
        f'height="{high:.5f}in" viewBox="{-edge:.5f} {-edge:.5f} {wide:.5f} {high:.5f}">'
    ]
    for mark in scene["marks"]:
        drawn = {"path": _path, "text": _text, "image": _image}[mark["kind"]](mark)
        if mark.get("layer"):
            name = escape(mark["layer"], {'"': "&quot;"})
            drawn = f'<g inkscape:groupmode="layer" inkscape:label="{name}">{drawn}</g>'
        lines.append(drawn)
    return "\n".join([*lines, "</svg>"])


def _path(mark):
    data = " ".join(verb + ",".join(f"{v:.6f}" for v in at) for verb, *at in mark["steps"])
    look = f'fill="{rgb(mark["fill"])}"'
    if mark["stroke"]:
        dash = " ".join(f"{v / 72:.6f}" for v in mark["dash"]) or "none"
        look += (
            f' stroke="{rgb(mark["stroke"])}" stroke-width="{mark["width_pt"] / 72:.6f}" '
            f'stroke-dasharray="{dash}" stroke-linecap="{mark["cap"]}"'
        )
    return f'<path d="{data}" {look}/>'


def _text(mark):
    return (
        f'<text x="{mark["x"]:.5f}" y="{mark["y"]:.5f}" font-family="DejaVu Serif" '
        f'font-size="{mark["size_pt"] / 72:.6f}" fill="{rgb(mark["colour"])}">'
        f"{escape(mark['text'])}</text>"
    )


def _image(mark):
    wide, high = mark["px"]
    data = base64.b64encode(png(wide, high, zlib.decompress(bytes.fromhex(mark["data"])))).decode()
    return (
        f'<image x="{mark["x"]}" y="{mark["y"]}" width="{mark["w"]}" height="{mark["h"]}" '
        f'preserveAspectRatio="none" xlink:href="data:image/png;base64,{data}"/>'
    )


if __name__ == "__main__":
    for scene, out in tasks():
        Path(out).write_text(svg(scene))
