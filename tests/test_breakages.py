"""The planted breakages stay plantable: each finds the text it breaks, once, in the code as it is."""

from __future__ import annotations

from pathlib import Path

import mockup
from benchmarks.breakages import BREAKAGES

ROOT = Path(mockup.__file__).parent


def test_every_breakage_finds_its_text_once() -> None:
    texts = {row.file: (ROOT / row.file).read_text(encoding="utf-8") for row in BREAKAGES}
    moved = [(row.file, row.name) for row in BREAKAGES if texts[row.file].count(row.old) != 1]
    assert not moved
    assert all(row.old != row.new for row in BREAKAGES)
