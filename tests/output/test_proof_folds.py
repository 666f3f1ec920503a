"""A folded card on its proof and its order: the flat sheet, what it is folded to, its fold."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pypdfium2 as pdfium
import pytest

from mockup.ordering.bill import NO_FOLDS, bill_of
from mockup.output.marked import FOLD
from mockup.output.order_told import OrderTold, item_rows
from mockup.output.proof import Telling, write_proof
from mockup.printers.catalogue import find_printers
from mockup.record.fingerprint import fingerprints
from mockup.record.status import Standing
from mockup.suite.audience import Audience
from mockup.suite.reading import read_suite
from mockup.suite.suite import Suite
from tests.conftest import make_pdf
from tests.output.demo_proof import issue_of

FLATLAY = np.full((30, 40, 3), 200, np.uint8)
SUITE = """
title = "Supper"
[pieces.place]
art = "place.pdf"
card = "3.5 x 2 in"
fold = "top"
inside = { page = 2 }
quantity = 90
"""


@pytest.fixture
def suite(tmp_path: Path) -> Suite:
    """A tent of 3.5 by 2 in, whose flat sheet is 4 in high."""
    make_pdf(tmp_path / "place.pdf", (3.75, 4.25), "0.2 g 60 60 60 40 re f", pages=2)
    (tmp_path / "suite.toml").write_text(SUITE, encoding="utf-8")
    return read_suite(tmp_path / "suite.toml")


@pytest.mark.parametrize("audience", Audience)
def test_both_sides_are_shown_flat_and_only_the_studio_is_drawn_the_fold(
    suite: Suite, tmp_path: Path, audience: Audience
) -> None:
    path = tmp_path / "proof.pdf"
    write_proof(Telling(suite, FLATLAY, issue_of(suite), audience), path)
    pdf = pdfium.PdfDocument(path)
    words = [" ".join(page.get_textpage().get_text_range().split()) for page in pdf]
    assert "Rectangle, folded" in words[0]
    for page, title, where in ((1, "outside", "is the front"), (2, "inside", "lies under")):
        assert f"Place, {title}" in words[page]
        assert "3.5 × 4 in flat" in words[page]
        assert "At the top, to 3.5 × 2 in" in words[page]
        assert f"The lower half {where}" in words[page]
        pixels = pdf[page].render(scale=4).to_numpy()[..., ::-1].astype(np.int16)
        near = [np.abs(pixels[..., k] - FOLD[k]) < 40 for k in range(3)]
        green = np.logical_and.reduce(near).any()
        assert green == (audience is Audience.STUDIO)


def test_an_order_says_what_the_flat_sheet_is_folded_to(suite: Suite) -> None:
    standings = tuple(Standing(each, "not proofed") for each in fingerprints(suite))
    (row,) = item_rows(OrderTold(suite, "2026-11-26", standings, ()))
    assert row["size"] == "3.5 × 4 in flat, folded at the top to 3.5 × 2 in"
    assert row["sides"] == "both sides"


def test_no_catalogue_prices_a_fold(suite: Suite, art: Path) -> None:
    (printer, *_) = find_printers(art / "printers", [], art / "suite.toml")
    bill = bill_of(suite, printer)
    (fold,) = [line for line in bill.lines if "folded" in line.what]
    assert (fold.amount, fold.note) == (None, NO_FOLDS)
    assert not bill.whole
