"""The whole demo, and the start of the program, against MuPDF and Pillow alone in the same run."""

from __future__ import annotations

import tempfile
from pathlib import Path

from benchmarks.yardstick import command_cost, encode_seconds, python_cost, rasterise_seconds


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        first = command_cost("demo", folder, "--width", "3000")
        second = command_cost("demo", folder, "--width", "3000")
        pages = rasterise_seconds()
        written = encode_seconds(Path(folder) / "flatlay.png")
        base = pages + written
    print(
        f"MuPDF draws the pages at 300 ppi: {pages:.2f} s; Pillow writes the PNG: {written:.2f} s"
    )
    print(f"demo, first run:  {first.seconds:.2f} s, {first.seconds / base:.1f} x their sum")
    print(
        f"demo, second run: {second.seconds:.2f} s, {second.seconds / base:.1f} x, "
        f"peak {second.peak_mb:.0f} MB"
    )
    bare, typer = python_cost("pass"), python_cost("import typer")
    help_ = min(command_cost("--help").seconds for _ in range(3))
    floor = bare.seconds + (typer.seconds - bare.seconds)
    print(f"--help: {help_ * 1000:.0f} ms, {help_ / floor:.2f} x bare Python and typer's import")
