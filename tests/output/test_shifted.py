"""A run of pieces seen: the die stays in its place, the art goes the other way than the cut."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from mockup.checks.running import try_runs
from mockup.checks.settings import Settings
from mockup.output.shifted import GAP_PX, HEAD_PX, PPI, write_shifted
from mockup.suite.reading import read_suite
from tests.conftest import make_pdf

SQUARE = "0 g 162 162 18 18 re f"  # a quarter inch, its middle 2.375, 2.375 in from the corner


def test_art_moves_against_the_cut(tmp_path: Path) -> None:
    make_pdf(tmp_path / "card.pdf", (4.25, 4.25), f"1 g 0 0 306 306 re f {SQUARE}")
    text = 'title = "Square"\n[pieces.card]\nart = "card.pdf"\ncard = "4 x 4 in"\nstock = "smooth-120-white"\n'
    (tmp_path / "suite.toml").write_text(text)
    suite = read_suite(tmp_path / "suite.toml")
    settings = replace(Settings(), turn_deg=0.0)
    write_shifted(tmp_path / "run.png", suite, settings)
    (run,) = try_runs(suite.pieces, settings)
    with Image.open(tmp_path / "run.png") as picture:
        assert picture.info["dpi"][0] == pytest.approx(PPI, abs=0.1)
        grey = np.asarray(picture.convert("L")).astype(float)
    across = (grey.shape[1] - GAP_PX) // 3
    top = HEAD_PX + GAP_PX // 2
    for place, k in enumerate(run.chosen()):
        left = GAP_PX + place * across
        cell = grey[top + 60 : -GAP_PX - 60, left + 60 : left + across - GAP_PX - 60]
        rows, columns = np.nonzero(cell < 100)  # black ink on uncoated paper is at 75
        margin = (across - GAP_PX - 4 * PPI) / 2  # round the die, for the line
        x = (columns.mean() + 0.5 + 60 - margin) / PPI
        y = (rows.mean() + 0.5 + 60 - margin) / PPI
        right, down, _ = run.moves[k]
        # The square's middle is 2.25, 1.75 in from the trim's top left.
        assert (x, y) == pytest.approx((2.25 - right, 1.75 - down), abs=1.5 / PPI)
    assert np.hypot(*run.moves[run.chosen()[2]][:2]) > 0.02
