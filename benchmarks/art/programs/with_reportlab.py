"""Saves scenes by ReportLab: CMYK and spots; layers as marked content, tied up afterwards.

Its files list the standard Helvetica, whether anything is set in it or not.
"""

import zlib

from reportlab.lib.colors import CMYKColor, CMYKColorSep
from reportlab.lib.utils import ImageReader
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from benchmarks.art.programs.tasks import tasks

SERIF = "/usr/share/fonts/truetype/dejavu/DejaVuSerif.ttf"
pdfmetrics.registerFont(TTFont("serif", SERIF))


def colour_of(colour):
    """Returns a colour as the library takes it."""
    c, m, y, k = colour["cmyk"]
    if "spot" in colour:
        return CMYKColorSep(c, m, y, k, spotName=colour["spot"])
    return CMYKColor(c, m, y, k)


def draw(scene, out):
    """Saves one scene as PDF, with a TrimBox."""
    edge = scene["bleed"] + scene["slug"]
    wide, high = ((scene[k] + 2 * edge) * 72 for k in ("width", "height"))
    trim = (edge * 72, edge * 72, wide - edge * 72, high - edge * 72)
    canvas = Canvas(out, (wide, high), trimBox=trim, pageCompression=1)
    names = list(scene["layers"])
    for mark in scene["marks"]:
        if mark.get("layer"):
            canvas._code.append(f"/OC /L{names.index(mark['layer'])} BDC")
        canvas.saveState()
        {"path": _path, "text": _text, "image": _image}[mark["kind"]](canvas, mark, edge, high)
        canvas.restoreState()
        if mark.get("layer"):
            canvas._code.append("EMC")
    canvas.save()


def _path(canvas, mark, edge, high):
    path = canvas.beginPath()
    calls = {"M": path.moveTo, "L": path.lineTo, "C": path.curveTo, "Z": path.close}
    for verb, *at in mark["steps"]:
        calls[verb](*(_xy(at, edge, high)))
    if mark["fill"]:
        canvas.setFillColor(colour_of(mark["fill"]))
    if mark["stroke"]:
        canvas.setStrokeColor(colour_of(mark["stroke"]))
        canvas.setLineWidth(mark["width_pt"])
        canvas.setDash(mark["dash"] or [])
        canvas.setLineCap({"butt": 0, "round": 1}[mark["cap"]])
    canvas.drawPath(path, stroke=bool(mark["stroke"]), fill=bool(mark["fill"]))


def _xy(at, edge, high):
    return [(v + edge) * 72 if k % 2 == 0 else high - (v + edge) * 72 for k, v in enumerate(at)]


def _text(canvas, mark, edge, high):
    canvas.setFillColor(colour_of(mark["colour"]))
    canvas.setFont("Helvetica" if mark["font"] == "standard" else "serif", mark["size_pt"])
    canvas.drawString(*_xy((mark["x"], mark["y"]), edge, high), mark["text"])


def _image(canvas, mark, edge, high):
    from PIL import Image

    gray = Image.frombytes("L", tuple(mark["px"]), zlib.decompress(bytes.fromhex(mark["data"])))
    x, y = _xy((mark["x"], mark["y"] + mark["h"]), edge, high)
    canvas.drawImage(ImageReader(gray), x, y, mark["w"] * 72, mark["h"] * 72)


if __name__ == "__main__":
    for scene, out in tasks():
        draw(scene, out)
