"""Saves scenes by cairo: RGB, embedded subsets, no layers."""

import zlib

import cairocffi as cairo

from benchmarks.art.programs.tasks import tasks


def rgb(colour):
    """Returns a colour as RGB shares."""
    c, m, y, k = colour["cmyk"]
    return [(1 - v) * (1 - k) for v in (c, m, y)]


def draw(scene, out):
    """Saves one scene as PDF; the page is the card and its bleed."""
    edge = scene["bleed"] + scene["slug"]
    wide, high = (scene[k] + 2 * edge for k in ("width", "height"))
    surface = cairo.PDFSurface(out, wide * 72, high * 72)
    context = cairo.Context(surface)
    context.scale(72, 72)
    context.translate(edge, edge)
    for mark in scene["marks"]:
        context.new_path()
        {"path": _path, "text": _text, "image": _image}[mark["kind"]](context, mark)
    surface.finish()


def _path(context, mark):
    for verb, *at in mark["steps"]:
        {"M": context.move_to, "L": context.line_to, "C": context.curve_to,
         "Z": context.close_path}[verb](*at)  # fmt: skip
    if mark["fill"]:
        context.set_source_rgb(*rgb(mark["fill"]))
        context.fill_preserve()
    if mark["stroke"]:
        context.set_source_rgb(*rgb(mark["stroke"]))
        context.set_line_width(mark["width_pt"] / 72)
        context.set_dash([v / 72 for v in mark["dash"]])
        caps = {"butt": cairo.LINE_CAP_BUTT, "round": cairo.LINE_CAP_ROUND}
        context.set_line_cap(caps[mark["cap"]])
        context.stroke()


def _text(context, mark):
    context.select_font_face("DejaVu Serif")
    context.set_font_size(mark["size_pt"] / 72)
    context.set_source_rgb(*rgb(mark["colour"]))
    context.move_to(mark["x"], mark["y"])
    context.show_text(mark["text"])


def _image(context, mark):
    wide, high = mark["px"]
    gray = zlib.decompress(bytes.fromhex(mark["data"]))
    pixels = bytearray(b"".join(bytes((v, v, v, 255)) for v in gray))
    picture = cairo.ImageSurface.create_for_data(pixels, cairo.FORMAT_RGB24, wide, high)
    context.save()
    context.translate(mark["x"], mark["y"])
    context.scale(mark["w"] / wide, mark["h"] / high)
    context.set_source_surface(picture)
    context.paint()
    context.restore()


if __name__ == "__main__":
    for scene, out in tasks():
        draw(scene, out)
