"""What pictures cost against MuPDF and Pillow alone in the same run, and the memory they take.

Cold: a fresh process from its start to its end, as from the command line. Warm: the same process
draws the demo once more with one card's art changed. The yardstick (MuPDF draws the demo's pages at
300 ppi, Pillow writes the 12 megapixel picture with its defaults) is measured again before each
round; the least of the rounds counts on both sides.
"""

from __future__ import annotations

import compileall
import json
import subprocess
import sys
import tempfile
from pathlib import Path

from benchmarks.yardstick import ART, Cost, command_cost, encode_seconds, rasterise_seconds

ROOT = Path(__file__).resolve().parent.parent
SIZES = {"12 megapixels": 4000, "preview of 1600 px": 1600}
ROUNDS = 3
POSTER_PPI = 1950  # a 5 x 7 in card is then 134 megapixels


def main() -> None:
    compileall.compile_dir(ROOT / "mockup", quiet=1)  # as pip leaves what it installs
    suite = str(ART / "suite.toml")
    bases: list[float] = []
    costs: dict[str, list[Cost]] = {name: [] for name in SIZES}
    with tempfile.TemporaryDirectory() as folder:
        picture = Path(folder) / "flatlay.png"
        for _ in range(ROUNDS):
            for name, width in SIZES.items():
                arguments = ("flatlay", suite, "-o", str(picture), "--width", str(width))
                costs[name].append(command_cost(*arguments, "--aspect", "4:3"))
                if width == 4000:
                    bases.append(rasterise_seconds() + encode_seconds(picture))
        base = min(bases)
        print(f"yardstick: MuPDF's pages at 300 ppi and Pillow's 12 MP PNG: {base:.2f} s")
        for name, runs in costs.items():
            seconds, peak = min(r.seconds for r in runs), max(r.peak_mb for r in runs)
            cpu = min(r.cpu_seconds for r in runs)
            print(
                f"flat-lay, {name}, cold: {seconds:.2f} s ({cpu:.2f} s of processors), "
                f"{seconds / base:.2f} x the yardstick, peak {peak:.0f} MB"
            )
        _second(folder)
        _poster(folder)


def _second(folder: str) -> None:
    command = [sys.executable, "-m", "benchmarks.second_picture", folder]
    rounds: list[dict[str, float]] = []
    for _ in range(ROUNDS):
        ran = subprocess.run(command, check=True, capture_output=True, text=True, cwd=ROOT)
        rounds.append(json.loads(ran.stdout))
    first, second = (min(each[name] for each in rounds) for name in ("first", "second"))
    print(
        f"flat-lay, 12 megapixels, warm, one card's art changed: {second:.2f} s, "
        f"{second / first:.2f} x the first ({first:.2f} s), "
        f"peak {max(each['peak_mb'] for each in rounds):.0f} MB"
    )


def _poster(folder: str) -> None:
    art, target = str(ART / "invitation.pdf"), str(Path(folder) / "piece.png")
    words = ("piece", art, "--die", "lancet-arch", "--ppi", str(POSTER_PPI), "-o", target)
    for stock in ("smooth-120-white", "cotton-110-white"):
        cost = command_cost(*words, "--stock", stock)
        print(
            f"piece of 134 megapixels on {stock}, cold: {cost.seconds:.1f} s, "
            f"peak {cost.peak_mb:.0f} MB"
        )
