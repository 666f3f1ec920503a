"""What finishes cost: a 12 megapixel flat-lay of the demo with foil and debossing, and without.

    python -m benchmarks.finishes_bench

Both are drawn cold, a fresh process each, in turn; the least of the rounds counts on both sides,
and the greatest memory. Every ink of one card is foiled and of another debossed: more than any
order has.
"""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path

from benchmarks.yardstick import ART, Cost, command_cost

ROUNDS = 3
_WORKED = {
    "[pieces.details]": 'finish = [{ as = "foil", art = "details.pdf", metal = "gold" }]',
    "[pieces.invitation]": 'finish = [{ as = "deboss", art = "invitation.pdf" }]',
}


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        plain = Path(folder) / "art"
        shutil.copytree(ART, plain)
        suite = plain / "suite.toml"
        text = suite.read_text()
        for table, line in _WORKED.items():
            text = text.replace(table, f"{table}\n{line}", 1)
        finished = plain / "finished.toml"
        finished.write_text(text)
        runs: dict[str, list[Cost]] = {"without": [], "with": []}
        for _ in range(ROUNDS):
            for name, path in (("without", suite), ("with", finished)):
                target = str(plain / f"{name}.png")
                words = ("flatlay", str(path), "-o", target, "--width", "4000", "--aspect", "4:3")
                runs[name].append(command_cost(*words))
    best = {name: min(run.seconds for run in each) for name, each in runs.items()}
    for name, each in runs.items():
        cpu, peak = min(run.cpu_seconds for run in each), max(run.peak_mb for run in each)
        print(
            f"{name} finishes: {best[name]:.2f} s ({cpu:.2f} s of processors), peak {peak:.0f} MB"
        )
    print(f"with / without: {best['with'] / best['without']:.2f}")


if __name__ == "__main__":
    main()
