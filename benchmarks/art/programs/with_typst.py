"""Saves scenes by typst: CMYK colours, embedded subsets."""

import tempfile
import zlib
from pathlib import Path

import typst

from benchmarks.art.programs.png import png
from benchmarks.art.programs.tasks import tasks


def draw(scene, out):
    """Saves one scene as PDF; the page is the card and its bleed."""
    edge = scene["bleed"] + scene["slug"]
    wide, high = (scene[k] + 2 * edge for k in ("width", "height"))
    with tempfile.TemporaryDirectory() as folder:
        lines = [f"#set page(width: {wide:.5f}in, height: {high:.5f}in, margin: 0pt)"]
        for number, mark in enumerate(scene["marks"]):
            kind = {"path": _path, "text": _text, "image": _image}[mark["kind"]]
            lines.append(kind(mark, edge, Path(folder) / f"{number}.png"))
        source = Path(folder) / "page.typ"
        source.write_text("\n".join(lines))
        typst.compile(str(source), output=out)


def _colour(colour):
    if not colour:
        return "none"
    return "cmyk(" + ", ".join(f"{v * 100:.2f}%" for v in colour["cmyk"]) + ")"


def _at(x, y):
    return f"({x:.6f}in, {y:.6f}in)"


def _path(mark, edge, _file):
    parts = []
    for verb, *at in mark["steps"]:
        at = [v + edge for v in at]
        if verb == "M":
            parts.append(f"curve.move({_at(*at)})")
        elif verb == "L":
            parts.append(f"curve.line({_at(*at)})")
        elif verb == "C":
            parts.append(f"curve.cubic({_at(*at[:2])}, {_at(*at[2:4])}, {_at(*at[4:])})")
        else:
            parts.append('curve.close(mode: "straight")')
    stroke = "none"
    if mark["stroke"]:
        dash = ", ".join(f"{v}pt" for v in mark["dash"])
        dash = f"({dash},)" if dash else "none"
        stroke = (
            f"(paint: {_colour(mark['stroke'])}, thickness: {mark['width_pt']}pt, "
            f'dash: {dash}, cap: "{mark["cap"]}")'
        )
    inner = ", ".join(parts)
    return f"#place(top + left, curve(fill: {_colour(mark['fill'])}, stroke: {stroke}, {inner}))"


def _text(mark, edge, _file):
    x, y = mark["x"] + edge, mark["y"] + edge
    return (
        f"#place(top + left, dx: {x:.6f}in, dy: {y:.6f}in, "
        f'text(font: "DejaVu Serif", size: {mark["size_pt"]}pt, top-edge: "baseline", '
        f"fill: {_colour(mark['colour'])})[{mark['text']}])"
    )


def _image(mark, edge, file):
    wide, high = mark["px"]
    file.write_bytes(png(wide, high, zlib.decompress(bytes.fromhex(mark["data"]))))
    return (
        f"#place(top + left, dx: {mark['x'] + edge:.6f}in, dy: {mark['y'] + edge:.6f}in, "
        f'image("{file.name}", width: {mark["w"]}in, height: {mark["h"]}in, fit: "stretch"))'
    )


if __name__ == "__main__":
    for scene, out in tasks():
        draw(scene, out)
