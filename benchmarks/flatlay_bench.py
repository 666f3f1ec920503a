"""A 12 megapixel flat-lay and a preview, cold, against MuPDF and Pillow alone in the same run."""

from __future__ import annotations

import tempfile
from pathlib import Path

from benchmarks.yardstick import ART, command_cost, encode_seconds, rasterise_seconds

SIZES = {"12 megapixels": 4000, "preview": 1600}


def main() -> None:
    pages = rasterise_seconds()
    suite = str(ART / "suite.toml")
    with tempfile.TemporaryDirectory() as folder:
        picture = Path(folder) / "flatlay.png"
        costs = {}
        for name, width in SIZES.items():
            arguments = ("flatlay", suite, "-o", str(picture), "--width", str(width))
            runs = [command_cost(*arguments, "--aspect", "4:3") for _ in range(3)]
            costs[name] = (min(run.seconds for run in runs), max(run.peak_mb for run in runs))
            if name == "12 megapixels":
                base = pages + encode_seconds(picture)
    print(f"MuPDF's pages at 300 ppi and Pillow's 12 MP PNG: {base:.2f} s")
    for name, (seconds, peak_mb) in costs.items():
        print(f"flat-lay, {name}: {seconds:.2f} s, {seconds / base:.2f} x, peak {peak_mb:.0f} MB")
