"""What everything is measured against: MuPDF drawing the pages, Pillow writing the picture."""

from __future__ import annotations

import io
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pymupdf
from PIL import Image

ART = Path(__file__).resolve().parent.parent / "assets_demo"
PPI = 300
ROUNDS = 3


@dataclass(frozen=True)
class Cost:
    """Seconds by the wall and of all processors, and the peak of the largest process, MB."""

    seconds: float
    peak_mb: float
    cpu_seconds: float = 0.0


def rasterise_seconds() -> float:
    """Returns the least of three times MuPDF needs to draw the demo's pages at 300 ppi."""
    return min(_once(_rasterise) for _ in range(ROUNDS))


def encode_seconds(png: Path) -> float:
    """Returns the time Pillow needs to write a picture as PNG with its default settings."""
    with Image.open(png) as picture:
        picture.load()

        def encode() -> None:
            picture.save(io.BytesIO(), "PNG")

        return min(_once(encode) for _ in range(2))


def command_cost(*arguments: str) -> Cost:
    """Returns what one run of the command line costs, from a cold process to its end."""
    command = [sys.executable, "-c", "from mockup.cli.app import main; main()", *arguments]
    return _run(command)


def python_cost(code: str) -> Cost:
    """Returns what a Python one-liner costs, from a cold process to its end."""
    return _run([sys.executable, "-c", code])


def _run(command: list[str]) -> Cost:
    # A small process of its own reads the children's peak, which is a maximum over all of them.
    probe = (
        "import resource, subprocess, sys, time\n"
        "t = time.perf_counter()\n"
        "subprocess.run(sys.argv[1:], check=True, stdout=subprocess.DEVNULL)\n"
        "t = time.perf_counter() - t\n"
        "used = resource.getrusage(resource.RUSAGE_CHILDREN)\n"
        "print(t, used.ru_maxrss, used.ru_utime + used.ru_stime)\n"
    )
    ran = subprocess.run(
        [sys.executable, "-c", probe, *command], check=True, capture_output=True, text=True
    )
    seconds, peak, cpu_seconds = map(float, ran.stdout.split())
    return Cost(seconds, peak / (1024 if sys.platform == "linux" else 1024**2), cpu_seconds)


def _rasterise() -> None:
    for path in sorted(ART.glob("*.pdf")):
        with pymupdf.open(path) as document:
            for page in document:
                page.get_pixmap(dpi=PPI)


def _once(work: Callable[[], None]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start
