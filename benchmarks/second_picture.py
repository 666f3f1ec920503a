"""Draws the demo twice in one process, one card's art changed in between; prints both times.

`python -m benchmarks.second_picture FOLDER`; the demo is copied into the folder first.
"""

from __future__ import annotations

import json
import resource
import shutil
import sys
import time
from pathlib import Path

import pymupdf

from benchmarks.yardstick import ART
from mockup.output.png import write_png
from mockup.render.flatlay import Shot, flatlay_picture
from mockup.render.scenes import read_scene
from mockup.suite.reading import read_suite

WIDTH_PX, ASPECT = 4000, 4 / 3
CHANGED = "invitation.pdf"  # the largest card


def main() -> None:
    folder = Path(sys.argv[1]) / "demo"
    shutil.copytree(ART, folder, dirs_exist_ok=True)
    first = _draw(folder)
    _tint(folder / CHANGED)
    second = _draw(folder)
    unit = 1024 if sys.platform == "linux" else 1024**2
    peak_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / unit
    print(json.dumps({"first": first, "second": second, "peak_mb": peak_mb}))


def _draw(folder: Path) -> float:
    """Returns the seconds from a suite's path to a PNG."""
    began = time.perf_counter()
    suite = read_suite(folder / "suite.toml")
    scene = read_scene(suite.scene.name, folder)
    picture = flatlay_picture(Shot(suite, scene, WIDTH_PX, ASPECT, suite.cut_line))
    write_png(folder / "flatlay.png", picture, 300)
    return time.perf_counter() - began


def _tint(path: Path) -> None:
    """Lays a thin wash over a whole page: every pixel changes, and no mark moves."""
    with pymupdf.open(path) as document:
        page = document[0]
        page.draw_rect(page.rect, color=None, fill=(0.8, 0.5, 0.2), fill_opacity=0.2)
        document.save(path.with_suffix(".new"))
    path.with_suffix(".new").replace(path)


if __name__ == "__main__":
    main()
