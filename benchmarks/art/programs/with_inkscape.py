"""Saves scenes by Inkscape, in one run of its shell: opened as SVG, exported as PDF."""

import json
import subprocess
import sys
from pathlib import Path

from benchmarks.art.programs.as_svg import svg

if __name__ == "__main__":
    orders = []
    for each in json.load(open(sys.argv[1])):
        source = Path(each["out"]).with_suffix(".svg")
        source.write_text(svg(each["scene"]))
        orders.append(
            f"file-open:{source}; export-type:pdf; export-filename:{each['out']}; "
            "export-area-page; export-do; file-close"
        )
    subprocess.run(["inkscape", "--shell"], input="\n".join([*orders, "quit"]), text=True,
                   check=True, capture_output=True)  # fmt: skip
