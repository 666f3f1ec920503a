"""A liner's art: its own size, or a larger sheet whose middle is taken."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.render.envelope import liner_art
from mockup.suite.reading import read_suite
from tests.conftest import make_pdf

SUITE = """
title = "Lined"
[pieces.card]
art = "card.pdf"
card = "A7"
[envelopes.outer]
size = "A7"
liner = "sheet.pdf"
"""


def test_of_a_larger_sheet_the_middle_is_taken(tmp_path: Path) -> None:
    make_pdf(tmp_path / "card.pdf")
    make_pdf(tmp_path / "sheet.pdf", (12, 18))
    (tmp_path / "suite.toml").write_text(SUITE)
    (envelope,) = read_suite(tmp_path / "suite.toml").envelopes
    assert envelope.liner is not None
    _, placement, _ = liner_art(envelope, envelope.liner, 0.125)
    assert placement.trim.centre == pytest.approx((6, 9))
    assert placement.trim.width < 7.25  # narrower than the envelope it slides into
