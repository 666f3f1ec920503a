"""What a proof says of screens, from the suite it is of."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pypdfium2 as pdfium
import pytest

from mockup.output.proof import Telling, write_proof
from mockup.output.proof.screen import screen_told
from mockup.suite.audience import Audience
from mockup.suite.suite import Suite
from tests.output.demo_proof import FLATLAY, demo_suite, issue_of


@pytest.fixture(scope="module")
def suite(tmp_path_factory: pytest.TempPathFactory) -> Suite:
    return demo_suite(tmp_path_factory.mktemp("suite"))


def test_it_names_the_press_the_papers_and_their_colour(suite: Suite) -> None:
    told = screen_told(suite, Audience.STUDIO).replace("\u00a0", " ")
    assert "FOGRA39L" in told
    assert "smooth 120 white (Lab 96 0 2)" in told  # of #f5f4f0, under D50 by colour-science
    assert "not all of these were measured" in told
    assert "no contract proof" in told
    assert "D50" in told


def test_a_measured_paper_is_not_called_a_guess(suite: Suite) -> None:
    measured = tuple(
        replace(piece, stock=replace(piece.stock, colour_source="a swatch"))
        for piece in suite.pieces
    )
    told = screen_told(replace(suite, pieces=measured, envelopes=()), Audience.CLIENT)
    assert "measured" not in told


def test_every_proof_says_so(suite: Suite, tmp_path: Path) -> None:
    path = tmp_path / "proof.pdf"
    small = replace(suite, pieces=suite.pieces[1:2], envelopes=())
    pages = write_proof(Telling(small, FLATLAY, issue_of(small)), path)
    with pdfium.PdfDocument(path) as read:
        text = " ".join(read[k].get_textpage().get_text_range() for k in range(pages))
    said = " ".join(text.split())
    assert "no contract proof" in said
    assert "D50" in said
    assert "(Lab" not in said  # figures are the studio's
