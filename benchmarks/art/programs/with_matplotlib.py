"""Saves scenes by matplotlib: RGB, type as Type 42."""

import zlib

import matplotlib

matplotlib.use("pdf")
import matplotlib.pyplot as plt
import numpy as np
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from benchmarks.art.programs.tasks import tasks

plt.rcParams["pdf.fonttype"] = 42
_CODES = {"M": [Path.MOVETO], "L": [Path.LINETO], "C": [Path.CURVE4] * 3, "Z": [Path.CLOSEPOLY]}


def rgb(colour):
    """Returns a colour as RGB shares."""
    c, m, y, k = colour["cmyk"]
    return [(1 - v) * (1 - k) for v in (c, m, y)]


def draw(scene, out):
    """Saves one scene as PDF; the page is the card and its bleed."""
    edge = scene["bleed"] + scene["slug"]
    wide, high = (scene[k] + 2 * edge for k in ("width", "height"))
    figure = plt.figure(figsize=(wide, high))
    axes = figure.add_axes((0, 0, 1, 1))
    axes.set_xlim(-edge, wide - edge)
    axes.set_ylim(high - edge, -edge)
    axes.axis("off")
    for order, mark in enumerate(scene["marks"]):
        {"path": _path, "text": _text, "image": _image}[mark["kind"]](axes, mark, order)
    axes.set_xlim(-edge, wide - edge)
    axes.set_ylim(high - edge, -edge)
    figure.savefig(out)
    plt.close(figure)


def _path(axes, mark, order):
    points, codes = [], []
    for verb, *at in mark["steps"]:
        codes += _CODES[verb]
        points += [at[k : k + 2] for k in range(0, len(at), 2)] or [points[-1]]
    style = {"butt": "butt", "round": "round"}[mark["cap"]]
    dashed = (0, [v / mark["width_pt"] for v in mark["dash"]]) if mark["dash"] else "solid"
    patch = PathPatch(
        Path(points, codes), zorder=order, capstyle=style, linestyle=dashed,
        facecolor=rgb(mark["fill"]) if mark["fill"] else "none",
        edgecolor=rgb(mark["stroke"]) if mark["stroke"] else "none",
        linewidth=mark["width_pt"] if mark["stroke"] else 0,
    )  # fmt: skip
    axes.add_patch(patch)


def _text(axes, mark, order):
    axes.text(mark["x"], mark["y"], mark["text"], fontsize=mark["size_pt"], zorder=order,
              color=rgb(mark["colour"]), family="DejaVu Serif", va="baseline")  # fmt: skip


def _image(axes, mark, order):
    wide, high = mark["px"]
    gray = np.frombuffer(zlib.decompress(bytes.fromhex(mark["data"])), np.uint8)
    left, top = mark["x"], mark["y"]
    axes.imshow(gray.reshape(high, wide), cmap="gray", vmin=0, vmax=255, zorder=order,
                interpolation="none", aspect="auto",
                extent=(left, left + mark["w"], top + mark["h"], top))  # fmt: skip


if __name__ == "__main__":
    for scene, out in tasks():
        draw(scene, out)
