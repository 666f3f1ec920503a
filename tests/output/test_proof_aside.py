"""A piece's page on the proof says what its picture does not show, and draws it small."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pypdfium2 as pdfium

from mockup.output.proof import Telling, write_proof
from mockup.reading.showing import for_client
from mockup.suite.reading import read_suite
from mockup.suite.suite import Suite
from tests.conftest import make_pdf
from tests.output.demo_proof import issue_of

FLATLAY = np.full((300, 400, 3), 200, np.uint8)
GROUND = "0.9 g -1 -1 400 600 re f 0.2 g 150 200 80 60 re f "
CUT = "1 0 1 RG 0.5 w 9 9 360 504 re S"
SUITE = '[pieces.card]\nart = "card.pdf"\ncard = "A7"\n'


def page_of(suite: Suite, folder: Path) -> tuple[str, set[tuple[int, int, int]]]:
    """Returns the words of the card's page, and the colours of its left half where it is not
    grey."""
    write_proof(Telling(suite, FLATLAY, issue_of(suite)), folder / "proof.pdf")
    page = pdfium.PdfDocument(folder / "proof.pdf")[1]
    words = " ".join(page.get_textpage().get_text_range().split())
    pixels = page.render(scale=3).to_numpy()[:, : 3 * 150, ::-1]
    ink = pixels[(np.ptp(pixels, axis=2) > 60)]
    return words, {tuple(int(v) for v in colour) for colour in ink}


def suite_in(folder: Path, content: str) -> Suite:
    make_pdf(folder / "card.pdf", content=content)
    (folder / "suite.toml").write_text('title = "Tide Mill Supper"\n' + SUITE)
    return read_suite(folder / "suite.toml")


def test_marks_left_out_are_named_and_drawn(tmp_path: Path) -> None:
    words, colours = page_of(for_client(suite_in(tmp_path, GROUND + CUT)), tmp_path)
    assert "not shown here: cut line." in words
    assert colours, "the small drawing has a colour of its own"


def test_a_piece_so_wide_that_its_notes_stand_below_it_is_at_true_size(tmp_path: Path) -> None:
    wide = "1 0 1 RG 0.5 w 9 9 662.4 288 re S"
    make_pdf(tmp_path / "card.pdf", (9.45, 4.25), "0.9 0.9 0.9 rg -1 -1 900 400 re f " + wide)
    told = '[pieces.card]\nart = "card.pdf"\ncard = "9.2 x 4 in"\nquantity = 120\n'
    (tmp_path / "suite.toml").write_text('title = "Tide Mill Supper"\n' + told)
    words, _ = page_of(for_client(read_suite(tmp_path / "suite.toml")), tmp_path)
    assert "True size, 100 %" in words
    assert "not shown here: cut line." in words


def test_nothing_is_said_where_nothing_is_left_out(tmp_path: Path) -> None:
    words, colours = page_of(for_client(suite_in(tmp_path, GROUND)), tmp_path)
    assert "not shown here" not in words
    assert not colours


def test_the_studio_sees_the_art_as_it_is(tmp_path: Path) -> None:
    words, _ = page_of(suite_in(tmp_path, GROUND + CUT), tmp_path)
    assert "not shown here" not in words


def test_what_is_not_drawn_is_said(tmp_path: Path) -> None:
    suite = suite_in(tmp_path, GROUND)
    (tmp_path / "card.svg").write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" width="5.25in" height="7.25in" '
        'viewBox="0 0 21 29"><filter id="b"/><rect width="9" height="9" filter="url(#b)"/></svg>'
    )
    told = (tmp_path / "suite.toml").read_text().replace("card.pdf", "card.svg")
    (tmp_path / "suite.toml").write_text(told)
    suite = read_suite(suite.path)
    words, _ = page_of(for_client(suite), tmp_path)
    assert "a filter (blur, shadow), which this proof does not draw." in words
