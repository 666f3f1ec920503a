"""What changed on a card's back is told of the back, and nothing else of the front."""

from __future__ import annotations

from pathlib import Path

import pymupdf
import pytest

from mockup.asks.changes import changed_since
from mockup.asks.issuing import open_issue
from mockup.asks.proof import ProofRequest, write_proof
from mockup.suite.audience import Audience
from mockup.suite.reading import read_suite
from tests.conftest import make_pdf

pytestmark = pytest.mark.usefixtures("plain_cover")

SIZE_IN, MARK = (3.75, 2.25), "0.2 g 60 50 60 60 re f"  # a small card with 1/8 in round it
SUITE = """
title = "Supper"
client = "Tide Mill"
designer = "Studio"
[pieces.card]
art = "front.pdf"
card = "3.5 x 2 in"
back = "back.pdf"
"""


def test_a_mark_new_on_the_back_is_shown_there(tmp_path: Path) -> None:
    make_pdf(tmp_path / "front.pdf", SIZE_IN, MARK)
    make_pdf(tmp_path / "back.pdf", SIZE_IN, MARK)
    suite = tmp_path / "suite.toml"
    suite.write_text(SUITE, encoding="utf-8")
    write_proof(ProofRequest(suite, tmp_path / "first.pdf", date="2026-11-26"))
    make_pdf(tmp_path / "back.pdf", SIZE_IN, f"{MARK} 180 60 30 30 re f")
    issuing = open_issue(read_suite(suite), Audience.CLIENT, "2026-11-27")
    since = changed_since(issuing, "1")
    assert since is not None
    (item,) = since.items
    assert item.title == "Card, back"
    assert item.how is not None and len(item.how.places) == 1
    write_proof(ProofRequest(suite, tmp_path / "second.pdf", date="2026-11-27"))
    with pymupdf.open(tmp_path / "second.pdf") as pdf:
        text = "".join(str(page.get_text()) for page in pdf)
    assert "What changed since revision" in text and "Card, back" in text
