"""Saves scenes by fpdf2: RGB, its core fonts left out of the file, others embedded."""

import zlib

from fpdf import FPDF
from fpdf.drawing import DeviceRGB, PaintedPath

from benchmarks.art.programs.tasks import tasks

SERIF = "/usr/share/fonts/truetype/dejavu/DejaVuSerif.ttf"


def rgb(colour):
    """Returns a colour as RGB shares."""
    c, m, y, k = colour["cmyk"]
    return [(1 - v) * (1 - k) for v in (c, m, y)]


def draw(scene, out):
    """Saves one scene as PDF; the page is the card and its bleed."""
    edge = scene["bleed"] + scene["slug"]
    pdf = FPDF(unit="in", format=(scene["width"] + 2 * edge, scene["height"] + 2 * edge))
    pdf.set_auto_page_break(False)
    pdf.set_margin(0)
    pdf.add_page()
    pdf.add_font("serif", fname=SERIF)
    for mark in scene["marks"]:
        {"path": _path, "text": _text, "image": _image}[mark["kind"]](pdf, mark, edge)
    pdf.output(out)


def _path(pdf, mark, edge):
    with pdf.drawing_context() as context:
        path = PaintedPath()
        calls = {"M": path.move_to, "L": path.line_to, "C": path.curve_to, "Z": path.close}
        for verb, *at in mark["steps"]:
            calls[verb](*(v + edge for v in at))
        path.style.fill_color = DeviceRGB(*rgb(mark["fill"])) if mark["fill"] else None
        path.style.auto_close = False
        path.style.stroke_color = DeviceRGB(*rgb(mark["stroke"])) if mark["stroke"] else None
        path.style.stroke_width = mark["width_pt"] / 72
        path.style.stroke_dash_pattern = [v / 72 for v in mark["dash"]] or None
        path.style.stroke_cap_style = mark["cap"]
        context.add_item(path)


def _text(pdf, mark, edge):
    pdf.set_font("helvetica" if mark["font"] == "standard" else "serif", size=mark["size_pt"])
    pdf.set_text_color(*(round(v * 255) for v in rgb(mark["colour"])))
    pdf.text(mark["x"] + edge, mark["y"] + edge, mark["text"])


def _image(pdf, mark, edge):
    from PIL import Image

    gray = Image.frombytes("L", tuple(mark["px"]), zlib.decompress(bytes.fromhex(mark["data"])))
    pdf.image(gray, mark["x"] + edge, mark["y"] + edge, mark["w"], mark["h"])


if __name__ == "__main__":
    for scene, out in tasks():
        draw(scene, out)
