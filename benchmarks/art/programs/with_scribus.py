"""Saves scenes by Scribus: CMYK and spots, layers as groups of optional content, a TrimBox.

Run twice: outside, to start the program on a screen that is none; inside, by the program itself.
"""

import json
import os
import subprocess
import sys
import tempfile
import zlib
from pathlib import Path

_INSIDE = "SCENES_FOR_SCRIBUS"


def outside(tasks):
    """Starts the program on this file."""
    environment = {**os.environ, _INSIDE: tasks}
    with tempfile.TemporaryDirectory() as home:
        environment["HOME"] = home
        script = str(Path(__file__).resolve())
        subprocess.run(["xvfb-run", "-a", "scribus", "-g", "-ns", "-py", script],
                       env=environment, check=True, capture_output=True, timeout=900)  # fmt: skip


def draw(scene, out):
    """Saves one scene as PDF."""
    import scribus

    wide, high = scene["width"] * 72, scene["height"] * 72
    scribus.newDocument((wide, high), (0, 0, 0, 0), 0, 1, scribus.UNIT_POINTS, 0, 0, 1)
    bleed = scene["bleed"] * 72
    for name in scene["layers"]:
        scribus.createLayer(name)
    base = scribus.getLayers()[0]
    for mark in scene["marks"]:
        scribus.setActiveLayer(mark.get("layer") or base)
        {"path": _path, "text": _text, "image": _image}[mark["kind"]](scribus, mark, out)
    pdf = scribus.PDFfile()
    pdf.file = out
    pdf.version = 15
    pdf.outdst = 1
    pdf.useLayers = bool(scene["layers"])
    pdf.useDocBleeds = False
    pdf.bleedt = pdf.bleedb = pdf.bleedl = pdf.bleedr = bleed
    pdf.fontEmbedding = 0
    pdf.save()
    scribus.closeDoc()


def _colour(scribus, colour):
    if not colour:
        return "None"
    c, m, y, k = colour["cmyk"]
    name = colour.get("spot") or "c" + "_".join(str(round(v * 1000)) for v in (c, m, y, k))
    scribus.defineColorCMYKFloat(name, c * 100, m * 100, y * 100, k * 100)
    if "spot" in colour:
        scribus.setSpotColor(name, True)
    return name


def _path(scribus, mark, _out):
    for points, closed in flattened(mark["steps"]):
        flat = [v * 72 for point in points for v in point]
        item = (scribus.createPolygon if closed else scribus.createPolyLine)(flat)
        scribus.setFillColor(_colour(scribus, mark["fill"]), item)
        scribus.setLineColor(_colour(scribus, mark["stroke"]), item)
        if mark["stroke"]:
            scribus.setLineWidth(mark["width_pt"], item)
            scribus.setLineCap(0 if mark["cap"] == "butt" else 32, item)
            if mark["dash"]:
                scribus.setLineStyle(2, item)


def flattened(steps):
    """Returns the sub-paths as points, curves in 24 pieces, and whether each is closed."""
    runs = []
    for verb, *at in steps:
        if verb == "M":
            runs.append([[tuple(at)], False])
        elif verb == "L":
            runs[-1][0].append(tuple(at))
        elif verb == "C":
            start = runs[-1][0][-1]
            corners = (start, at[:2], at[2:4], at[4:])
            for k in range(1, 25):
                t = k / 24
                weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
                runs[-1][0].append(
                    tuple(
                        sum(w * c[k] for w, c in zip(weights, corners, strict=True)) for k in (0, 1)
                    )
                )
        else:
            runs[-1][1] = True
            if runs[-1][0][0] == runs[-1][0][-1]:
                runs[-1][0].pop()
    return runs


def _text(scribus, mark, _out):
    ascent = 0.939 * mark["size_pt"]
    frame = scribus.createText(mark["x"] * 72, mark["y"] * 72 - ascent, 300, mark["size_pt"] * 2)
    scribus.setText(mark["text"], frame)
    scribus.setFont("DejaVu Serif Book" if "DejaVu Serif Book" in scribus.getFontNames()
                    else "DejaVu Serif Regular", frame)  # fmt: skip
    scribus.setFontSize(mark["size_pt"], frame)
    scribus.setTextColor(_colour(scribus, mark["colour"]), frame)
    scribus.setLineSpacing(mark["size_pt"] * 1.2, frame)


def _image(scribus, mark, out):
    from benchmarks.art.programs.png import png

    wide, high = mark["px"]
    file = f"{out}.{round(mark['x'] * 1000)}.png"
    Path(file).write_bytes(png(wide, high, zlib.decompress(bytes.fromhex(mark["data"]))))
    frame = scribus.createImage(mark["x"] * 72, mark["y"] * 72, mark["w"] * 72, mark["h"] * 72)
    scribus.loadImage(file, frame)
    scribus.setScaleImageToFrame(True, False, frame)


if _INSIDE in os.environ:
    sys.path.insert(0, str(Path(__file__).resolve().parents[3]))
    for each in json.loads(Path(os.environ[_INSIDE]).read_text()):
        draw(each["scene"], each["out"])
elif __name__ == "__main__":
    outside(sys.argv[1])
