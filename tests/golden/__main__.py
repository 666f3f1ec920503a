"""Draws the golden pictures anew: `make goldens`, or some of them: `make goldens ONLY=proof`.

A golden is what somebody has looked at and found right. Whoever renews one looks at the old and the
new of each that changed, whole and zoomed at the edges, and says in the commit why it changed; who
reviews the commit looks as well. A picture nobody has looked at holds a fault in place.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from PIL import Image

from tests.golden.recipes import HERE, RECIPES, Recipe, drawn, lay_out
from tests.pictures import SAME, difference, read


def main(wanted: str) -> None:
    """Draws the goldens of recipes whose names begin with a text, and says how far each moved."""
    for name, recipe in RECIPES.items():
        if name.startswith(wanted):
            with tempfile.TemporaryDirectory() as folder:
                _renew(recipe, Path(folder))
    print(f"Look at every picture that changed, old and new, in {HERE}.")


def _renew(recipe: Recipe, folder: Path) -> None:
    lay_out(folder)
    for name, path in drawn(recipe, folder).items():
        kept = HERE / f"{name}.png"
        new = read(path)
        told = "new"
        if kept.exists():
            old = read(kept)
            worst = difference(new, old).worst if new.shape == old.shape else float("inf")
            if worst == 0:
                continue
            told = f"worst box {worst:.2f}" + (" (within tolerance)" if worst <= SAME else "")
        Image.fromarray(new).save(kept, optimize=True)
        print(f"{kept.name}: {told}, {kept.stat().st_size // 1000} kB")


if __name__ == "__main__":
    main(sys.argv[1] if len(sys.argv) > 1 else "")
