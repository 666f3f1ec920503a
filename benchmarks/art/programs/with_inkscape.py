"""Saves scenes by Inkscape, in one run of its shell: opened as SVG, exported as PDF."""

import subprocess
from pathlib import Path

from benchmarks.art.programs.as_svg import svg
from benchmarks.art.programs.tasks import tasks

if __name__ == "__main__":
    orders = []
    for scene, out in tasks():
        source = Path(out).with_suffix(".svg")
        source.write_text(svg(scene))
        orders.append(
            f"file-open:{source}; export-type:pdf; export-filename:{out}; "
            "export-area-page; export-do; file-close"
        )
    subprocess.run(["inkscape", "--shell"], input="\n".join([*orders, "quit"]), text=True,
                   check=True, capture_output=True)  # fmt: skip
